namespace Undercroft.Importing.Cells;

/// <summary>Amounts that are said in words or by halves: <c>one and a half oz</c>, <c>&lt;50g</c>, <c>50g or 100g</c>, <c>50g - 10g smoked</c>, <c>3 tins, 1 open</c>.</summary>
public sealed partial class QuantityScan
{
    // 1 open, two sealed, one of them open, 3 gone
    private int State(int i)
    {
        // '15 is a year, and so is what stands beside a point or a stroke.
        if (Counting(i) is not ({ } count and <= 60) || (i > 0 && tokens[i - 1].End == tokens[i].Start && tokens[i - 1].Kind == TokenKind.Mark && !tokens[i - 1].Is("(") && !tokens[i - 1].Is("+") && !tokens[i - 1].Is(",")))
            return i;
        var at = i + 1;
        while (Word(at) is "of" or "them" or "is" or "are" or "being" or "already" or "still" or "davon" or "ist" or "sind" or "est" or "sont" or "er" or "es" or "e" or "is" or "zijn" or "esta" or "estan" or "уже")
            at++;
        var word = Word(at);
        // "12 opened 2019" is a date and not a count.
        if (Next(at + 1) is { Kind: TokenKind.Number } && !MassAt(at + 1, out _))
            return i;
        // "1 open 50g tin" is one open tin of 50 g: the count goes on.
        if (SmallWords.Open.Contains(word) && facts.OpenOnes is null)
            facts.OpenOnes = count;
        else if (SmallWords.Closed.Contains(word) && facts.ClosedOnes is null && word is not ("new" or "intact"))
            facts.ClosedOnes = count;
        else if (SmallWords.Gone.Contains(word) && facts.GoneOnes is null && word != "vide" && (facts.Portions.Count > 0 || facts.Vessel is not null || facts.Count is not null || setting.BareIsCount))
            facts.GoneOnes = count;
        else
            return i;
        // Number and state of ordinary packages that follow at once: "2 sealed tins".
        if (!SmallWords.Gone.Contains(word) && facts.OpenOnes is null != facts.ClosedOnes is null && facts.Vessel is null && facts.Count is null && facts.Portions.Count == 0
            && (ContainerWithin(at + 1, 2) is not null || (Next(at + 1) is { Kind: TokenKind.Number } && MassAt(at + 1, out _))) && !tokens.Exists(token => token.Is("+") || token.Is(",") || token.Is("&") || token.Is("and") || token.Is("und")))
        {
            facts.OpenOnes = facts.ClosedOnes = null;
            return i;
        }

        // "2 tins + 1 open" are three.
        if (i > 0 && tokens[i - 1].Text is "+" or "plus" && !SmallWords.Gone.Contains(word))
        {
            if (facts.Vessel is { Count: > 0 } counted)
                facts.Vessel = counted with { Count = counted.Count + count };
            else if (facts.Count is { } alone)
                facts.Count = alone + count;
        }

        return at + 1;
    }

    // je 16 g, по 16 г, cada lata 50 g; noch 16 g, reste 80 g, je 16 g noch
    private int Prefixed(int i)
    {
        var word = Word(i);
        bool each = SmallWords.EachBefore.Contains(word), left = SmallWords.LeftBefore.Contains(word);
        if (!each && !left)
            return i;
        var at = i + 1;
        if (each && VesselWords.Vessels.ContainsKey(Word(at)))
            at++;
        else if (left && SmallWords.EachBefore.Contains(Word(at)))
            (each, at) = (true, at + 1);
        if (SmallWords.About.Contains(Word(at)) || Word(at) is "~" or ":")
            (about, at) = (about || Word(at) != ":", at + 1);
        if (Next(at) is not { Kind: TokenKind.Number } || !MassAt(at, out _) || FluidOunces(at))
            return i;
        var end = Massed(i, at, null, left ? Share.Left : Share.Each);
        if (facts.Portions is [.., { Share: Share.Left, Apiece: false } last] && each)
            facts.Portions[^1] = last with { Apiece = true };
        return end;
    }

