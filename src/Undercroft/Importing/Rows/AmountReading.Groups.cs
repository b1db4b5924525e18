using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>From amounts and counts to groups of equal packages.</summary>
internal static partial class AmountReading
{
    private static void Groups(RowFacts facts, AmountCells cells, TableSetting setting, (int? Number, bool Own) count, List<(Portion Portion, Column? Column)> portions)
    {
        var counted = portions.Find(static item => item.Portion.Count is not null).Portion?.Count;
        var plain = portions;
        plain.RemoveAll(static item => item.Portion.Amount is null);
        var left = Taken(plain, plain.FindLastIndex(static item => item.Portion.Share == Share.Left || item.Column?.Meaning == Meaning.Left));
        var total = Taken(plain, plain.FindIndex(static item => item.Portion.Share == Share.Total || item.Column?.Meaning == Meaning.Total || item.Column?.Share == Share.Total));
        if (total.Portion is null && plain.Count > 1)
            total = SumOfOthers(facts, plain);
        plain = plain.Count > 1 ? Once(facts, plain) : plain;
        var loose = Stated(cells);
        var vessels = facts.Container?.Value.Count is > 0 and var several ? several : (int?)null;
        var number = count.Number is 0 ? 1 : count.Number;
        if (facts.Container?.Value.Count == 0 && number is null && loose is null && plain.TrueForAll(item => item.Portion.Count is null) && total.Portion is null)
            Several(facts);
        if (number is { } stated && cells.Noted?.Vessel?.Count is > 1 and var noted && noted != stated)
            facts.Doubt("counts-differ", $"The row counts {stated} packages, and its remark says {noted}.", CountColumn(cells), Recount(cells, noted));
        if (left.Portion is { } remains)
        {
            var listed = plain is [{ Portion.Count: > 1 and var counts }] && plain[0].Column == left.Column ? counts : (int?)null;
            var held = number ?? listed ?? loose ?? vessels ?? 1;
            // "3 x 50g (1 open, 20g left)": what is left is in the open one, and the others are full.
            if (listed is { } ofIt && ofIt == held && plain[0].Portion.Amount is { } full && remains.Amount!.Value.Grams < full.Grams && cells.Parts.Exists(part => part.Column == left.Column && part.Facts?.OpenOnes == 1))
            {
                Add(facts, ofIt - 1, full, false);
                Add(facts, 1, remains.Amount.Value, false);
                facts.Groups[^2] = facts.Groups[^2] with { Open = false };
                facts.Groups[^1] = facts.Groups[^1] with { Open = true };
                facts.GramsWritten += facts.GramsRead;
                return;
            }

            facts.GramsWritten += remains.Amount!.Value.Grams;
            if (remains.Amount.Value.Grams <= 0)
                facts.Gone = true;
            // "16 g each left": so much in each.
            if (remains.Apiece)
            {
                Add(facts, held, remains.Amount.Value, false);
                return;
            }

            // "3x16 g left": so much in each.
            if (remains.Count is { } alike && (number ?? alike) == alike)
            {
                Add(facts, alike, remains.Amount.Value, false);
                return;
            }

            if (held > 1)
                facts.Doubt("left-of-several", $"What is left is written for {held} packages: in which of them is not said.", left.Column?.Index ?? -1,
                    left.Column is { } leftColumn ? AmountChoices.LeftOfSeveral(leftColumn, held, remains.Amount.Value, cells.Of(Meaning.Count)?.Column, plain is [{ Portion: { Count: null }, Column: { } of }] ? (plain[0].Portion.Amount!.Value, of) : null) : []);
            Add(facts, held, remains.Amount.Value.Over(held), held > 1);
            return;
        }

        if (plain.Count > 1)
        {
            var sum = plain.Sum(item => item.Portion.Count ?? 1);
            if (number is { } said && said != sum)
                facts.Doubt("counts-differ", $"The row counts {said} packages, and {sum} are listed in it.", CountColumn(cells), Recount(cells, sum));
            foreach (var (portion, _) in plain)
            {
                Add(facts, portion.Count ?? 1, portion.Amount!.Value, false);
                facts.Groups[^1] = facts.Groups[^1] with { Open = portion.Open };
            }

            facts.GramsWritten += facts.GramsRead;
            return;
        }

        if (plain.Count == 1)
        {
            One(facts, cells, setting, number, count.Own, loose ?? vessels, plain[0].Portion, plain[0].Column, total.Portion?.Amount);
            return;
        }

        var packages = number ?? loose ?? vessels ?? counted ?? 1;
        if (total.Portion?.Amount is { } whole)
        {
            facts.GramsWritten += whole.Grams;
            Add(facts, packages, whole.Over(packages), packages > 1);
        }
        else
        {
            facts.Groups.Add(new PackageGroup(Math.Min(packages, MostPackages), null));
            if (packages > MostPackages)
                TooMany(facts, packages, CountColumn(cells));
        }
    }

