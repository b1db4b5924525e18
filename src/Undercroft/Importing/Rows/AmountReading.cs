using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>Puts amounts, counts and containers of a row together to packages.</summary>
/// <remarks>Nothing is multiplied or divided unless the words, the head of the column, a total or the size of the jar says so; what is left open imports no more than is written.</remarks>
internal static partial class AmountReading
{
    private const int MostPackages = 500;
    private const double MostGrams = 100_000;

    /// <summary>Pressed plug, the densest packing in use, in g/ml; common practice, no source.</summary>
    private const double DensestPacking = 0.95;

    public static void Compose(RowFacts facts, AmountCells cells, TableSetting setting)
    {
        foreach (var part in cells.Parts)
        {
            if (part.Cell.Text.TrimStart() is ['-', _, ..] text && char.IsAsciiDigit(text.TrimStart('-', ' ').FirstOrDefault()) && part.Column.Meaning is not Meaning.Container)
            {
                facts.HoldBack("below-zero", $"'{part.Cell.Text.Trim()}' under '{RowReader.Name(part.Column)}' is below zero.", part.Column.Index,
                    Choice.Cell("positive", $"it should read {text.TrimStart('-', ' ')}", part.Column.Index, text.TrimStart('-', ' ')), Choice.Cell("blank", "nobody knows: leave it blank", part.Column.Index, ""));
            }

            foreach (var doubt in part.Facts?.Doubts ?? [])
                facts.Doubt(doubt.Kind, doubt.Reason, part.Column.Index, doubt.Readings.Select(reading => Choice.Cell(reading.Code, reading.Words, part.Column.Index, reading.Text)));
        }

        foreach (var doubt in cells.Loose?.Doubts ?? [])
            facts.Doubt(doubt.Kind, doubt.Reason, -1);
        UnitBeside(cells);
        PoundsAndOunces(cells);
        TakeVessel(facts, cells);
        Weights(facts, cells);
        var count = Counted(facts, cells);
        var portions = Portions(facts, cells);
        var unweighed = portions.FindAll(static item => item.Item2 is { Numbered: true } && item.Item1.Amount is null).Count;
        if (!Sorts(facts, cells, portions))
            Groups(facts, cells, setting, count, portions);
        if (unweighed > 0 && facts.Groups is [{ Each: null } none])
            facts.Groups[0] = none with { Count = unweighed };
        else if (unweighed > 0)
            facts.Groups.Add(new PackageGroup(unweighed, null));
        States(facts, cells);
        Rests(facts, cells, setting);
        Net(facts);
        Sizes(facts);
    }

    // "100 | g" in two cells: the number is an amount, whatever the head of its column calls it.
    private static void UnitBeside(AmountCells cells)
    {
        if (cells.Of(Meaning.Unit) is not { } unit || !UnitWords.Grams.TryGetValue(Folding.Fold(unit.Cell.Text).Trim('.', ' '), out var grams)
            || cells.Of(Meaning.Count) is not { } count || cells.Parts.Exists(part => part.Column.IsAmount && part.Column.Meaning != Meaning.Left && part.Facts is { } facts && (facts.Portions.Count > 0 || facts.Bare is not null)))
            return;
        var column = count.Column with { Meaning = Meaning.Quantity };
        cells.Parts.Remove(count);
        cells.Add(column, count.Cell, QuantityScan.Of(count.Cell.Text.Trim(), new CellSetting(grams, CommaIsDecimal: column.CommaIsDecimal), count.Cell.Kind == Sheets.CellKind.Number), count.Sure);
    }

    // "lb | oz" over "1 | 4" is one pound and four ounces: the greater unit first, less than one of it in the smaller.
    private static void PoundsAndOunces(AmountCells cells)
    {
        static double Bare(AmountCells.Part part) => part.Facts is { Portions: [{ Amount: { } amount, Count: null }], Rest.Length: 0 } && UnitWords.Grams.ContainsKey(Folding.Fold(part.Column.Head).Trim('.', ' ')) ? amount.Grams : 0;
        var named = cells.Parts.FindAll(part => part.Column.IsAmount && part.Column.GramsPerUnit is not null && Bare(part) > 0);
        if (named is not [var great, var small] || small.Column.Index != great.Column.Index + 1 || great.Column.GramsPerUnit <= small.Column.GramsPerUnit || Bare(small) >= great.Column.GramsPerUnit * 0.999)
            return;
        var sum = new CellFacts();
        sum.Portions.Add(new Portion(Amount.Of(Bare(great) + Bare(small)), null, Share.Unsaid));
        cells.Parts[cells.Parts.IndexOf(great)] = great with { Facts = sum };
        cells.Parts.Remove(small);
    }

