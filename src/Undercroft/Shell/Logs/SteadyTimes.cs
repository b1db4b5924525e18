using System.Globalization;
using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>When each row was where none says so: counted from the start and the interval that stand above the readings.</summary>
internal static class SteadyTimes
{
    /// <summary>Where counting begins in <see cref="RawRows"/>: rows are that far from it, a second for each number or as long as their clocks say.</summary>
    public static readonly long Base = new DateTimeOffset(2000, 1, 1, 0, 0, 0, TimeSpan.Zero).ToUnixTimeMilliseconds();

    private const long Second = 1000;
    private const long Day = 86_400_000;

    /// <summary>Milliseconds since 1970 by the logger's clock, or of world time where the start says an offset.</summary>
    /// <param name="counted">As they stand in <see cref="RawRows"/>.</param>
    /// <exception cref="Refusal">The file does not say its start or its interval, or says them in two ways.</exception>
    public static long[] Of(RawRows rows, long[] counted, Layout layout, LogAnswers answers, string name, List<string> notes)
    {
        var said = PreambleTimes.Of(layout.Preamble);
        var (first, last) = (counted.Min(), counted.Max());
        var interval = layout.Time.IsClock ? Second : Interval(said, layout, first, last, name);
        var span = (last - first) / Second * interval;
        if (layout.Time.IsClock)
            span = last - first;
        if (!layout.Time.IsClock && counted.Distinct().Count() < counted.Length)
            throw new Refusal($"{name} is not read: {Without(layout)}, and its numbers begin anew: several logs stand in it. Split it, one log a file.");
        if (layout.Time.First >= 0 && !layout.Time.IsClock && first - Base > Second)
            throw new Refusal($"{name} is not read: {Without(layout)}, and its numbers begin at {((first - Base) / Second).ToString(CultureInfo.InvariantCulture)}: whether the start is that of the first row or of number 1 is not said. {Remedy}");
        var start = Start(said, layout, answers, first, interval, span, name);
        rows.StartHasOffset = said.StartOffset is not null;
        if (said.StartOffset is { } minutes)
            start -= minutes * 60_000L;
        notes.Add(layout.Time.IsClock
            ? $"No day stands beside the readings: it is counted from the start that the file says, {Word(start)}, a day further each time the clock begins anew."
            : $"No time stands beside the readings: times are computed from the start that the file says, {Word(start)}, and its interval, {Oddities.Span(interval / 1000)}. Gaps would not show.");
        if (said.End(Order(said, answers)) is { } end && Math.Abs(start + span - end) > Math.Max(2 * interval, 120_000) && said.StartOffset is null)
            notes.Add($"The file says that it ends {Word(end)}, but by start and interval its last reading is of {Word(start + span)}: rows are missing or the interval is another. Look at it.");
        var times = new long[counted.Length];
        for (var row = 0; row < times.Length; row++)
            times[row] = start + (layout.Time.IsClock ? counted[row] - first : (counted[row] - first) / Second * interval);
        return times;
    }

    private const string Remedy = "Export the log with a time in each row: time, temperature, humidity.";

    private static string Without(Layout layout) => "no column of dates and times with numbers beside it was found"
        + (layout.Time.First >= 0 && !layout.Time.IsClock ? $", only a running number ('{layout.TimeHeading.Trim()}')" : "");

    private static long Interval(PreambleTimes said, Layout layout, long first, long last, string name)
    {
        var byHeading = layout.Time.First >= 0 ? PreambleTimes.Unit(layout.TimeHeading) is { } unit ? (long)Math.Round(unit * layout.Time.Step) : (long?)null : null;
        var found = said.Intervals.Append(byHeading ?? 0).Where(one => one > 0).Distinct().ToList();
        if (found.Count > 1)
            throw new Refusal($"{name} is not read: {Without(layout)}, and it says several intervals ({string.Join(", ", found.Select(one => Oddities.Span(one / 1000)))}). {Remedy}");
        if (found.Count == 1)
            return found[0];
        // 10:00 is ten minutes or ten hours: start, end and the number of rows tell.
        if (said.ClockOnly is { } open && said.StartSpan() is { } whole && (last - first) / Second is > 0 and var steps)
        {
            foreach (var one in (long[])[open, open / 60])
            {
                if (Math.Abs(whole - (steps * one)) <= 2 * one)
                    return one;
            }
        }

        throw new Refusal($"{name} is not read: {Without(layout)}, and nothing above the readings says {(said.HasStart ? "" : "when the first was taken and ")}{(said.ClockOnly is null ? "at what interval they follow" : "whether its interval is of hours or of minutes")}. {Remedy}");
    }

    private static DateOrder? Order(PreambleTimes said, LogAnswers answers) => said.Order ?? answers.Order;

    private static long Start(PreambleTimes said, Layout layout, LogAnswers answers, long first, long interval, long span, string name)
    {
        if (!said.HasStart)
            throw new Refusal($"{name} is not read: {Without(layout)}, and nothing above the readings says when the first was taken. {Remedy}");
        if (said.Starts > 1)
            throw new Refusal($"{name} is not read: {Without(layout)}, and it says more than one start. {Remedy}");
        var clock = layout.Time.IsClock ? (first - Base) % Day : 0;
        if (!said.StartHasClock && !layout.Time.IsClock)
            throw new Refusal($"{name} is not read: {Without(layout)}, and its start is a day without a time of day. {Remedy}");
        // Of a time of day the first row says more than the start does; a time that has passed begins at nothing.
        long At(DateOrder order) => said.Start(order) is not { } at ? RowTimes.None : !layout.Time.IsClock || (clock == 0 && said.StartHasClock) ? at : (at - (at % Day)) + clock;
        List<DateOrder> orders = [.. ((DateOrder[])[DateOrder.DayFirst, DateOrder.MonthFirst, DateOrder.YearFirst]).Where(order => At(order) != RowTimes.None)];
        if (said.Order is { } known)
            orders = [known];
        if (orders.Count > 1 && orders.Where(order => said.End(order) is { } end && Math.Abs(At(order) + span - end) <= Math.Max(2 * interval, 120_000)).ToList() is { Count: > 0 } fitting)
            orders = fitting;
        if (answers.Order is { } asked && said.Order is null)
            orders = [asked];
        if (orders.Select(At).Distinct().Count() > 1 && said.Points)
            orders = [DateOrder.DayFirst];
        if (orders.Select(At).Distinct().Count() > 1 && RowTimes.ByWords(layout.Preamble) is { } spoken && orders.Contains(spoken))
            orders = [spoken];
        if (orders.Count == 0)
            throw new Refusal($"{name} is not read: {Without(layout)}, and its start is no date that there is. {Remedy}");
        return orders.Select(At).Distinct().Count() == 1
            ? At(orders[0]) is var one && one != RowTimes.None ? one : throw new Refusal($"{name} is not read: its start is no date that there is. {Remedy}")
            : throw new Refusal($"{name} is not read: its start, '{said.StartText}', can have the day or the month first, and nothing tells which. Say --date-order d/m/y or --date-order m/d/y.");
    }

    private static string Word(long at) => DateTimeOffset.FromUnixTimeMilliseconds(at).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
