namespace Undercroft.Importing.Cells;

/// <summary>Containers and the volumes that belong to them.</summary>
public sealed partial class QuantityScan
{
    private int VolumeFrom(int i)
    {
        var word = Word(i + 1);
        var fluid = word is "fl" or "fluid";
        var unitEnd = fluid ? Skip(Skip(i + 2, ".") + 1, ".") : Skip(Skip(i + 1, "-") + 1, ".");
        if (fluid)
            return Sized(i, unitEnd, Value(i, UnitWords.FluidOunceMl) * UnitWords.FluidOunceMl, null);
        var unit = Word(unitEnd - 1) == "." ? Word(unitEnd - 2) : Word(unitEnd - 1);
        var per = UnitWords.Millilitres[unit];
        if (!UnitWords.NamesJars(unit) || Whole(i) is not { } count || count == 1)
            return Sized(i, unitEnd, Value(i, per) * per, null);
        // "4 pint jars" are four; "2 quart jar" is one of two quarts; "4 pints" are four.
        var vessel = ContainerWithin(unitEnd, 2);
        var plural = vessel is { } at ? VesselWords.Vessels[tokens[at].Text].Plural : unit.EndsWith('s');
        return plural ? Sized(i, unitEnd, per, count) : Sized(i, unitEnd, per * count, null);
    }

    // A volume and the container that it belongs to.
    private int Sized(int start, int after, double ml, int? count)
    {
        if (facts.Vessel is { Ml: null } known)
        {
            facts.Vessel = known with { Ml = ml, Count = known.Count ?? count };
            return Times(after);
        }

        if (facts.Vessel is not null)
            return start;
        if (ContainerWithin(Skip(after, "-"), 3) is { } vessel)
            return TakeVessel(start, vessel, ml, count);
        facts.Vessel = new Vessel(VesselKind.Unsaid, ml, count, false, false, false, text[tokens[start].Start..tokens[after - 1].End]);
        return Times(after);
    }

    private int TakeVessel(int start, int at, double? ml, int? count)
    {
        var (kind, plural) = VesselWords.Vessels[tokens[at].Text];
        bool vacuum = false, foil = false, zip = false, clamp = false;
        var from = Math.Max(0, at - 4);
        for (var k = from; k < Math.Min(tokens.Count, at + 3); k++)
        {
            var word = tokens[k].Text;
            vacuum |= VesselWords.VacuumMarks.Contains(word);
            foil |= VesselWords.FoilMarks.Contains(word);
            zip |= VesselWords.ZipMarks.Contains(word);
            clamp |= VesselWords.ClampMarks.Contains(word);
        }

        if (clamp && kind == VesselKind.Jar)
            kind = VesselKind.ClampJar;
        var first = start;
        while (first > 0 && !taken[first - 1] && VesselWords.Adjectives.Contains(tokens[first - 1].Text) && tokens[first - 1].Text is not ("open" or "opened" or "the" or "of"))
            taken[--first] = true;
        // "tin/jar": a second kind of container is a doubt, not a choice of ours.
        if (Word(at + 1) is "/" or "or" && VesselWords.Vessels.TryGetValue(Word(at + 2), out var other) && other.Vessel != kind)
        {
            var (one, two) = (tokens[at].Text, Word(at + 2));
            var both = text[tokens[at].Start..tokens[at + 2].End];
            facts.Doubts.Add(new CellDoubt("kind-of-container", $"'{text.Trim()}' names two kinds of container.",
                ("kind-" + one, one, text.Replace(both, one, StringComparison.Ordinal)), ("kind-" + two, two, text.Replace(both, two, StringComparison.Ordinal))));
            kind = VesselKind.Unsaid;
        }

        for (var k = first; k < at; k++)
            facts.Open |= tokens[k].Text is "open" or "opened";
        facts.Vessel = new Vessel(kind, ml, count, vacuum, foil, zip, text[tokens[first].Start..tokens[at].End]);
        if (plural && count is null && facts.Count is null)
            facts.Vessel = facts.Vessel with { Count = 0 };
        return Times(at + 1);
    }

    // "8oz jar x 3"
    private int Times(int after)
    {
        if (!SmallWords.Times.Contains(Word(after)) || Whole(after + 1) is not { } count || MassAt(after + 1, out _))
            return after;
        if (facts.Vessel is { Count: null or 0 } vessel)
            facts.Vessel = vessel with { Count = count };
        return after + 2;
    }

    private int? ContainerWithin(int from, int words)
    {
        for (var k = from; k < Math.Min(tokens.Count, from + words + 1); k++)
        {
            if (tokens[k].Kind == TokenKind.Number)
                return null;
            if (VesselWords.Vessels.ContainsKey(tokens[k].Text))
                return k;
            if (!VesselWords.Adjectives.Contains(tokens[k].Text) && !UnitWords.NamesJars(tokens[k].Text) && tokens[k].Text is not ("-" or "half"))
                return null;
        }

        return null;
    }
}