    private static (Portion Portion, Column? Column) Taken(List<(Portion Portion, Column? Column)> portions, int at)
    {
        if (at < 0)
            return default;
        var taken = portions[at];
        portions.RemoveAll(item => item == taken);
        return taken;
    }

    // "100 g (2x50g)": an amount that is the sum of the others of its cell is their total.
    private static (Portion Portion, Column? Column) SumOfOthers(RowFacts facts, List<(Portion Portion, Column? Column)> plain)
    {
        var total = plain.Find(item => item.Portion.Count is null && plain.TrueForAll(other => other.Column == item.Column)
            && Math.Abs(plain.Sum(other => other == item ? 0 : (other.Portion.Count ?? (plain.Count == 2 && facts.Container?.Value.Count is > 0 and var named ? named : 1)) * other.Portion.Amount!.Value.Grams) - item.Portion.Amount!.Value.Grams) <= 0.02 * item.Portion.Amount.Value.Grams);
        plain.Remove(total);
        return total;
    }

    // A number that stands on its own in some cell.
    private static int? Stated(AmountCells cells)
    {
        foreach (var part in cells.Parts)
        {
            if (part.Facts?.Count is { } number and > 0)
                return number;
        }

        return cells.Loose?.Count is > 0 and var loose ? loose : null;
    }

    private static int CountColumn(AmountCells cells) => cells.Of(Meaning.Count)?.Column.Index ?? -1;

    private static IEnumerable<Choice> Recount(AmountCells cells, int listed) =>
        cells.Of(Meaning.Count) is { } part ? [Choice.Cell("as-listed", $"{listed} packages", part.Column.Index, $"{listed}")] : [];

    // The amount as its cell has it, with its unit.
    private static string Written(RowFacts facts, Column column, Amount amount) =>
        facts.Source[column.Index].Text.Trim() is { Length: > 0 } text && text.Any(char.IsLetter) ? text : $"{amount.Grams.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture)} g";

    private static void Several(RowFacts facts)
    {
        var words = facts.Container!.Value.Words;
        var column = facts.ColumnOf(words, column => column.Meaning is Meaning.Container or Meaning.Quantity or Meaning.Count);
        facts.Doubt("several", $"'{words}' says several and not how many. One is imported.", column, column < 0 ? [] : Enumerable.Range(1, 4)
            .Select(count => Choice.Cell($"count-{count}", count == 1 ? "one package" : $"{count} packages", column, facts.Source[column].Text.Replace(words, $"{count} {words}", StringComparison.Ordinal))));
    }

    // The same amount in two cells, as 50 g and 1.76 oz or as "50 g" and "50g tin", is one amount.
    private static List<(Portion Portion, Column? Column)> Once(RowFacts facts, List<(Portion Portion, Column? Column)> plain)
    {
        var kept = new List<(Portion Portion, Column? Column)>();
        foreach (var item in plain)
        {
            if (item.Column?.Numbered == true)
            {
                kept.Add(item);
                continue;
            }

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
                    facts.Doubt("size-unfit", "The amount and the size of the container do not fit together.", item.Column.Index);
            }
            else
            {
                facts.Doubt("amounts-differ", $"Two cells give different amounts: {kept[whole].Portion.Amount!.Value.Grams:0.#} g and {item.Portion.Amount!.Value.Grams:0.#} g. The first is imported.", item.Column?.Index ?? -1,
                    new[] { ("first", kept[whole], item.Column), ("second", item, kept[whole].Column) }.Where(pair => pair.Item3 is not null)
                        .Select(pair => Choice.Cell(pair.Item1, $"{pair.Item2.Portion.Amount!.Value.Grams:0.#} g", pair.Item3!.Index, "")));
            }
        }