    // "2-3 tins", "2 à 3", "2 or 3 jars": so many or so many, and which is asked; under a head with a unit the amount lies between.
    private int CountRange(int i)
    {
        if (Whole(i) is not ({ } low and <= 60) || Word(i + 1) is not ("-" or "~" or "〜" or "～" or "to" or "or" or "bis" or "oder" or "a" or "à" or "o" or "ó" or "u" or "ou" or "of" or "til" or "или" or "do" or "/") || Whole(i + 2) is not ({ } high and <= 60) || high <= low
            || (Word(i + 1) == "/" && !setting.BareIsCount) || MassAt(i + 2, out _) || VolumeAt(i + 2) || (i > 0 && tokens[i - 1].End == tokens[i].Start && tokens[i - 1].Kind != TokenKind.Mark) || Word(i + 3) is "-" or "/" or "." or "+" or "x")
            return i;
        var after = i + 3;
        if (setting.GramsPerUnit is { } unit && !SmallWords.Pieces.Contains(Word(after)) && ContainerWithin(after, 3) is null)
        {
            facts.Portions.Add(new Portion(new Amount((low + high) / 2.0 * unit, low * unit, high * unit, about), null, Share.Unsaid));
            about = false;
            return after;
        }

        if (high - low > 12 || !(setting.BareIsCount || after >= tokens.Count || SmallWords.Pieces.Contains(Word(after)) || ContainerWithin(after, 3) is not null))
            return i;
        var words = text[tokens[i].Start..tokens[i + 2].End];
        var unsaid = !setting.BareIsCount && after >= tokens.Count ? " pcs" : "";
        facts.Doubts.Add(new CellDoubt("count-range", $"'{words}' may be {low} or {high} packages. {low} are imported.",
            ("fewer", $"{low} packages", text.Replace(words, $"{low}{unsaid}", StringComparison.Ordinal)), ("more", $"{high} packages", text.Replace(words, $"{high}{unsaid}", StringComparison.Ordinal))));
        for (var k = i; k < after; k++)
            taken[k] = true;
        if (ContainerWithin(after, 3) is not null)
            return Counted(i, low, after);
        facts.Count = low;
        return SmallWords.Pieces.Contains(Word(after)) ? after + 1 : after;
    }

    private int? Counting(int i) => Whole(i) ?? (SmallWords.Numbers.TryGetValue(Word(i), out var spelled) ? spelled : null);

    // one and a half oz, 1 and a quarter pounds, a pound and a half
    private int MixedNumber(int i)
    {
        static double? Part(string word) => word switch
        {
            "half" => 0.5,
            "quarter" => 0.25,
            "third" => 1 / 3.0,
            _ => null,
        };
        var whole = tokens[i].Kind == TokenKind.Number ? tokens[i].Value : SmallWords.Numbers.TryGetValue(tokens[i].Text, out var spelled) ? spelled : tokens[i].Text is "a" or "an" ? 1 : (double?)null;
        if (whole is not { } number)
            return i;
        if (Word(i + 1) is "and" or "&" && Word(i + 2) is "a" or "an" or "one" && Part(Word(i + 3)) is { } part && UnitWords.Grams.TryGetValue(Word(i + 4), out var grams))
            return Amounting((number + part) * grams, i + 5);
        if (UnitWords.Grams.TryGetValue(Word(i + 1), out grams) && Word(i + 1).Length > 1 && Word(i + 2) is "and" or "&" && Word(i + 3) is "a" or "an" or "one" && Part(Word(i + 4)) is { } more && !UnitWords.Grams.ContainsKey(Word(i + 5)))
            return Amounting((number + more) * grams, i + 5);
        // a couple of ounces
        if (Word(i) is "couple" && Word(i + 1) is "of" && UnitWords.Grams.TryGetValue(Word(i + 2), out grams))
        {
            about = true;
            return Amounting(2 * grams, i + 3);
        }

        return i;
    }

    private int Amounting(double grams, int after)
    {
        facts.Portions.Add(new Portion(Amount.Of(grams, about), null, Share.Unsaid));
        about = false;
        if (SmallWords.Left.Contains(Word(after)))
        {
            facts.Portions[^1] = facts.Portions[^1] with { Share = Share.Left };
            after++;
        }

        return after;
    }

    // <50g, under 50 g, less than 50g, up to 50 g; >50g says at least
    private int AtMost(int i)
    {
        var word = tokens[i].Kind == TokenKind.Number ? "" : tokens[i].Text;
        var least = word is ">" or "≥" or "over" or "above" or "more";
        if (!least && !SmallWords.AtMost.Contains(word))
            return i;
        var at = i + 1;
        if (Word(at) is "than" or "to" or "als" or "de" or "of" or "=" or ".")
            at++;
        else if (word is "less" or "more" or "up" or "weniger" or "moins" or "menos" or "meno")
            return i;
        if (Next(at) is not { Kind: TokenKind.Number } || !MassAt(at, out var perUnit) || FluidOunces(at))
            return i;
        var grams = Value(at, perUnit) * perUnit;
        if (!(grams > 0) || !double.IsFinite(grams))
            return i;
        var stated = text[tokens[at].Start..tokens[at + 1].End];
        facts.Doubts.Add(new CellDoubt("bound", least
            ? $"'{text.Trim()}' says that it is more than {stated} and not how much. About {stated} is imported."
            : $"'{text.Trim()}' says that it is less than {stated} and not how much. Anything up to that is imported.",
            ("whole", stated, $"{Plain(grams)} g"), ("half", $"about {Plain(grams / 2)} g", $"~{Plain(grams / 2)} g")));
        facts.Portions.Add(new Portion(least ? Amount.Of(grams, about: true) : new Amount(grams / 2, grams / 1000, grams, true), null, SmallWords.Left.Contains(Word(at + 2)) ? Share.Left : Share.Unsaid));
        about = false;
        return SmallWords.Left.Contains(Word(at + 2)) ? at + 3 : at + 2;
    }

