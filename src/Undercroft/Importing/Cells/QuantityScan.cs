using System.Globalization;
using System.Text;

namespace Undercroft.Importing.Cells;

/// <summary>Reads what a cell says about amounts, counts, containers and money: <c>2x50g</c>, <c>8oz jar</c>, <c>4 pint jars</c>, <c>16 g left</c>, <c>$9.50 ea</c>.</summary>
public sealed partial class QuantityScan
{
    private const int MostPackages = 2_000;
    private static readonly HashSet<string> Halves = ["half", "quarter", "media", "medio", "demi", "halbes", "halb", "mezza", "mezzo", "viertel", "halv", "halvt", "halbe", "halber", "meia", "meio", "yarim", "pol", "полфунта"];
    private readonly string text;
    private readonly List<Token> tokens;
    private readonly CellSetting setting;
    private readonly bool stored;
    private readonly bool[] taken;
    private readonly CellFacts facts = new();
    private bool about;

    private QuantityScan(string text, CellSetting setting, bool stored)
    {
        this.text = QuantityPhrases.AsDigits(Folding.Level(text));
        this.setting = setting;
        this.stored = stored;
        tokens = Tokens.Of(this.text);
        taken = new bool[tokens.Count];
    }

    /// <summary>Everything that the cell says.</summary>
    /// <param name="text">The cell.</param>
    /// <param name="setting">What its column says.</param>
    /// <param name="stored">True where the file stores the number as a number, so that its point is decimal.</param>
    public static CellFacts Of(string text, CellSetting setting, bool stored = false) => new QuantityScan(text, setting, stored).Read();

    private CellFacts Read()
    {
        for (var i = 0; i < tokens.Count;)
        {
            var next = Step(i);
            if (next == i)
            {
                about &= tokens[i].Kind == TokenKind.Mark;
                i++;
            }
            else
            {
                for (var k = i; k < next; k++)
                    taken[k] = true;
                i = next;
            }
        }

        Settle();
        facts.Rest = Remainder();
        return facts;
    }

    private int Step(int i)
    {
        var token = tokens[i];
        if (State(i) is var state && state > i)
            return state;
        if (MixedNumber(i) is var mixed && mixed > i)
            return mixed;
        if (AtMost(i) is var bound && bound > i)
            return bound;
        if (token.Kind == TokenKind.Number)
            return FromNumber(i);
        if (Prefixed(i) is var prefixed && prefixed > i)
            return prefixed;
        if (token.Text is "~" or "≈" or "±" || (SmallWords.About.Contains(token.Text) && NumberSoon(i + 1)))
        {
            about = true;
            return Skip(i + 1, ".");
        }

        // kg 0,5
        if (token.Kind == TokenKind.Word && tokens.Count == 2 && i == 0 && MassWord(0) && Next(1) is { Kind: TokenKind.Number })
        {
            facts.Portions.Add(new Portion(Amount.Of(Value(1, UnitWords.Grams[token.Text]) * UnitWords.Grams[token.Text], about), null, Share.Unsaid));
            return 2;
        }

        if (UnitWords.Currencies.ContainsKey(token.Text) && Next(i + 1) is { Kind: TokenKind.Number } && !UnitWords.Grams.ContainsKey(Word(i + 2)))
            return Money(i, currencyFirst: true);
        if (SmallWords.Times.Contains(token.Text) && Next(i + 1) is { Kind: TokenKind.Number } && Whole(i + 1) is { } times && !MassAt(i + 1, out _)
            && (i == 0 || tokens[i - 1].Kind != TokenKind.Number || taken[i - 1])) // a bag of 8 x 10 is as wide and as high as that
        {
            facts.Count = times;
            return i + 2;
        }

        if (SmallWords.Numbers.TryGetValue(token.Text, out var spelled) && (MassWord(i + 1) || MassAt(i + 1, out _) || ContainerWithin(i + 1, 3) is not null)
            && (facts.Portions.Count == 0 || (spelled > 1 && facts.Vessel is null && facts.Portions.TrueForAll(portion => portion.Count is null) && ContainerWithin(i + 1, 3) is not null)))
            return Counted(i, spelled, i + 1);
        // (2) 50g tins
        if (token.Text == "(" && Whole(i + 1) is { } bracketed && Word(i + 2) == ")" && (MassAt(i + 3, out _) || ContainerWithin(i + 3, 3) is not null))
            return Counted(i, bracketed, i + 3) is var counted && counted > i ? counted : i;
        if (Halves.Contains(token.Text) && HalfMeasure(i) is var half && half > i)
            return half;
        if (setting.BareIsCount && tokens.Count == 1 && SmallWords.Numbers.TryGetValue(token.Text, out var alone))
        {
            facts.Count = alone;
            return 1;
        }

        if (token.Kind == TokenKind.Word && UnitWords.NamesJars(token.Text) && facts.Vessel is null)
            return Sized(i, i + 1, UnitWords.Millilitres[token.Text], null);
        if (VesselWords.Vessels.ContainsKey(token.Text) && facts.Vessel is null)
            return TakeVessel(i, i, null, null);
        // French "sous vide" is a vacuum, not an empty one.
        if (SmallWords.Gone.Contains(token.Text) && !(token.Text == "vide" && Word(i - 1) == "sous"))
        {
            if (i > 0 && SmallWords.Nearly.Contains(Word(i - 1)))
                facts.Doubts.Add(new CellDoubt("part-left", $"'{text.Trim()}' says that part of it is left, and not how much in weight. All of it is imported."));
            else
                facts.Gone = true;
            return i;
        }

        if (SmallWords.Open.Contains(token.Text))
        {
            facts.Open = true;
            // "aperto uno", "opened one"
            if (facts.OpenOnes is null && i + 2 == tokens.Count && SmallWords.Numbers.TryGetValue(Word(i + 1), out var opened))
                facts.OpenOnes = opened;
            return i;
        }

        return i;
    }

