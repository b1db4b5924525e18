using System.Globalization;

namespace Undercroft.Importing.Cells;

/// <summary>The parts that amounts and prices are made of.</summary>
public sealed partial class QuantityScan
{
    /// <summary>A package of fewer grams is not written with three decimals; one of more is not a package of a home.</summary>
    private const double LeastGrams = 10;
    private const double MostGrams = 10_000;

    // A mass with what follows it: "x 2", "each", "left", "tin", "in 4 pint jars".
    private int Massed(int start, int at, int? count, Share share)
    {
        double grams;
        int after;
        if (MassAt(at, out var perUnit))
        {
            grams = Value(at, perUnit) * perUnit;
            after = Skip(at + 2, ".");
        }
        else
        {
            perUnit = setting.GramsPerUnit!.Value;
            grams = Value(at, perUnit) * perUnit;
            after = at + 1;
        }

        // 1 lb 8 oz
        if (perUnit == UnitWords.PoundGrams && Next(after) is { Kind: TokenKind.Number } && MassAt(after, out var smaller) && smaller == UnitWords.OunceGrams && !FluidOunces(after))
        {
            grams += Value(after, smaller) * smaller;
            after = Skip(after + 2, ".");
        }

        var uncertain = about;
        var apiece = false;
        about = false;
        for (var more = true; more && after < tokens.Count;)
        {
            more = false;
            var word = Word(after);
            if (count is null && SmallWords.Times.Contains(word) && Whole(after + 1) is { } times && !MassAt(after + 1, out _))
            {
                count = times;
                share = Share.Each;
                after += 2;
                more = true;
            }
            else if (SmallWords.Each.Contains(word) && !(word is "a" or "per" or "pro" or "by" or "po" or "stuck" && Next(after + 1) is { Kind: TokenKind.Number }))
            {
                apiece |= share == Share.Left;
                share = share == Share.Left ? share : Share.Each;
                after += word is "per" or "pro" or "je" or "po" or "по" && VesselWords.Vessels.ContainsKey(Word(after + 1)) ? 2 : 1;
                more = true;
            }
            else if (SmallWords.Total.Contains(word))
            {
                share = Share.Total;
                after++;
                more = true;
            }
            else if (SmallWords.Left.Contains(word))
            {
                apiece |= share == Share.Each && count is null;
                share = Share.Left;
                after++;
                more = true;
            }
            else if (word == "?")
            {
                uncertain = true;
                after++;
                more = true;
            }
            else if (SmallWords.About.Contains(word) || word == "~")
            {
                uncertain = true;
                after++;
                more = true;
            }
            else if (word == "(" && (SmallWords.Each.Contains(Word(after + 1)) || SmallWords.Total.Contains(Word(after + 1)) || SmallWords.Left.Contains(Word(after + 1))))
            {
                after++;
                more = true;
            }
            else if (word == ")" && share != Share.Unsaid)
            {
                after++;
                more = true;
            }
        }

        after = Again(after, grams, perUnit);
        facts.Portions.Add(new Portion(Amount.Of(grams, uncertain), count, share) { Apiece = apiece });
        if (!setting.IsContainer && UnitWords.IsOunce(Word(at + 1)) && at > 0 && VesselWords.Vessels.TryGetValue(Word(at - 1), out var named) && named.Vessel == VesselKind.Jar)
            facts.Doubts.Add(new CellDoubt("weight-or-size", $"'{text.Trim()}' may be a weight in a jar or the size of the jar.",
                ("weight", $"{Plain(grams)} g of leaf in a jar", $"{Plain(grams)} g, jar"), ("size", $"a jar of {Plain(grams / UnitWords.OunceGrams)} fl oz", $"{Plain(grams / UnitWords.OunceGrams)} fl oz jar")));
        if (ContainerWithin(after, 3) is { } vessel && facts.Vessel is null)
            after = Again(TakeVessel(after, vessel, null, null), grams, perUnit);
        return Opened(after);
    }

    // "100g tin (unopened) + 20g open": the word belongs to the amount before it.
    private int Opened(int after)
    {
        var at = Word(after) == "(" ? after + 1 : after;
        bool open = SmallWords.Open.Contains(Word(at)), closed = SmallWords.Closed.Contains(Word(at)) && Word(at) is not ("new" or "intact");
        if (!(open || closed) || Next(at + 1) is { Kind: TokenKind.Number } && Word(at + 1) is var next && next.Length == 4)
            return after;
        facts.Portions[^1] = facts.Portions[^1] with { Open = open };
        facts.Open |= open;
        return at == after ? at + 1 : Skip(at + 1, ")");
    }