    private static void TakeVessel(RowFacts facts, AmountCells cells)
    {
        var own = cells.Of(Meaning.Container);
        if (own?.Facts is { } container)
        {
            var vessel = container.Vessel ?? new Vessel(VesselKind.Unsaid, null, null, false, false, false, own.Cell.Text.Trim());
            // "8oz" under "Jar" is a jar.
            if (vessel is { Kind: VesselKind.Unsaid, Ml: not null } && HeadVessel(own.Column.Head) is { } named)
                vessel = vessel with { Kind = named };
            facts.Container = new Said<Vessel>(vessel with { Words = own.Cell.Text.Trim() }, own.Cell.Text, own.Sure);
            facts.Open |= container.Open;
            facts.Gone |= container.Gone && container.Vessel is null;
        }

        foreach (var part in cells.Parts)
        {
            if (part.Column.Meaning is Meaning.Container || part.Facts?.Vessel is not { } vessel)
                continue;
            if (facts.Container is null)
                facts.Container = new Said<Vessel>(vessel, part.Cell.Text, part.Sure);
            else if (facts.Container.Value is var known && (known.Kind == vessel.Kind || vessel.Kind == VesselKind.Unsaid || known.Kind == VesselKind.Unsaid))
                facts.Container = facts.Container with { Value = known with { Kind = known.Kind == VesselKind.Unsaid ? vessel.Kind : known.Kind, Ml = known.Ml ?? vessel.Ml, Count = known.Count is > 0 ? known.Count : vessel.Count ?? known.Count } };
        }

        if (cells.Loose?.Vessel is { } loose && cells.LooseVessel && facts.Container is null)
            facts.Container = new Said<Vessel>(loose, loose.Words, Sureness.Written);
        if (cells.Noted?.Vessel is { } noted && facts.Container is null)
            facts.Container = new Said<Vessel>(noted, cells.NotedWords, Sureness.Written);
        foreach (var part in cells.Parts)
        {
            facts.Open |= part.Facts?.Open == true;
            facts.Gone |= part.Facts?.Gone == true && part.Column.Meaning != Meaning.Container;
        }
    }

    // The one kind of container that a head names; null where it names none, or several.
    private static VesselKind? HeadVessel(string head)
    {
        VesselKind? named = null;
        foreach (var token in Tokens.Of(Folding.Level(head)))
        {
            if (!VesselWords.Vessels.TryGetValue(token.Text, out var vessel) || vessel.Vessel == VesselKind.Other)
                continue;
            if (named is { } other && other != vessel.Vessel)
                return null;
            named = vessel.Vessel;
        }

        return named;
    }

    private static void Weights(RowFacts facts, AmountCells cells)
    {
        Said<double>? One(Meaning meaning)
        {
            if (cells.Of(meaning) is not { Facts: { } read } part)
                return null;
            if (read.Portions is [{ Amount: { } amount }])
                return new Said<double>(amount.Grams, part.Cell.Text, part.Sure);
            if (read.Bare is { } bare)
                facts.Doubt("unit-missing", $"'{bare:0.###}' under '{RowReader.Name(part.Column)}' has no unit: grams or ounces?", part.Column.Index, Units(part, false));
            return null;
        }

        facts.GrossGrams = One(Meaning.Gross);
        facts.TareGrams = One(Meaning.Tare);
    }