    private int FromNumber(int i)
    {
        // "2x" alone counts, as "x2" does.
        if (i == 0 && tokens.Count == 2 && SmallWords.Times.Contains(tokens[1].Text) && Whole(0) is { } alone)
        {
            facts.Count = alone;
            return 2;
        }

        // 2 x 50 g and 2 @ 50 g
        if (Whole(i) is { } count && i + 2 < tokens.Count && (SmallWords.Times.Contains(tokens[i + 1].Text) || tokens[i + 1].Is("@"))
            && tokens[i + 2].Kind == TokenKind.Number && (MassAt(i + 2, out _) || setting.GramsPerUnit is not null || VolumeAt(i + 2)))
        {
            if (VolumeAt(i + 2) || FluidOunces(i + 2))
            {
                var after = FromNumber(i + 2);
                if (facts.Vessel is { } vessel)
                    facts.Vessel = vessel with { Count = count };
                return after;
            }

            return Massed(i, i + 2, count, Share.Each);
        }

        // 3x50 without any unit: the packages are counted, and of the amount the unit is asked.
        if (i == 0 && tokens.Count == 3 && setting is { GramsPerUnit: null, BareIsCount: false, IsContainer: false } && Whole(0) is { } packages and <= 60 && SmallWords.Times.Contains(tokens[1].Text) && tokens[2].Kind == TokenKind.Number && tokens[2].Value is >= 1 and <= 1000)
        {
            var each = tokens[2].Text;
            facts.Doubts.Add(new CellDoubt("unit-missing", $"'{text.Trim()}' has no unit: {packages} packages of {each} grams or ounces?", ("grams", $"{packages} packages of {each} g", $"{packages} x {each} g"), ("ounces", $"{packages} packages of {each} oz", $"{packages} x {each} oz")));
            facts.Portions.Add(new Portion(null, packages, Share.Each));
            return 3;
        }

        if (CountRange(i) is var counts && counts > i)
            return counts;
        if (BrokenCount(i) is var broken && broken > i)
            return broken;
        if (Either(i) is var either && either > i)
            return either;
        if (Less(i) is var less && less > i)
            return less;
        if (RangeOfMasses(i) is var masses && masses > i)
            return masses;
        if (MassAt(i, out _))
            return FluidOunces(i) ? Sized(i, i + 2, Value(i, UnitWords.FluidOunceMl) * UnitWords.FluidOunceMl, null) : Massed(i, i, null, Share.Unsaid);
        if (RangeOfMass(i) is var range && range > i)
            return range;
        if (VolumeAt(i))
            return VolumeFrom(i);
        // 3 x 12 €, 2 @ $9.50
        if (Whole(i) is not null && (SmallWords.Times.Contains(Word(i + 1)) || Word(i + 1) is "@" or "a") && facts.Price is null && PriceAt(i + 2) is { } first)
        {
            var end = Money(i + 2, first);
            facts.Price = facts.Price is { } each ? each with { Share = Share.Each } : null;
            return end;
        }

        if (UnitWords.Currencies.ContainsKey(Word(i + 1)) && !SmallWords.Times.Contains(Word(i + 1)))
            return Money(i, currencyFirst: false);
        if (Whole(i) is { } several && (ContainerWithin(i + 1, 3) is not null || (Next(i + 1) is { Kind: TokenKind.Number } && MassAt(i + 1, out _) && ContainerWithin(i + 3, 2) is not null)))
            return Counted(i, several, i + 1);
        if (Whole(i) is { } pieces && (SmallWords.Pieces.Contains(Word(i + 1)) || (SmallWords.Times.Contains(Word(i + 1)) && Next(i + 2) is not { Kind: TokenKind.Number })))
        {
            facts.Count = pieces;
            var after = i + 2;
            return SmallWords.Of.Contains(Word(after)) && MassAt(after + 1, out _) ? Massed(i, after + 1, pieces, Share.Each) : after;
        }

        if (Added(i) is var added && added > i)
            return added;
        if (facts.Bare is null && facts.Portions.TrueForAll(portion => portion.Amount is null) && OnlyNumber(i))
        {
            facts.Bare = Value(i, setting.GramsPerUnit ?? 0);
            var after = i + 1;
            if (SmallWords.Left.Contains(Word(after)))
            {
                facts.Portions.Add(new Portion(null, null, Share.Left));
                after++;
            }

            return after;
        }

        return i;
    }