    // The same amount once more in another unit, "50 g (1.76 oz)", is one amount.
    private int Again(int after, double grams, double perUnit) =>
        Word(after) is "(" or "/" or "=" && Next(after + 1) is { Kind: TokenKind.Number } && MassAt(after + 1, out var again)
            && again != perUnit && Math.Abs((Value(after + 1, again) * again) - grams) < 0.06 * grams
            ? Skip(Skip(after + 3, "."), ")")
            : after;

    // 40g - 50g, with a unit on both sides
    private int RangeOfMasses(int i)
    {
        if (!MassAt(i, out var one) || FluidOunces(i) || Word(i + 2) is not ("-" or "to" or "bis") || Next(i + 3) is not { Kind: TokenKind.Number } || !MassAt(i + 3, out var two))
            return i;
        double low = Value(i, one) * one, high = Value(i + 3, two) * two;
        if (!(low < high) || low < 0.4 * high || !double.IsFinite(high))
            return i;
        facts.Portions.Add(new Portion(new Amount((low + high) / 2, low, high, about), null, Share.Unsaid));
        about = false;
        return i + 5;
    }

    private int RangeOfMass(int i)
    {
        if (i + 3 >= tokens.Count || !(tokens[i + 1].Is("-") || tokens[i + 1].Is("to") || tokens[i + 1].Is("bis")) || tokens[i + 2].Kind != TokenKind.Number || !MassAt(i + 2, out var perUnit))
            return i;
        var low = Value(i, perUnit) * perUnit;
        var high = Value(i + 2, perUnit) * perUnit;
        // "3-50g tins" is no range: three tins, or a slip.
        if (!(low < high) || low < 0.4 * high)
        {
            if (low < high && Whole(i) is { } count && ContainerWithin(i + 4, 2) is not null)
                return Massed(i, i + 2, count, Share.Each);
            var (least, most, unit) = (tokens[i].Text, tokens[i + 2].Text, Word(i + 3));
            facts.Doubts.Add(Whole(i) is { } several
                ? new CellDoubt("range-or-count", $"'{text.Trim()}' is not clear: a range, or a number of packages?",
                    ("count", $"{several} packages of {most} {unit}", $"{several} x {most} {unit}"), ("range", $"between {least} and {most} {unit}", $"{Plain((low + high) / 2)} g?"))
                : new CellDoubt("range", $"'{text.Trim()}' is not clear: a range, or a number of packages?", ("range", $"between {least} and {most} {unit}", $"{Plain((low + high) / 2)} g?")));
            return i + 4;
        }

        facts.Portions.Add(new Portion(new Amount((low + high) / 2, low, high, about), null, Share.Unsaid));
        about = false;
        return i + 4;
    }

    // A number with a currency before it (true) or behind it (false); null where there is none.
    private bool? PriceAt(int i) =>
        Next(i) is { Kind: TokenKind.Number } && UnitWords.Currencies.ContainsKey(Word(i + 1)) && !SmallWords.Times.Contains(Word(i + 1)) ? false
            : UnitWords.Currencies.ContainsKey(Word(i)) && Next(i + 1) is { Kind: TokenKind.Number } ? true : null;

    private int Money(int i, bool currencyFirst)
    {
        var number = currencyFirst ? i + 1 : i;
        var word = Word(currencyFirst ? i : i + 1);
        var after = Skip(i + 2, ".");
        var share = Share.Unsaid;
        if (Word(after) == "/" && (SmallWords.Each.Contains(Word(after + 1)) || VesselWords.Vessels.ContainsKey(Word(after + 1))))
            after++;
        if (SmallWords.Each.Contains(Word(after)) || (Word(after - 1) == "/" && VesselWords.Vessels.ContainsKey(Word(after))))
        {
            share = Share.Each;
            after += Word(after) is "per" or "pro" && VesselWords.Vessels.ContainsKey(Word(after + 1)) ? 2 : 1;
            after = Skip(after, ".");
        }
        else if (SmallWords.Total.Contains(Word(after)))
        {
            share = Share.Total;
            after++;
        }

        var value = Value(number, 0);
        if (value < 1e9 && facts.Price is null)
            facts.Price = new Price((decimal)Math.Round(value, 4), UnitWords.Currencies[word], share);
        return after;
    }