    // 50g or 100g: one of the two, never both
    private int Either(int i)
    {
        double perUnit = 0, other = 0;
        int or = -1;
        if (MassAt(i, out perUnit) && !FluidOunces(i))
            or = Word(i + 2) == "/" ? -1 : i + 2;
        else if (Next(i + 2) is { Kind: TokenKind.Number } && MassAt(i + 2, out perUnit) && !FluidOunces(i + 2))
            or = Word(i + 1) == "/" && Whole(i) is <= 12 ? -1 : i + 1;
        // "50/100g" may be one of the two, or what is left of the other.
        if (or < 0 || Word(or) is not ("or" or "/" or "oder" or "ou" or "или" or "lub") || Next(or + 1) is not { Kind: TokenKind.Number } || !MassAt(or + 1, out other))
            return i;
        double one = Value(i, perUnit) * perUnit, two = Value(or + 1, other) * other;
        if (!(one > 0 && two > 0 && double.IsFinite(one) && double.IsFinite(two)) || one == two)
            return i;
        facts.Doubts.Add(new CellDoubt("either-amount", $"'{text.Trim()}' is one of two amounts.", ("first", $"{Plain(one)} g", $"{Plain(one)} g"), ("second", $"{Plain(two)} g", $"{Plain(two)} g")));
        facts.Portions.Add(new Portion(new Amount((one + two) / 2, Math.Min(one, two), Math.Max(one, two), true), null, Share.Unsaid));
        about = false;
        return or + 3;
    }

    // 50g - 10g smoked: what is left of it
    private int Less(int i)
    {
        if (!MassAt(i, out var perUnit) || FluidOunces(i) || Word(i + 2) is not ("-" or "minus" or "less") || Next(i + 3) is not { Kind: TokenKind.Number } || !MassAt(i + 3, out var other))
            return i;
        double whole = Value(i, perUnit) * perUnit, taken = Value(i + 3, other) * other;
        var used = SmallWords.Gone.Contains(Word(i + 5)) || Word(i + 5) is "taken" or "out" or "used" or "removed" || Word(i + 2) is "minus" or "less";
        if (!(whole > taken && taken > 0))
            return i;
        if (!used)
        {
            // 40g - 50g is a range.
            return i;
        }

        facts.Portions.Add(new Portion(Amount.Of(whole - taken, about), null, Share.Left));
        facts.Open = true;
        about = false;
        return SmallWords.Gone.Contains(Word(i + 5)) || Word(i + 5) is "taken" or "out" or "used" or "removed" ? i + 6 : i + 5;
    }

    // 50+50+100 under a head with a unit: three packages
    private int Added(int i)
    {
        if (setting.GramsPerUnit is not { } unit || i != 0 || tokens.Count < 3 || tokens.Count % 2 == 0)
            return i;
        for (var k = 0; k < tokens.Count; k++)
        {
            if (k % 2 == 0 ? tokens[k].Kind != TokenKind.Number || tokens[k].Value <= 0 : !tokens[k].Is("+"))
                return i;
        }

        for (var k = 0; k < tokens.Count; k += 2)
            facts.Portions.Add(new Portion(Amount.Of(Value(k, unit) * unit), 1, Share.Each));
        return tokens.Count;
    }

    // 2 1/2 tins, 1/2 tin: the last of them is not full
    private int BrokenCount(int i)
    {
        var token = tokens[i];
        if (token.Kind != TokenKind.Number || token.Value == Math.Floor(token.Value) || token.Value > 60 || token.Other is not null || !VesselWords.Vessels.ContainsKey(Word(i + 1)) || facts.Vessel is not null)
            return i;
        var most = (int)Math.Ceiling(token.Value);
        var words = text[tokens[i].Start..tokens[i + 1].End];
        var vessel = text[tokens[i + 1].Start..tokens[i + 1].End];
        facts.Doubts.Add(new CellDoubt("part-of-package", most == 1 ? $"'{words}' is one that is not full. It is imported as full." : $"'{words}' are {most}, one of which is not full. All are imported as full.",
            ("more", $"{most} {vessel}, all full", text.Replace(words, $"{most} {vessel}", StringComparison.Ordinal)), ("fewer", most == 1 ? "nothing is left" : $"{most - 1} {vessel}", text.Replace(words, most == 1 ? "0 g left" : $"{most - 1} {vessel}", StringComparison.Ordinal))));
        return TakeVessel(i, i + 1, null, most);
    }
}
