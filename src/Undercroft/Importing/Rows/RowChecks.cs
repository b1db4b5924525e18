using Undercroft.Importing.Cells;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Rows;

/// <summary>Checks across the facts of a row and across rows.</summary>
internal static class RowChecks
{
    /// <summary>Readings that are impossible decide for the other one; orders that are impossible are asked about.</summary>
    public static void Dates(RowFacts row, DateOnly today)
    {
        if (row.Dates.Count == 0)
            return;
        Choose(row, today);
        foreach (var (role, said) in row.Dates)
        {
            switch (said.Value)
            {
                case DateCell.Either either:
                    row.Doubt("day-or-month", $"'{said.Raw}' may be {either.WhenDayFirst.Edtf} or {either.WhenMonthFirst.Edtf}: day or month first?", At(row, role, said.Raw),
                        Instead(row, role, said.Raw, "day-first", Long(either.WhenDayFirst), either.WhenDayFirst.Edtf).Concat(Instead(row, role, said.Raw, "month-first", Long(either.WhenMonthFirst), either.WhenMonthFirst.Edtf)));
                    row.Dates[role] = said with { Value = new DateCell.Known(Span(either)), Sure = Sureness.Doubtful };
                    break;
                case DateCell.Doubtful doubtful:
                    row.Doubt("date-unclear", "The date is not clear: " + doubtful.Why, At(row, role, said.Raw),
                        doubtful.Readings.SelectMany((reading, n) => Instead(row, role, said.Raw, $"reading-{n + 1}", reading, reading)).Concat(Instead(row, role, said.Raw, "blank", "nobody knows: leave it blank", "")));
                    row.Dates.Remove(role);
                    break;
                case DateCell.Relative relative:
                    row.Doubt("date-relative", $"'{said.Raw}' counts from the day on which it was written; counted from {today:yyyy-MM-dd} it is {relative.Date.Edtf}.", At(row, role, said.Raw),
                        Instead(row, role, said.Raw, "from-today", relative.Date.Edtf, relative.Date.Edtf).Concat(Instead(row, role, said.Raw, "blank", "nobody knows: leave it blank", "")));
                    row.Dates[role] = said with { Value = new DateCell.Known(relative.Date.About()), Sure = Sureness.Doubtful };
                    break;
                case DateCell.Known { Date.First: { } first } when first > today:
                    row.Doubt("date-future", $"The date '{said.Raw}' lies in the future.", At(row, role, said.Raw), Instead(row, role, said.Raw, "blank", "nobody knows: leave it blank", ""));
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

    // The order of a lot's days: made, bought, sealed, opened, gone. Sealed and bought may come either way.
    private static readonly (DateRole Before, DateRole After)[] Orders =
    [
        (DateRole.Made, DateRole.Bought), (DateRole.Made, DateRole.Sealed), (DateRole.Made, DateRole.Opened), (DateRole.Bought, DateRole.Opened),
        (DateRole.Sealed, DateRole.Opened), (DateRole.Opened, DateRole.Gone), (DateRole.Bought, DateRole.Gone),
    ];

    private static void Choose(RowFacts row, DateOnly today)
    {
        foreach (var (role, said) in row.Dates)
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
            int late = At(row, after, row.Dates[after].Raw), early = At(row, before, row.Dates[before].Raw);
            row.Doubt("out-of-order", $"It was {words}: '{row.Dates[after].Raw}' against '{row.Dates[before].Raw}'. The later step is left out until you say.", late, late < 0 || early < 0 || late == early ? [] :
            [
                Choice.Cell("later-wrong", $"'{row.Dates[after].Raw}' is wrong: leave it blank", late, ""),
                Choice.Cell("earlier-wrong", $"'{row.Dates[before].Raw}' is wrong: leave it blank", early, ""),
                new Choice("swapped", "they are swapped", [new CellSaid(SheetMap.Letter(late), row.Dates[before].Raw), new CellSaid(SheetMap.Letter(early), row.Dates[after].Raw)]),
            ]);
            row.Dates.Remove(after);
        }
    }

    /// <summary>The same label twice, and equal rows that do not stand together: typed twice, or two alike?</summary>
    public static void Twins(IReadOnlyList<RowFacts> rows)
    {
        var labels = new Dictionary<string, RowFacts>();
        var unique = LabelsAreUnique(rows);
        var last = new Dictionary<RowFacts, int>(SameCells.Instance);
        var first = new int[rows.Count];
        var twins = new List<(RowFacts Row, RowFacts Earlier)>();
        for (var i = 0; i < rows.Count; i++)
        {
            var row = rows[i];
            if (unique && LabelOf(row) is { } label && !labels.TryAdd(label, row))
                row.Ask(LabelTwice(row, labels[label]));
            if (!SameCells.Tells(row))
                continue;
            var known = last.TryGetValue(row, out var before);
            first[i] = known ? first[before] : i;
            if (known && i - before > 1)
                twins.Add((row, rows[first[i]]));
            last[row] = i;
        }

        // A sheet with a row for every package is full of equal rows, and none of them is odd.
        if (twins.Count > Math.Max(2, rows.Count / 10))
            return;
        foreach (var (row, earlier) in twins)
            row.Ask(Twin(row, earlier));
    }

    /// <summary>The kinds of questions that rest on other rows.</summary>
    public static bool IsAcross(Question question) => question.Kind is "twin" or "label-twice";

    /// <summary>True where labels tell rows apart: a running number or a code that most rows share is no label of a package.</summary>
    public static bool LabelsAreUnique(IEnumerable<RowFacts> rows)
    {
        var shared = rows.Select(LabelOf).OfType<string>().GroupBy(label => label).ToList();
        return shared.Count > 0 && shared.Count >= 0.8 * shared.Sum(group => group.Count());
    }

    /// <summary>The label without case and accents, or null.</summary>
    public static string? LabelOf(RowFacts row) => row.Label is { } label ? Folding.Fold(label.Value) : null;

    /// <summary>The same label in two rows.</summary>
    public static Question LabelTwice(RowFacts row, RowFacts other) => new("label-twice", $"The label '{row.Label?.Value}' stands in row {Where(other, row)}, too.", -1, Both);

    /// <summary>The same row twice.</summary>
    public static Question Twin(RowFacts row, RowFacts other) => new("twin", $"The row is the same as row {Where(other, row)}: written twice, or two alike? It is imported.", -1, Both);

    private static IEnumerable<Choice> Both => [new Choice("keep", "two alike: keep both"), new Choice("leave-out", "written twice: leave this row out", LeaveOut: true)];

    private static int At(RowFacts row, DateRole role, string raw) => row.ColumnOf(raw, column => column.Meaning == (role switch
    {
        DateRole.Made => Meaning.Made,
        DateRole.Sealed => Meaning.Sealed,
        DateRole.Bought => Meaning.Bought,
        DateRole.Opened => Meaning.Opened,
        DateRole.Gone => Meaning.Gone,
        _ => Meaning.Date,
    }));

    // The cell with other words in the place of the date.
    private static IEnumerable<Choice> Instead(RowFacts row, DateRole role, string raw, string code, string words, string date)
    {
        var column = At(row, role, raw);
        if (column >= 0)
            yield return Choice.Cell(code, words, column, row.Source[column].Text.Replace(raw, date, StringComparison.Ordinal).Trim(' ', ','));
    }

    private static string Long(SheetDate date) => date.First is { } day && date.First == date.Last ? day.ToString("d MMMM yyyy", System.Globalization.CultureInfo.InvariantCulture) : date.Edtf;

    private static string Where(RowFacts one, RowFacts other) => one.Sheet == other.Sheet ? $"{one.Row}" : $"{one.Row} of '{one.Sheet}'";
}