    // The one reading of a number that makes a package, where its point or comma has two.
    private double Value(int i, double perUnit)
    {
        var token = tokens[i];
        if (token.Other is not { } other || stored)
            return token.Value;
        if (setting.CommaIsDecimal is { } comma)
            return token.Text.Contains(',', StringComparison.Ordinal) == comma ? token.Value : other;
        if (perUnit <= 0)
            return token.Value;
        bool small = token.Value * perUnit is >= LeastGrams and <= MostGrams, large = other * perUnit is >= LeastGrams and <= MostGrams;
        if (small && large && facts.Doubts.Count < 3)
            facts.Doubts.Add(new CellDoubt("decimals-or-thousands", $"'{token.Text}' may be {Plain(token.Value)} or {Plain(other)}: the mark may stand for decimals or thousands.",
                ("decimals", $"{Plain(token.Value)} {Word(i + 1)}".Trim(), text.Replace(token.Text, Exact(token.Value), StringComparison.Ordinal)),
                ("thousands", $"{Plain(other)} {Word(i + 1)}".Trim(), text.Replace(token.Text, Plain(other), StringComparison.Ordinal))));
        return small || !large ? token.Value : other;
    }

    private static string Plain(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    // A fourth decimal, so that the mark cannot be read as one of thousands.
    private static string Exact(double value) => value.ToString("0.0000", CultureInfo.InvariantCulture);

    private bool MassAt(int i, out double perUnit)
    {
        perUnit = 0;
        // Digits that hang on letters, as in 1e400 or L5143, are part of a word.
        if (i > 0 && i < tokens.Count && tokens[i - 1].Kind == TokenKind.Word && tokens[i - 1].End == tokens[i].Start
            && tokens[i - 1].Text[^1] < '\u0590' && !SmallWords.Times.Contains(tokens[i - 1].Text) && !SmallWords.About.Contains(tokens[i - 1].Text) && !UnitWords.Grams.ContainsKey(tokens[i - 1].Text))
            return false;
        return i + 1 < tokens.Count && tokens[i].Kind == TokenKind.Number && UnitWords.Grams.TryGetValue(Word(i + 1), out perUnit)
            && !(Word(i + 1) is "pound" or "pounds" && Word(i + 2) is "sterling");
    }

    private bool MassWord(int i) => UnitWords.Grams.ContainsKey(Word(i)) && Word(i).Length > 1;

    private bool VolumeAt(int i)
    {
        if (i >= tokens.Count || tokens[i].Kind != TokenKind.Number)
            return false;
        var word = Word(i + 1);
        if (word is "fl" or "fluid")
            return UnitWords.IsOunce(Word(Skip(i + 2, ".")));
        return UnitWords.Millilitres.ContainsKey(word) || (word == "-" && UnitWords.Millilitres.ContainsKey(Word(i + 2)));
    }

    // An ounce is a volume where a jar follows at once, or where the column is about containers and no tin, pouch or bag is named.
    private bool FluidOunces(int i)
    {
        if (!UnitWords.IsOunce(Word(i + 1)))
            return false;
        var after = Skip(Skip(i + 2, "."), "-");
        if (ContainerWithin(after, 3) is { } vessel)
            return VesselWords.Vessels[tokens[vessel].Text].Vessel is VesselKind.Jar or VesselKind.ClampJar;
        return i > 0 && VesselWords.Vessels.TryGetValue(Word(i - 1 - (tokens[i - 1].Is("(") && i > 1 ? 1 : 0)), out var before)
            ? setting.IsContainer && before.Vessel is VesselKind.Jar or VesselKind.ClampJar
            : setting.IsContainer && facts.Vessel is null or { Kind: VesselKind.Jar or VesselKind.ClampJar };
    }

    // No other number, so that it stands for the whole cell; words around it are no unit.
    private bool OnlyNumber(int i)
    {
        for (var k = 0; k < tokens.Count; k++)
        {
            if (k != i && !taken[k] && tokens[k].Kind == TokenKind.Number)
                return false;
            if (tokens[k].Kind == TokenKind.Word && k != i && !taken[k] && !SmallWords.About.Contains(tokens[k].Text) && !SmallWords.Left.Contains(tokens[k].Text))
                return false;
        }

        return i == 0 || !(tokens[i - 1].Is("'") || (tokens[i - 1].Is("-") && i > 1));
    }

    private bool NumberSoon(int i) => Next(i) is { Kind: TokenKind.Number } || (Word(i) is "." && Next(i + 1) is { Kind: TokenKind.Number });

    private int? Whole(int i) => Next(i) is { Kind: TokenKind.Number, Other: null } token && token.Value == Math.Floor(token.Value) && token.Value is >= 1 and <= MostPackages ? (int)token.Value : null;

    private Token? Next(int i) => i >= 0 && i < tokens.Count ? tokens[i] : null;

    private string Word(int i) => i >= 0 && i < tokens.Count && tokens[i].Kind != TokenKind.Number ? tokens[i].Text : "";

    private int Skip(int i, string mark) => Word(i) == mark ? i + 1 : i;
}