    // 3 tins, 3 tins of 50 g, 3 50g tins, 4 pint jars, two vacuum bags of 8 oz each
    private int Counted(int start, int count, int at)
    {
        if (MassWord(at) && !SmallWords.Numbers.ContainsKey(Word(start)))
            return start;
        if (MassWord(at))
        {
            facts.Portions.Add(new Portion(Amount.Of(count * UnitWords.Grams[Word(at)], about), null, Share.Unsaid));
            return at + 1;
        }

        if (Next(at) is { Kind: TokenKind.Number } && MassAt(at, out _))
        {
            if (tokens[at - 1].End < tokens[at].Start && tokens[start].Kind == TokenKind.Number && Value(at, 1) is 100 or 200 or 250 or 500 && count < 10 && text[tokens[start].End..tokens[at].Start] == " ")
            {
                var whole = ((count * 1000) + Value(at, 1)).ToString(CultureInfo.InvariantCulture);
                var unit = Word(at + 1);
                facts.Doubts.Add(new CellDoubt("count-or-number", $"'{text.Trim()}' may be {count} packages or a number with a space in it.",
                    ("packages", $"{count} packages of {tokens[at].Text} {unit}", $"{count} x {tokens[at].Text} {unit}"), ("number", $"{whole} {unit}", $"{whole} {unit}")));
            }

            return FluidOunces(at) ? Sized(start, at + 2, Value(at, UnitWords.FluidOunceMl) * UnitWords.FluidOunceMl, count) : Massed(start, at, count, Share.Each);
        }

        var end = Skip(at, "-");
        while (end < tokens.Count && !VesselWords.Vessels.ContainsKey(tokens[end].Text))
            end++;
        if (end >= tokens.Count)
            return start;
        var sized = at;
        while (sized < end && !UnitWords.NamesJars(tokens[sized].Text))
            sized++;
        if (sized < end)
        {
            var halves = sized > at && tokens[sized - 1].Is("half") || sized > at + 1 && tokens[sized - 1].Is("-") && tokens[sized - 2].Is("half") ? 0.5 : 1;
            var plural = VesselWords.Vessels[tokens[end].Text].Plural;
            var ml = UnitWords.Millilitres[tokens[sized].Text] * halves;
            return plural || count == 1 || halves < 1 ? Sized(start, sized + 1, ml, count) : Sized(start, sized + 1, ml * count, null);
        }

        var after = TakeVessel(at, end, null, count);
        var of = after;
        while (SmallWords.Of.Contains(Word(of)) || Word(of) is "(" or ",")
            of++;
        return Next(of) is { Kind: TokenKind.Number } && MassAt(of, out _) && of > after ? Massed(start, of, null, Share.Each) : after;
    }