    // How many, and where that is written: in a column of its own it beats the words of a container.
    private static (int? Number, bool OwnColumn) Counted(RowFacts facts, AmountCells cells)
    {
        if (cells.Of(Meaning.Count) is { } part)
        {
            var number = part.Facts?.Count ?? (part.Facts?.Vessel is { Count: not 0 } vessel ? vessel.Count ?? 1 : null);
            // "Number 4, remaining 2": of packages, not of grams.
            if (number is { } first && Remaining(cells, first) is { } remaining)
            {
                facts.Notes.Add($"{first} at first");
                return (remaining, true);
            }

            if (part.Facts is null)
                facts.Doubt("count-unknown", $"How many there are is not known: '{part.Cell.Text.Trim()}'. One is imported.", part.Column.Index, Counts(part.Column.Index));
            else if (number is null && part.Facts.Bare is { } part2 && part2 is > 0 and <= MostPackages)
            {
                facts.Doubt("count-broken", $"'{part.Cell.Text.Trim()}' under '{RowReader.Name(part.Column)}' is no whole number of packages.", part.Column.Index,
                    Choice.Cell("more", $"{Math.Ceiling(part2):0} packages", part.Column.Index, $"{Math.Ceiling(part2):0}"), Choice.Cell("fewer", $"{Math.Floor(part2):0} packages", part.Column.Index, $"{Math.Floor(part2):0}"));
                return ((int)Math.Ceiling(part2), true);
            }
            else if (number is null && part.Facts is { Portions.Count: 0, OpenOnes: null, ClosedOnes: null })
                facts.Doubt("count-unknown", $"'{RowReader.Short(part.Cell.Text.Trim())}' under '{RowReader.Name(part.Column)}' is not understood as a number of packages. One is imported.", part.Column.Index, Counts(part.Column.Index));
            if (number == 0)
                facts.Gone = true;
            if (number > MostPackages)
                TooMany(facts, number.Value, part.Column.Index);
            return (number, true);
        }

        if (Bare(cells.Of(Meaning.Quantity)) is { } bare && CountsPackages(cells) && bare == Math.Floor(bare) && bare <= MostPackages)
            return ((int)bare, true);
        // "2 pcs" beside a column of weights.
        if (cells.Of(Meaning.Quantity)?.Facts is { Count: { } pieces and > 0 and <= MostPackages, Portions.Count: 0 } && cells.Parts.Exists(static part => part.Column.Meaning is Meaning.Each or Meaning.Container && part.Facts?.Portions.Count > 0))
            return (pieces, true);
        return (null, false);
    }

    private static int? Remaining(AmountCells cells, int first) =>
        cells.Of(Meaning.Left) is { Column.GramsPerUnit: null, Facts: { Bare: { } bare, Portions.Count: 0 } } && bare == Math.Floor(bare) && bare > 0 && bare <= first && first > 1 ? (int)bare : null;

    private static double? Bare(AmountCells.Part? part) => part?.Facts?.Bare;

    // "3 | tins", "2 | pcs", and "2" beside "50g tin": the number can only count.
    internal static bool CountsPackages(AmountCells cells) =>
        cells.Of(Meaning.Unit) is { } unit ? unit.Facts?.Vessel is not null || SmallWords.Pieces.Contains(Folding.Fold(unit.Cell.Text).Trim('.', ' '))
            : cells.Of(Meaning.Quantity) is { Column.GramsPerUnit: null, Facts.Bare: <= 60 } && cells.Of(Meaning.Container)?.Facts is { Portions: [{ Amount: not null, Count: null }], Vessel: { Kind: VesselKind.Tin or VesselKind.Pouch } };

