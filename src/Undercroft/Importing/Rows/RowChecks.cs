using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>Checks across the facts of a row and across rows.</summary>
internal static class RowChecks
{
    /// <summary>Readings that are impossible decide for the other one; orders that are impossible are asked about.</summary>
    public static void Dates(IReadOnlyList<RowFacts> rows, DateOnly today)
    {
        foreach (var row in rows)
        {
            if (row.Dates.Count == 0)
                continue;
            Choose(row, today);
            foreach (var (role, said) in row.Dates.ToList())
            {
                switch (said.Value)
                {
                    case DateCell.Either either:
                        row.Doubt($"'{said.Raw}' may be {either.WhenDayFirst.Edtf} or {either.WhenMonthFirst.Edtf}: day or month first?");
                        row.Dates[role] = said with { Value = new DateCell.Known(Span(either)), Sure = Sureness.Doubtful };
                        break;
                    case DateCell.Doubtful doubtful:
                        row.Doubt("The date is not clear: " + doubtful.Why);
                        row.Dates.Remove(role);
                        break;
                    case DateCell.Known { Date.First: { } first } when first > today:
                        row.Doubt($"The date '{said.Raw}' lies in the future.");
                        row.Dates.Remove(role);
                        break;
                    default:
                        break;
                }
            }

            Order(row, DateRole.Bought, DateRole.Opened, "opened before it was bought");
            Order(row, DateRole.Sealed, DateRole.Opened, "opened before it was sealed");
            Order(row, DateRole.Made, DateRole.Opened, "opened before it was made");
            Order(row, DateRole.Made, DateRole.Bought, "bought before it was made");
            Order(row, DateRole.Made, DateRole.Sealed, "put into its container before it was made");
            Order(row, DateRole.Opened, DateRole.Gone, "used up before it was opened");
            Order(row, DateRole.Bought, DateRole.Gone, "used up before it was bought");
        }
    }

    // The order of a lot's days: made, bought, sealed, opened, gone. Sealed and bought may come either way.
    private static readonly (DateRole Before, DateRole After)[] Orders =
    [
        (DateRole.Made, DateRole.Bought), (DateRole.Made, DateRole.Sealed), (DateRole.Made, DateRole.Opened), (DateRole.Bought, DateRole.Opened),
        (DateRole.Sealed, DateRole.Opened), (DateRole.Opened, DateRole.Gone), (DateRole.Bought, DateRole.Gone),
    ];

    private static void Choose(RowFacts row, DateOnly today)
    {
        foreach (var (role, said) in row.Dates.ToList())
        {
            if (said.Value is not DateCell.Either either)
                continue;
            bool day = Possible(row, role, either.WhenDayFirst, today), month = Possible(row, role, either.WhenMonthFirst, today);
            if (day != month)
                row.Dates[role] = said with { Value = new DateCell.Known(day ? either.WhenDayFirst : either.WhenMonthFirst), Sure = Sureness.Decided };
        }
    }

    private static bool Possible(RowFacts row, DateRole role, SheetDate date, DateOnly today)
    {
        if (date.First > today)
            return false;
        foreach (var (before, after) in Orders)
        {
            if (before == role && row.DateOf(after) is { Last: { } last } && date.First > last)
                return false;
            if (after == role && row.DateOf(before) is { First: { } first } && date.Last < first)
                return false;
        }

        return true;
    }

    private static SheetDate Span(DateCell.Either either) => either.WhenDayFirst.First <= either.WhenMonthFirst.First
        ? SheetDate.Between(either.WhenDayFirst, either.WhenMonthFirst)
        : SheetDate.Between(either.WhenMonthFirst, either.WhenDayFirst);

    private static void Order(RowFacts row, DateRole before, DateRole after, string words)
    {
        if (row.DateOf(before)?.First is { } first && row.DateOf(after)?.Last is { } last && last < first)
        {
            row.Doubt($"It was {words}: '{row.Dates[after].Raw}' against '{row.Dates[before].Raw}'. The later step is left out until you say.");
            row.Dates.Remove(after);
        }
    }

    /// <summary>The same label twice, and equal rows that do not stand together: typed twice, or two alike?</summary>
    public static void Twins(IReadOnlyList<RowFacts> rows)
    {
        var labels = new Dictionary<string, RowFacts>();
        // A running number or a code that most rows share is no label of a package.
        var shared = rows.Where(row => row.Label is not null).GroupBy(row => Folding.Fold(row.Label!.Value)).ToList();
        var unique = shared.Count > 0 && shared.Count >= 0.8 * shared.Sum(group => group.Count());
        var seen = new Dictionary<string, (RowFacts Row, int Index)>();
        var twins = new List<(RowFacts Row, RowFacts Earlier)>();
        for (var i = 0; i < rows.Count; i++)
        {
            var row = rows[i];
            if (unique && row.Label is { } label && !labels.TryAdd(Folding.Fold(label.Value), row))
                row.Doubt($"The label '{label.Value}' stands in row {Where(labels[Folding.Fold(label.Value)], row)}, too.");
            var filled = row.Source.Filled;
            if (filled < 4 || seen.Count > 300_000)
                continue;
            var key = row.Sheet + '\u0001' + string.Join('\u0001', row.Source.Cells.Select(cell => cell.Text.Trim()));
            if (seen.TryGetValue(key, out var twin))
            {
                if (i - twin.Index > 1)
                    twins.Add((row, twin.Row));
                seen[key] = (twin.Row, i);
            }
            else
            {
                seen[key] = (row, i);
            }
        }

        // A sheet with a row for every package is full of equal rows, and none of them is odd.
        if (twins.Count > Math.Max(2, rows.Count / 10))
            return;
        foreach (var (row, earlier) in twins)
            row.Doubt($"The row is the same as row {Where(earlier, row)}: written twice, or two alike? It is imported.");
    }

    private static string Where(RowFacts one, RowFacts other) => one.Sheet == other.Sheet ? $"{one.Row}" : $"{one.Row} of '{one.Sheet}'";
}