    private int HalfMeasure(int i)
    {
        var factor = tokens[i].Text is "quarter" or "viertel" ? 0.25 : 0.5;
        var at = Skip(i + 1, "-");
        if (Word(at) is "a" or "of")
            at++;
        if (UnitWords.NamesJars(Word(at)) && facts.Vessel is null)
            return Sized(i, at + 1, UnitWords.Millilitres[Word(at)] * factor, null);
        if (!UnitWords.Grams.TryGetValue(Word(at), out var grams))
            return i;
        facts.Portions.Add(new Portion(Amount.Of(grams * factor, about), null, Share.Unsaid));
        return at + 1;
    }

    private void Settle()
    {
        if (facts.Bare is null && facts.Portions.Count == 0 && setting.GramsPerUnit is not null)
            LoneNumber();
        // "3 (1 open)" under a head that counts: three, of which one is open. "1, opened" is one.
        if (facts.Bare is null && facts.Portions.Count == 0 && setting.BareIsCount && ((facts.OpenOnes ?? facts.ClosedOnes ?? facts.GoneOnes) is not null || (facts.Open && tokens is [{ Kind: TokenKind.Number, Value: 1 }, ..])))
            LoneNumber();
        if (facts.Bare is not { } bare)
            return;
        var left = facts.Portions.FindIndex(portion => portion.Amount is null && portion.Share == Share.Left);
        if (setting.GramsPerUnit is { } grams && facts.Portions.TrueForAll(portion => portion.Amount is null))
        {
            var amount = Amount.Of(bare * grams, about || text.Contains('?', StringComparison.Ordinal));
            facts.Bare = null;
            if (left >= 0)
                facts.Portions[left] = new Portion(amount, null, Share.Left);
            else
                facts.Portions.Add(new Portion(amount, null, Share.Unsaid));
        }
        else if (left >= 0)
        {
            facts.Portions.RemoveAt(left);
        }

        if (facts.Bare is { } size && setting.MlPerUnit is { } ml && facts.Vessel?.Ml is null)
        {
            facts.Vessel = (facts.Vessel ?? new Vessel(VesselKind.Unsaid, null, null, false, false, false, text.Trim())) with { Ml = size * ml };
            facts.Bare = null;
        }
        else if (facts.Bare is { } number && setting.BareIsCount && number == Math.Floor(number) && number is >= 0 and <= MostPackages)
        {
            facts.Count ??= (int)number;
            facts.Bare = null;
        }
    }

    // "8 (2 jars)" under a head with a unit: the one number that nothing else explains.
    private void LoneNumber()
    {
        var lone = -1;
        for (var k = 0; k < tokens.Count; k++)
        {
            if (taken[k] || tokens[k].Kind == TokenKind.Mark || SmallWords.Open.Contains(tokens[k].Text))
                continue;
            if (tokens[k].Kind != TokenKind.Number || lone >= 0 || (k > 0 && tokens[k - 1].End == tokens[k].Start && tokens[k - 1].Kind == TokenKind.Word))
                return;
            lone = k;
        }

        if (lone < 0)
            return;
        taken[lone] = true;
        facts.Bare = Value(lone, setting.GramsPerUnit ?? 0);
    }

    private string Remainder()
    {
        var rest = new StringBuilder();
        var from = 0;
        for (var i = 0; i < tokens.Count; i++)
        {
            if (!taken[i])
                continue;
            rest.Append(text, from, tokens[i].Start - from);
            from = tokens[i].End;
            if (rest.Length > 0 && rest[^1] != ' ')
                rest.Append(' ');
        }

        rest.Append(text, from, text.Length - from);
        return rest.ToString().Trim(' ', ',', ';', '+', '&', '-', '.', ':', '/', '|', '=', '\n', '\r', '\t');
    }
}