        return kept;
    }

    private static void One(RowFacts facts, AmountCells cells, TableSetting setting, int? number, bool ownColumn, int? worded, Portion portion, Column? column, Amount? total)
    {
        var amount = portion.Amount!.Value;
        facts.GramsWritten += amount.Grams;
        if (portion.Count is { } inside)
        {
            if (number is > 1 && number != inside)
                facts.Doubt("counts-differ", $"The row counts {number} packages, and the amount itself says {inside}.", CountColumn(cells), Recount(cells, inside));
            Add(facts, inside, amount, false);
            Compare(facts, total);
            return;
        }

        var packages = number ?? worded;
        if (packages is null && total is { } sum && sum.Grams > amount.Grams * 1.02)
        {
            var times = sum.Grams / amount.Grams;
            if (Math.Abs(times - Math.Round(times)) > 0.03 || times > MostPackages)
                facts.Doubt("total-unfit", $"The total of {sum.Grams:0.#} g is no whole number of {amount.Grams:0.#} g.", column?.Index ?? -1);
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
        if (ml is { } holds && amount.Grams > DensestPacking * holds && portion.Share == Share.Unsaid && share != Share.Total)
        {
            // The head of the column may say "each": no such jar holds it, so it is of all, where that fits.
            if (share == Share.Unsaid)
                share = Share.Total;
            else if (amount.Grams / packages.Value <= DensestPacking * holds && column is not null)
            {
                EachOrAll(facts, amount, packages.Value, column);
                share = Share.Total;
            }
        }

        // A number of jars in the words of a container, and one weight: of each or of all?
        if (share == Share.Unsaid && number is null && facts.Container?.Value.Kind is VesselKind.Jar or VesselKind.ClampJar or VesselKind.Pouch or VesselKind.Bag or VesselKind.Unsaid)
        {
            var inOneCell = column is not null && facts.Container!.Raw.Contains(facts.Container.Value.Words, StringComparison.Ordinal) && column.Meaning != Meaning.Container && facts.Container.Raw.Any(char.IsAsciiDigit)
                && QuantityScan.Of(facts.Container.Raw, CellSetting.Open).Portions.Count > 0;
            if (!inOneCell && column is not null)
                EachOrAll(facts, amount, packages.Value, column);
            share = Share.Total;
        }

        // So many jars, and a weight that says neither "each" nor the size of a jar.
        if (share == Share.Unsaid && ownColumn && ml is null && facts.Container?.Value.Kind is not VesselKind.Tin && column is not null && WeighsOnly(column.Head) && CountsJars(cells))
        {
            EachOrAll(facts, amount, packages.Value, column);
            share = Share.Total;
        }

        if (share == Share.Total)
            Add(facts, packages.Value, amount.Over(packages.Value), true);
        else
            Add(facts, packages.Value, amount, false);
        Compare(facts, total);
    }

    private static bool CountsJars(AmountCells cells) => cells.Of(Meaning.Count) is { } count && Tokens.Of(Folding.Level(count.Column.Head))
        .Exists(token => VesselWords.Vessels.TryGetValue(token.Text, out var named) && named is { Vessel: VesselKind.Jar or VesselKind.ClampJar or VesselKind.Bag, Plural: true });

    private static bool WeighsOnly(string head)
    {
        var folded = Folding.Fold(head).Trim('.', ' ');
        return UnitWords.Grams.ContainsKey(folded) || folded is "amount" or "quantity" or "how much" or "menge" or "quantite" or "cantidad";
    }

    private static void EachOrAll(RowFacts facts, Amount amount, int packages, Column column) =>
        facts.Doubt("each-or-all", $"{amount.Grams:0.#} g and {packages} packages: of each, or of all together? No more than is written is imported.", column.Index,
            Choice.Cell("each", $"{amount.Grams:0.#} g in each of {packages}", column.Index, $"{Written(facts, column, amount)} each"), Choice.Cell("all", $"{amount.Grams:0.#} g in all {packages} together", column.Index, $"{Written(facts, column, amount)} total"));


    private static void Compare(RowFacts facts, Amount? total)
    {
        var sum = facts.Groups.Sum(group => group.Count * (group.Each?.Grams ?? 0));
        if (total is { } said && sum > 0 && Math.Abs(said.Grams - sum) > Math.Max(1, 0.02 * sum))
            facts.Doubt("row-total", $"The row's total of {said.Grams:0.#} g is not the {sum:0.#} g of its packages.", -1, AmountChoices.RowTotal(facts, said.Grams));
    }

    private static void Add(RowFacts facts, int count, Amount each, bool split)
    {
        var absurd = count > MostPackages || each.Grams * count > MostGrams;
        if (absurd)
            facts.HoldBack("too-much", count > MostPackages ? $"{count} packages in one row cannot be right." : $"{each.Grams * count / 1000:0.#} kg in one row cannot be right.", -1);
        facts.Groups.Add(new PackageGroup(Math.Clamp(count, 1, MostPackages), each.Grams > 0 ? each : null, split));
        facts.GramsRead += absurd || facts.Questions.Exists(question => question.Kind is "below-zero" or "too-many" or "too-much") ? 0 : each.Grams * count;
    }
}
