using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>Columns that count packages of the sort that their head names.</summary>
internal static partial class AmountReading
{
    // A column for every sort of package: "8oz jar | 50g tin" over "2 | 3".
    private static bool Sorts(RowFacts facts, AmountCells cells, List<(Portion Portion, Column? Column)> portions)
    {
        var any = false;
        if (Counted(cells) is ({ } held, var told, var sum) && sum != held)
        {
            // "How many | open" over "3 | 1": the second is of the first.
            if (told is not null && sum <= held)
            {
                cells.Told ??= told;
                return false;
            }

            facts.Doubt("counts-differ", $"The row counts {held} packages, and {sum} stand in its columns of sorts.", CountColumn(cells), Recount(cells, sum));
        }

        var beside = cells.Parts.Exists(part => part.Column.Meaning == Meaning.Sort) ? Beside(facts, cells, portions) : null;
        foreach (var part in cells.Parts)
        {
            if (part.Column.Meaning != Meaning.Sort)
                continue;
            if (part.Facts?.Count is not { } count)
            {
                facts.Doubt("count-unknown", $"'{part.Cell.Text.Trim()}' under '{RowReader.Name(part.Column)}' is not understood as a number of packages.", part.Column.Index, Counts(part.Column.Index));
                continue;
            }

            any = true;
            if (count == 0)
                continue;
            if (HeaderGuess.IsYear(part.Column.Head, facts.Context!.Setting.Today))
            {
                facts.Notes.Add($"{part.Column.Head}: {count}");
                facts.Doubt("year-of-sort", "Columns are headed by years: of making, of buying or of putting up is not said. The packages are imported without a date.", -1);
            }

            var sort = QuantityScan.Of(part.Column.Head, CellSetting.Open);
            var amount = sort.Portions is [{ Amount: { } each }] ? each : sort.Portions.Count == 0 ? beside : null;
            if (amount is not null && sort.Portions.Count > 0 && sort.Vessel is null && UnitWords.IsOunce(Tokens.Of(Folding.Level(part.Column.Head))[^1].Text))
            {
                facts.Doubt("head-weight-or-size", $"'{part.Column.Head}' may be a weight or the size of a jar.", part.Column.Index,
                    Choice.Cell("weight", $"{part.Column.Head} of leaf in each", part.Column.Index, $"{part.Cell.Text.Trim()} x {amount.Value.Grams.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture)} g"));
                amount = null;
            }

            if (amount is { } known)
                Add(facts, count, known, false);
            else
                facts.Groups.Add(new PackageGroup(Math.Min(count, MostPackages), null));
            var closed = Tokens.Of(Folding.Level(part.Column.Head)).Exists(token => SmallWords.Closed.Contains(token.Text));
            facts.Groups[^1] = facts.Groups[^1] with { Sort = sort.Vessel, Open = sort.Open ? true : closed ? false : null };
            facts.GramsWritten += amount?.Grams * count ?? 0;
        }

        Apart(facts, portions, any);
        if (any && facts.Groups.Count == 0)
        {
            facts.Gone = true;
            facts.Groups.Add(new PackageGroup(1, null));
        }

        return any;
    }

    // How many the row counts beside its columns of sorts, what these say where they only name a state, and their sum.
    private static (int? Held, CellFacts? Told, int Sum) Counted(AmountCells cells)
    {
        var sorts = cells.Parts.FindAll(static part => part.Column.Meaning == Meaning.Sort);
        if (sorts.Count == 0 || cells.Of(Meaning.Count)?.Facts?.Count is not { } held)
            return default;
        var told = new CellFacts();
        var states = true;
        foreach (var part in sorts)
        {
            var words = Tokens.Of(Folding.Level(part.Column.Head));
            var count = part.Facts?.Count ?? 0;
            if (words.Exists(static token => SmallWords.Open.Contains(token.Text)))
                told.OpenOnes = (told.OpenOnes ?? 0) + count;
            else if (words.Exists(static token => SmallWords.Closed.Contains(token.Text)))
                told.ClosedOnes = (told.ClosedOnes ?? 0) + count;
            else
                states = false;
        }

        return (held, states ? told : null, sorts.Sum(static part => part.Facts?.Count ?? 0));
    }

    // The one amount of the row is of each package of every sort, unless its own head names another container.
    private static Amount? Beside(RowFacts facts, AmountCells cells, List<(Portion Portion, Column? Column)> portions)
    {
        var amounts = portions.FindAll(item => item.Portion.Amount is not null && !IsApart(item.Column));
        if (amounts is [{ Portion: { Count: null, Share: not Share.Left, Amount: { } amount }, Column: var column }])
        {
            var apart = portions.Where(item => item.Portion.Amount is not null && IsApart(item.Column)).Sum(item => item.Portion.Amount!.Value.Grams * (item.Portion.Count ?? 1));
            return column?.Meaning == Meaning.Total || column?.Share == Share.Total || amounts[0].Portion.Share == Share.Total
                ? amount.Grams > apart ? Amount.Of(amount.Grams - apart, amount.About).Over(Math.Max(1, cells.Parts.Sum(part => part.Column.Meaning == Meaning.Sort ? part.Facts?.Count ?? 0 : 0))) : null
                : amount;
        }

        if (amounts.Count > 0)
            facts.Doubt("amounts-of-sorts", "The amounts of the row and the numbers of its packages do not say which belongs to which. The packages are imported without a weight.", amounts[0].Column?.Index ?? -1);
        return null;
    }

    // "Sealed tins | Jars (oz)": what is written under jars is in jars and in none of the tins.
    private static void Apart(RowFacts facts, List<(Portion Portion, Column? Column)> portions, bool any)
    {
        foreach (var (portion, column) in portions)
        {
            if (!any || portion.Amount is not { } amount || !IsApart(column))
                continue;
            Add(facts, portion.Count ?? 1, amount, false);
            facts.GramsWritten += amount.Grams * (portion.Count ?? 1);
            facts.Groups[^1] = facts.Groups[^1] with { Sort = QuantityScan.Of(column!.Head, CellSetting.Open).Vessel };
            if (portion.Count is null && facts.Groups[^1].Sort?.Count == 0)
                facts.Doubt("several", $"'{RowReader.Name(column)}' may be several and says not how many. One is imported.", column.Index);
        }
    }

    private static bool IsApart(Column? column) => column is { IsAmount: true } && column.Share == Share.Unsaid
        && (QuantityScan.Of(column.Head, CellSetting.Open).Vessel is not null || Folding.Fold(column.Head).Contains("jarred", StringComparison.Ordinal));
}
