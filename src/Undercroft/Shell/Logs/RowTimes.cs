using System.Globalization;
using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>When each row was, by the logger's own clock: the order of day, month and year is told from all rows together.</summary>
internal static class RowTimes
{
    /// <summary>A row whose date does not exist.</summary>
    public const long None = long.MinValue;

    private const long Day = 86_400_000;
    private const int Looked = 50_000;

    private static readonly string[] DayFirstHints = ["dd/mm", "dd.mm", "dd-mm", "tt.mm", "tt/mm", "jj/mm", "d/m/", "gg/mm", "dd mm", "d.m."];
    private static readonly string[] MonthFirstHints = ["mm/dd", "mm-dd", "m/d/", "mm.dd"];
    private static readonly string[] YearFirstHints = ["yy-mm", "yy/mm", "jj-mm", "aa-mm", "yy.mm"];

    // Words of languages that write the day first.
    private static readonly string[] DayFirstWords =
        ["datum", "zeit", "heure", "fecha", "hora", "tijd", "dato", "tid", "klo", "pvm", "temperatur", "feuchte", "humidite", "humedad", "umidita", "luftfeucht", "дата", "время", "vlhkost", "wilgotnosc"];

    /// <summary>Milliseconds since 1970 by the logger's clock, offsets taken off where rows say them; <see cref="None"/> where a date does not exist.</summary>
    /// <exception cref="Refusal">Day and month cannot be told apart.</exception>
    public static long[] Of(RawRows rows, Layout layout, LogAnswers answers, string name, List<string> notes)
    {
        var open = 0;
        for (var row = 0; row < rows.Count; row++)
            open += rows.IsKnown(row) ? 0 : 1;
        var order = open == 0 ? DateOrder.YearFirst : answers.Order ?? Told(rows, layout, name, notes);
        if (open > 0 && answers.Order is not null)
            notes.Add($"Dates are read as {Word(order)}, as said.");
        var times = new long[rows.Count];
        for (var row = 0; row < times.Length; row++)
            times[row] = At(rows, row, order);
        return layout.Time.Form == TimeForm.Steady ? SteadyTimes.Of(rows, times, layout, answers, name, notes) : times;
    }

    /// <summary>For people.</summary>
    public static string Word(DateOrder order) => order switch
    {
        DateOrder.DayFirst => "day, month, year",
        DateOrder.MonthFirst => "month, day, year",
        DateOrder.YearFirst => "year, month, day",
        _ => throw new ArgumentOutOfRangeException(nameof(order), order, "Unknown order."),
    };

    /// <summary>The order that words above the readings speak for; null where they speak for none.</summary>
    public static DateOrder? ByWords(string text)
    {
        bool Says(string[] words) => words.Any(word => text.Contains(word, StringComparison.Ordinal));
        if (Says(DayFirstHints) != Says(MonthFirstHints))
            return Says(DayFirstHints) ? DateOrder.DayFirst : DateOrder.MonthFirst;
        return SpeaksDayFirst(text) ? DateOrder.DayFirst : null;
    }

    private static bool SpeaksDayFirst(string text) =>
        text.Split([' ', '\n', '\t', ';', ',', '/', '(', ')', '[', ']', ':', '|', '.', '"'], StringSplitOptions.RemoveEmptyEntries).Any(word => Array.IndexOf(DayFirstWords, word) >= 0);

    private static long At(RawRows rows, int row, DateOrder order)
    {
        var (a, b, c) = rows.Date(row);
        var (year, month, day) = rows.IsKnown(row) ? (a, b, c) : order switch
        {
            DateOrder.DayFirst => (Century(c), b, a),
            DateOrder.MonthFirst => (Century(c), a, b),
            _ => (Century(a), b, c),
        };
        if (year is < 1980 or > 2199 || month is < 1 or > 12 || day < 1 || day > DateTime.DaysInMonth(year, month))
            return None;
        var wall = ((long)(new DateOnly(year, month, day).DayNumber - RawRows.Epoch) * Day) + rows.Clock(row);
        return rows.OffsetOf(row) is var offset && offset == RawRows.NoOffset ? wall : wall - (offset * 60_000L);
    }

