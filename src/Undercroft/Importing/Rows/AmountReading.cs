using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>Puts amounts, counts and containers of a row together to packages.</summary>
/// <remarks>Nothing is multiplied or divided unless the words, the head of the column, a total or the size of the jar says so; what is left open imports no more than is written.</remarks>
internal static class AmountReading
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
                facts.HoldBack($"'{part.Cell.Text.Trim()}' under '{RowReader.Name(part.Column)}' is below zero.");
            foreach (var doubt in part.Facts?.Doubts ?? [])
                facts.Doubt(doubt);
        }

        foreach (var doubt in cells.Loose?.Doubts ?? [])
            facts.Doubt(doubt);
        UnitBeside(cells);
        TakeVessel(facts, cells);
        Weights(facts, cells);
        var count = Counted(facts, cells);
        var portions = Portions(facts, cells);
        Groups(facts, cells, setting, count, portions);
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

    private static void TakeVessel(RowFacts facts, AmountCells cells)
    {
        var own = cells.Of(Meaning.Container);
        if (own?.Facts is { } container)
        {
            var vessel = container.Vessel ?? new Vessel(VesselKind.Unsaid, null, null, false, false, false, own.Cell.Text.Trim());
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
        foreach (var part in cells.Parts)
        {
            facts.Open |= part.Facts?.Open == true;
            facts.Gone |= part.Facts?.Gone == true && part.Column.Meaning != Meaning.Container;
        }
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
                facts.Doubt($"'{bare:0.###}' under '{RowReader.Name(part.Column)}' has no unit: grams or ounces?");
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
            var number = part.Facts?.Count ?? (part.Facts?.Vessel?.Count is > 0 and var vessels ? vessels : null);
            if (part.Facts is null)
                facts.Doubt($"How many there are is not known: '{part.Cell.Text.Trim()}'. One is imported.");
            else if (number is null && part.Facts.Bare is { } part2 && part2 is > 0 and <= MostPackages)
            {
                facts.Doubt($"'{part.Cell.Text.Trim()}' under '{RowReader.Name(part.Column)}' is no whole number of packages.");
                return ((int)Math.Ceiling(part2), true);
            }
            else if (number is null && part.Facts.Portions.Count == 0)
                facts.Doubt($"'{RowReader.Short(part.Cell.Text.Trim())}' under '{RowReader.Name(part.Column)}' is not understood as a number of packages. One is imported.");
            if (number == 0)
                facts.Gone = true;
            if (number > MostPackages)
                facts.HoldBack($"{number} packages in one row cannot be right.");
            return (number, true);
        }

        if (Bare(cells.Of(Meaning.Quantity)) is { } bare && cells.Of(Meaning.Unit)?.Facts is { Vessel: not null } && bare == Math.Floor(bare) && bare <= MostPackages)
            return ((int)bare, true);
        return (null, false);
    }

    private static double? Bare(AmountCells.Part? part) => part?.Facts?.Bare;

    private static List<(Portion Portion, Column? Column)> Portions(RowFacts facts, AmountCells cells)
    {
        var found = new List<(Portion, Column?)>();
        var unit = cells.Of(Meaning.Unit)?.Cell.Text is { } name && UnitWords.Grams.TryGetValue(Folding.Fold(name).Trim('.', ' '), out var grams) ? grams : (double?)null;
        var unitIsVessel = cells.Of(Meaning.Unit)?.Facts?.Vessel is not null;
        foreach (var part in cells.Parts)
        {
            if (!part.Column.IsAmount)
                continue;
            if (part.Cell.Continued && part.Facts is not null)
            {
                facts.Doubt($"'{part.Cell.Text.Trim()}' is written once across several rows: how it divides among them is not said.");
                continue;
            }

            if (part.Facts is null)
            {
                facts.Doubt($"How much it is is not known: '{part.Cell.Text.Trim()}'.");
                continue;
            }

            foreach (var portion in part.Facts.Portions)
                found.Add((portion, part.Column));
            if (part.Facts.Bare is not { } bare || unitIsVessel)
                continue;
            if (unit is { } per)
                found.Add((new Portion(Amount.Of(bare * per), null, Share.Unsaid), part.Column));
            else if (bare == 0)
                facts.Gone |= part.Column.Meaning is Meaning.Left or Meaning.Quantity or Meaning.Total;
            else
                facts.Doubt($"'{part.Cell.Text.Trim()}' under '{RowReader.Name(part.Column)}' has no unit: grams, ounces or a number of packages?");
        }

        // A container's own words may hold the amount: "50g tin".
        if (cells.Of(Meaning.Container) is { Facts: { } container } box)
        {
            foreach (var portion in container.Portions)
                found.Add((portion, box.Column));
        }

        if (cells.Of(Meaning.Count) is { Facts: { } counted } cell)
        {
            foreach (var portion in counted.Portions)
                found.Add((portion, cell.Column));
        }

        foreach (var portion in cells.Loose?.Portions ?? [])
            found.Add((portion, null));
        return found;
    }

    private static void Groups(RowFacts facts, AmountCells cells, TableSetting setting, (int? Number, bool Own) count, List<(Portion Portion, Column? Column)> portions)
    {
        var all = portions.Where(item => item.Portion.Amount is not null).ToList();
        var left = all.FindLast(item => item.Portion.Share == Share.Left || item.Column?.Meaning == Meaning.Left);
        var total = all.Find(item => item != left && (item.Portion.Share == Share.Total || item.Column?.Meaning == Meaning.Total || item.Column?.Share == Share.Total));
        var plain = all.Where(item => item != left && item != total).ToList();
        plain = Once(facts, plain);
        var loose = cells.Parts.Select(part => part.Facts?.Count).FirstOrDefault(number => number is not null) ?? cells.Loose?.Count;
        var vessels = facts.Container?.Value.Count is > 0 and var several ? several : (int?)null;
        var number = count.Number is 0 ? 1 : count.Number;
        if (facts.Container?.Value.Count == 0 && number is null && loose is null && plain.TrueForAll(item => item.Portion.Count is null) && total.Portion is null)
            facts.Doubt($"'{facts.Container.Value.Words}' says several and not how many. One is imported.");
        if (left.Portion is { } remains)
        {
            var held = number ?? loose ?? vessels ?? 1;
            facts.GramsWritten += remains.Amount!.Value.Grams;
            if (remains.Amount.Value.Grams <= 0)
                facts.Gone = true;
            if (held > 1)
                facts.Doubt($"What is left is written for {held} packages: in which of them is not said.");
            Add(facts, held, remains.Amount.Value.Over(held), held > 1);
            return;
        }

        if (plain.Count > 1)
        {
            var sum = plain.Sum(item => item.Portion.Count ?? 1);
            if (number is { } said && said != sum)
                facts.Doubt($"The row counts {said} packages, and {sum} are listed in it.");
            foreach (var (portion, _) in plain)
                Add(facts, portion.Count ?? 1, portion.Amount!.Value, false);
            facts.GramsWritten += facts.GramsRead;
            return;
        }

        if (plain.Count == 1)
        {
            One(facts, setting, number, count.Own, loose ?? vessels, plain[0].Portion, plain[0].Column, total.Portion?.Amount);
            return;
        }

        var packages = number ?? loose ?? vessels ?? portions.Select(item => item.Portion.Count).FirstOrDefault(n => n is not null) ?? 1;
        if (total.Portion?.Amount is { } whole)
        {
            facts.GramsWritten += whole.Grams;
            Add(facts, packages, whole.Over(packages), packages > 1);
        }
        else
        {
            facts.Groups.Add(new PackageGroup(Math.Min(packages, MostPackages), null));
            if (packages > MostPackages)
                facts.HoldBack($"{packages} packages in one row cannot be right.");
        }
    }

    // The same amount in two cells, as 50 g and 1.76 oz or as "50 g" and "50g tin", is one amount.
    private static List<(Portion Portion, Column? Column)> Once(RowFacts facts, List<(Portion Portion, Column? Column)> plain)
    {
        var kept = new List<(Portion Portion, Column? Column)>();
        foreach (var item in plain)
        {
            var same = kept.FindIndex(other => other.Column != item.Column && Math.Abs(other.Portion.Amount!.Value.Grams - item.Portion.Amount!.Value.Grams) <= 0.06 * other.Portion.Amount.Value.Grams);
            var whole = kept.FindIndex(other => other.Column != item.Column);
            if (same >= 0)
            {
                if (kept[same].Portion.Count is null && item.Portion.Count is not null)
                    kept[same] = item;
            }
            else if (whole < 0)
            {
                kept.Add(item);
            }
            else if (item.Column?.Meaning == Meaning.Container)
            {
                // "100 g" in "50g tins": as many as fit exactly; less than one is what is left of it.
                var ratio = kept[whole].Portion.Amount!.Value.Grams / item.Portion.Amount!.Value.Grams;
                if (ratio > 1.02 && Math.Abs(ratio - Math.Round(ratio)) < 0.02 && kept[whole].Portion.Count is null)
                    kept[whole] = (item.Portion with { Count = (int)Math.Round(ratio) }, item.Column);
                else if (ratio > 1.02 && kept[whole].Portion.Count is null)
                    facts.Doubt("The amount and the size of the container do not fit together.");
            }
            else
            {
                facts.Doubt($"Two cells give different amounts: {kept[whole].Portion.Amount!.Value.Grams:0.#} g and {item.Portion.Amount!.Value.Grams:0.#} g. The first is imported.");
            }
        }

        return kept;
    }

    private static void One(RowFacts facts, TableSetting setting, int? number, bool ownColumn, int? worded, Portion portion, Column? column, Amount? total)
    {
        var amount = portion.Amount!.Value;
        facts.GramsWritten += amount.Grams;
        if (portion.Count is { } inside)
        {
            if (number is > 1 && number != inside)
                facts.Doubt($"The row counts {number} packages, and the amount itself says {inside}.");
            Add(facts, inside, amount, false);
            Compare(facts, total);
            return;
        }

        var packages = number ?? worded;
        if (packages is null && total is { } sum && sum.Grams > amount.Grams * 1.02)
        {
            var times = sum.Grams / amount.Grams;
            if (Math.Abs(times - Math.Round(times)) > 0.03 || times > MostPackages)
                facts.Doubt($"The total of {sum.Grams:0.#} g is no whole number of {amount.Grams:0.#} g.");
            packages = Math.Max(1, (int)Math.Min(MostPackages, Math.Round(times)));
            Add(facts, packages.Value, amount, false);
            return;
        }

        if (packages is null or 1)
        {
            Add(facts, 1, amount, false);
            Compare(facts, total);
            return;
        }

        var share = portion.Share != Share.Unsaid ? portion.Share : column?.Share ?? Share.Unsaid;
        var ml = facts.Container?.Value.Ml;
        if (share == Share.Unsaid && ownColumn && setting.AmountsAreTotals)
            share = Share.Total;
        if (share == Share.Unsaid && ml is { } holds && amount.Grams > DensestPacking * holds)
            share = Share.Total;
        // A number of jars in the words of a container, and one weight: of each or of all?
        if (share == Share.Unsaid && number is null && facts.Container?.Value.Kind is VesselKind.Jar or VesselKind.ClampJar or VesselKind.Pouch or VesselKind.Bag or VesselKind.Unsaid)
        {
            var inOneCell = column is not null && facts.Container!.Raw.Contains(facts.Container.Value.Words, StringComparison.Ordinal) && column.Meaning != Meaning.Container && facts.Container.Raw.Any(char.IsAsciiDigit)
                && QuantityScan.Of(facts.Container.Raw, CellSetting.Open).Portions.Count > 0;
            if (!inOneCell && column is not null)
                facts.Doubt($"{amount.Grams:0.#} g and {packages} packages: of each, or of all together? No more than is written is imported.");
            share = Share.Total;
        }

        if (share == Share.Total)
            Add(facts, packages.Value, amount.Over(packages.Value), true);
        else
            Add(facts, packages.Value, amount, false);
        Compare(facts, total);
    }

    private static void Compare(RowFacts facts, Amount? total)
    {
        var sum = facts.Groups.Sum(group => group.Count * (group.Each?.Grams ?? 0));
        if (total is { } said && sum > 0 && Math.Abs(said.Grams - sum) > Math.Max(1, 0.02 * sum))
            facts.Doubt($"The row's total of {said.Grams:0.#} g is not the {sum:0.#} g of its packages.");
    }

    private static void Add(RowFacts facts, int count, Amount each, bool split)
    {
        var absurd = count > MostPackages || each.Grams * count > MostGrams;
        if (absurd)
            facts.HoldBack(count > MostPackages ? $"{count} packages in one row cannot be right." : $"{each.Grams * count / 1000:0.#} kg in one row cannot be right.");
        facts.Groups.Add(new PackageGroup(Math.Clamp(count, 1, MostPackages), each.Grams > 0 ? each : null, split));
        facts.GramsRead += absurd || facts.Standing == Standing.HeldBack ? 0 : each.Grams * count;
    }

    // Words of the amount's cells that were no amount: dates and places are taken, the rest is kept; digits that nothing explains are a doubt.
    private static void Rests(RowFacts facts, AmountCells cells, TableSetting setting)
    {
        foreach (var part in cells.Parts)
        {
            if (part.Facts is not { Rest.Length: > 0 } read || part.Column.Meaning is Meaning.Unit)
                continue;
            var (dates, place, rest) = LooseFacts.Of(read.Rest, setting.Today, bareYears: true);
            foreach (var (role, date, words) in dates)
                facts.Dates.TryAdd(role != DateRole.Unsaid ? role : facts.Container?.Value.Kind == VesselKind.Tin || read.Vessel?.Kind == VesselKind.Tin ? DateRole.Made : DateRole.Unsaid, new Said<DateCell>(date, words, Sureness.Written));
            if (place is not null && facts.Place is null)
                facts.Place = new Said<IReadOnlyList<string>>(PlaceWords.Path(place), place, Sureness.Written);
            else if (place is not null)
                rest = rest.Length > 0 ? $"{rest}, {place}" : place;
            if (rest.Length == 0)
                continue;
            if (part.Column.Meaning != Meaning.Container)
                facts.Notes.Add(part.Column.Head.Length > 0 ? $"{part.Column.Head}: {rest}" : rest);
            var silent = read.Portions.Count == 0 && read.Count is null && read.Vessel is null && !read.Gone && !read.Open && dates.Count == 0;
            if (part.Column.IsAmount && silent && read.Bare is null)
                facts.Doubt($"'{RowReader.Short(part.Cell.Text.Trim())}' under '{RowReader.Name(part.Column)}' is not understood as an amount.");
            else if (rest.Any(char.IsAsciiDigit) && part.Column.Meaning is not Meaning.Container)
                facts.Doubt($"'{RowReader.Short(rest)}' in '{RowReader.Short(part.Cell.Text.Trim())}' is not understood.");
        }
    }

    private static void Net(RowFacts facts)
    {
        if (facts.GrossGrams is not { } gross || facts.TareGrams is not { } tare)
            return;
        var net = gross.Value - tare.Value;
        if (net <= 0)
            facts.Doubt($"The full weight of {gross.Value:0.#} g is not above the empty weight of {tare.Value:0.#} g.");
        else if (facts.Groups is [{ Each: null, Count: 1 }])
        {
            facts.Groups.Clear();
            facts.GramsWritten += net;
            Add(facts, 1, Amount.Of(net), false);
        }
        else if (facts.Groups is [{ Each: { } each, Count: 1 }] && Math.Abs(each.Grams - net) > Math.Max(2, 0.03 * net))
            facts.Doubt($"Full minus empty weight is {net:0.#} g, and {each.Grams:0.#} g is written.");
    }

    private static void Sizes(RowFacts facts)
    {
        foreach (var group in facts.Groups)
        {
            if (group.Each is { } each && facts.Container?.Value is { Ml: { } ml, Count: not 0 } && each.LowGrams > DensestPacking * ml)
                facts.Doubt($"{each.Grams:0.#} g is more than a container of {ml:0} ml holds.");
        }

        if (facts.Groups is [{ Each: { } only }] && facts.GrossGrams is { } gross && only.Grams >= gross.Value)
            facts.Doubt($"The leaf of {only.Grams:0.#} g is not lighter than the full container of {gross.Value:0.#} g.");
    }
}