    private static List<(Portion Portion, Column? Column)> Portions(RowFacts facts, AmountCells cells)
    {
        var found = new List<(Portion, Column?)>();
        var unit = cells.Of(Meaning.Unit)?.Cell.Text is { } name && UnitWords.Grams.TryGetValue(Folding.Fold(name).Trim('.', ' '), out var grams) ? grams : (double?)null;
        var counts = CountsPackages(cells);
        foreach (var part in cells.Parts)
        {
            if (!part.Column.IsAmount)
                continue;
            if (part.Cell.Continued && part.Facts is not null)
            {
                facts.Doubt("across-rows", $"'{part.Cell.Text.Trim()}' is written once across several rows: how it divides among them is not said.", part.Column.Index, AmountChoices.AcrossRows(part.Column, part.Cell.Text.Trim()));
                continue;
            }

            if (part.Facts is null)
            {
                facts.Doubt("amount-unknown", $"How much it is, nobody knows: '{part.Cell.Text.Trim()}'.", part.Column.Index, AmountChoices.Unknown(part.Column));
                continue;
            }

            foreach (var written in part.Facts.Portions)
            {
                // In a column for every jar each cell is one package, and what is left of it is what is in it.
                var portion = part.Column.Numbered && written.Amount is not null ? written with { Count = written.Count ?? 1, Share = Share.Each, Open = written.Open ?? (written.Share == Share.Left ? true : null) } : written;
                if (portion.Amount is { Grams: 0 } && part.Column.Meaning is Meaning.Each or Meaning.Quantity && portion.Share != Share.Left)
                {
                    facts.Doubt("zero", $"'{part.Cell.Text.Trim()}' under '{RowReader.Name(part.Column)}': used up, or not known?", part.Column.Index,
                        Choice.Cell("gone", "used up", part.Column.Index, "0 g left"), Choice.Cell("blank", "nobody knows: leave it blank", part.Column.Index, ""));
                    continue;
                }

                found.Add((portion, part.Column));
            }

            if (part.Facts.Bare is not { } bare || (counts && part.Column.Meaning == Meaning.Quantity))
                continue;
            if (part.Column.Meaning == Meaning.Left && cells.Of(Meaning.Count)?.Facts?.Count is { } first && Remaining(cells, first) is not null)
                continue;
            // Beside columns of sorts a bare total is their number.
            if (part.Column.Meaning == Meaning.Total && cells.Parts.Exists(sort => sort.Column.Meaning == Meaning.Sort))
            {
                if (bare != cells.Parts.Sum(sort => sort.Column.Meaning == Meaning.Sort ? sort.Facts?.Count ?? 0 : 0))
                    facts.Doubt("row-total", $"The row's total of {bare:0.###} is not the number of its packages.", part.Column.Index, Choice.Cell("packages", "the packages are right: leave the total out", part.Column.Index, ""));
                continue;
            }

            if (unit is { } per)
                found.Add((new Portion(Amount.Of(bare * per), null, Share.Unsaid), part.Column));
            else if (bare == 0)
                facts.Gone |= part.Column.Meaning is Meaning.Left or Meaning.Quantity or Meaning.Total;
            else
                facts.Doubt("unit-missing", $"'{part.Cell.Text.Trim()}' under '{RowReader.Name(part.Column)}' has no unit: grams, ounces or a number of packages?", part.Column.Index, Units(part, !part.Column.Numbered));
            if (unit is null && bare > 0 && part.Column.Numbered)
                found.Add((new Portion(null, 1, Share.Each), part.Column));
        }

        // A container's own words may hold the amount: "50g tin".
        if (cells.Of(Meaning.Container) is { Facts: { } container } box)
        {
            foreach (var portion in container.Portions)
                found.Add((portion, box.Column));
        }

        if (cells.Of(Meaning.Unit) is { Facts: { Vessel: not null } measure } named)
        {
            foreach (var portion in measure.Portions)
                found.Add((portion, named.Column));
        }

        if (cells.Of(Meaning.Count) is { Facts: { } counted } cell)
        {
            foreach (var portion in counted.Portions)
                found.Add((portion, cell.Column));
        }

        foreach (var portion in cells.Loose?.Portions ?? [])
            found.Add((portion, null));
        if (cells.Remarked is { } remark && (remark.Portion.Share == Share.Left || !found.Exists(static item => item.Item1.Amount is not null)))
            found.Add((remark.Portion, remark.Column));
        return found;
    }

    private static IEnumerable<Choice> Units(AmountCells.Part part, bool orPackages)
    {
        if (part.Facts?.Bare is not { } bare)
            yield break;
        var number = bare.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture);
        var at = part.Column.Index;
        // What fits a household comes first: few and whole counts, tens and more are grams.
        if (orPackages && bare == Math.Floor(bare) && bare is >= 1 and <= 12)
            yield return Choice.Cell("packages", $"{number} packages", at, $"{number} pcs");
        if (bare >= 10)
            yield return Choice.Cell("grams", $"{number} g", at, $"{number} g");
        yield return Choice.Cell("ounces", $"{number} oz", at, $"{number} oz");
        if (bare < 10)
            yield return Choice.Cell("grams", $"{number} g", at, $"{number} g");
        if (orPackages && bare == Math.Floor(bare) && bare is > 12 and <= 60)
            yield return Choice.Cell("packages", $"{number} packages", at, $"{number} pcs");
    }

    private static IEnumerable<Choice> Counts(int column) =>
        Enumerable.Range(1, 4).Select(count => Choice.Cell($"count-{count}", count == 1 ? "one package" : $"{count} packages", column, $"{count}"));

    private static void TooMany(RowFacts facts, int count, int column) => facts.HoldBack("too-many", $"{count} packages in one row cannot be right.", column,
        column < 0 ? [] : [Choice.Cell("grams", $"it is {count} g", column, $"{count} g"), Choice.Cell("count-1", "one package", column, "1")]);
}