    private static int Century(int year) => year >= 100 ? year : year < 70 ? 2000 + year : 1900 + year;

    private static DateOrder Told(RawRows rows, Layout layout, string name, List<string> notes)
    {
        var longYear = false;
        for (var row = 0; row < rows.Count; row++)
            longYear |= !rows.IsKnown(row) && rows.Date(row).C > 99;
        DateOrder[] orders = longYear ? [DateOrder.DayFirst, DateOrder.MonthFirst] : [DateOrder.DayFirst, DateOrder.MonthFirst, DateOrder.YearFirst];
        var valid = orders.Select(order => (Order: order, Count: Valid(rows, order))).ToList();
        var most = valid.Max(one => one.Count);
        var left = valid.Where(one => one.Count >= most - (rows.Count / 100)).Select(one => one.Order).ToList();
        if (left.Count == 1)
            return left[0];
        if (left.Skip(1).All(order => Same(rows, left[0], order)))
            return left[0];
        // A row that an order cannot date is no better than one that it puts out of its place.
        var torn = left.Select(order => (Order: order, Torn: Torn(rows, order) + most - valid.Find(one => one.Order == order).Count)).OrderBy(one => one.Torn).ToList();
        if (torn[0].Torn * 2 < torn[1].Torn || (torn[0].Torn == 0 && torn[1].Torn > 0))
        {
            notes.Add($"No date says whether its day or month comes first; read as {Word(torn[0].Order)} the rows follow each other steadily.");
            return torn[0].Order;
        }

        // The language of a heading tells day from month, never day from year.
        var hints = layout.TimeHeading + "\n" + layout.Preamble;
        bool Says(string[] words) => words.Any(word => hints.Contains(word, StringComparison.Ordinal));
        if (Says(DayFirstHints) != Says(MonthFirstHints) && !(Says(YearFirstHints) && left.Contains(DateOrder.YearFirst)))
            return Says(DayFirstHints) ? DateOrder.DayFirst : DateOrder.MonthFirst;
        if ((rows.Points || (!left.Contains(DateOrder.YearFirst) && SpeaksDayFirst(hints))) && left.Contains(DateOrder.DayFirst) && torn.Find(one => one.Order == DateOrder.DayFirst).Torn <= torn[0].Torn)
        {
            notes.Add($"Dates are read as {Word(DateOrder.DayFirst)}, {(rows.Points ? "as dates with points are" : "as the language of the headings writes them")}. Say --date-order m/d/y if that is wrong.");
            return DateOrder.DayFirst;
        }

        var (first, second, third) = rows.Date(Enumerable.Range(0, rows.Count).First(row => !rows.IsKnown(row)));
        throw new Refusal(string.Create(
            CultureInfo.InvariantCulture, $"{name} is not read: its dates, such as {first:00}/{second:00}/{third:00}, can have the day or the month first, and nothing tells which. Say --date-order d/m/y or --date-order m/d/y."));
    }

    private static int Valid(RawRows rows, DateOrder order)
    {
        var count = 0;
        for (var row = 0; row < rows.Count; row++)
            count += At(rows, row, order) == None ? 0 : 1;
        return count;
    }

    private static bool Same(RawRows rows, DateOrder one, DateOrder other)
    {
        for (var row = 0; row < rows.Count; row++)
        {
            if (At(rows, row, one) != At(rows, row, other))
                return false;
        }

        return true;
    }

    /// <summary>How many steps are far longer than the usual one, whatever order the rows are in, and how many dates do not exist: a wrong order tears the log apart.</summary>
    private static int Torn(RawRows rows, DateOrder order)
    {
        var times = Enumerable.Range(0, Math.Min(rows.Count, Looked)).Select(row => At(rows, row, order)).Where(time => time != None).Order().ToList();
        if (times.Count < 3)
            return Math.Min(rows.Count, Looked) - times.Count;
        var steps = times.Zip(times.Skip(1), (earlier, later) => later - earlier).ToList();
        var usual = steps.Order().ElementAt(steps.Count / 2);
        return steps.Count(step => step > (3 * usual) + 60_000) + Math.Min(rows.Count, Looked) - times.Count;
    }
}
