using System.Globalization;
using NodaTime;
using NodaTime.TimeZones;

namespace Undercroft.Shell.Logs;

/// <summary>From the logger's own clock to world time, across the days when clocks are put forward and back.</summary>
/// <remarks>
/// A logger either follows the change or never does. Its rows tell: one that never shifts has rows in the hour that was skipped and none twice; one that shifts leaves the hour out in
/// spring and passes it twice in autumn. Where an hour came twice and nothing tells which pass a row belongs to, the row is left out and said so.
/// </remarks>
internal static class WallClock
{
    private readonly record struct Change(long Instant, int Before, int After)
    {
        /// <summary>Local time, by the clock before, at which the change happens.</summary>
        public long Local => Instant + Before;

        /// <summary>Positive where clocks are put forward.</summary>
        public int Step => After - Before;

        /// <summary>Local times that are skipped or come twice.</summary>
        public (long From, long To) Window => Step > 0 ? (Local, Local + Step) : (Local + Step, Local);
    }

    private enum Follows
    {
        Unknown,
        Change,
        Never,
    }

    /// <summary>Turns local milliseconds into UTC in place; rows that cannot be told become <see cref="RowTimes.None"/>.</summary>
    /// <param name="times">In the order of the file, oldest first.</param>
    /// <param name="zone">Of the clock.</param>
    /// <param name="interval">Usual milliseconds between rows.</param>
    /// <param name="notes">Receives what was found.</param>
    /// <returns>Rows left out because their hour came twice, and rows of an hour that never was.</returns>
    public static (int Twice, int Never) ToUtc(long[] times, DateTimeZone zone, long interval, List<string> notes)
    {
        long first = long.MaxValue, last = long.MinValue;
        foreach (var time in times)
        {
            if (time == RowTimes.None)
                continue;
            first = Math.Min(first, time);
            last = Math.Max(last, time);
        }

        if (first > last)
            return (0, 0);
        const long Margin = 2 * 86_400_000L;
        var spans = zone.GetZoneIntervals(Instant.FromUnixTimeMilliseconds(first - Margin), Instant.FromUnixTimeMilliseconds(last + Margin)).ToList();
        var changes = spans.Zip(spans.Skip(1), (one, next) => new Change(next.Start.ToUnixTimeMilliseconds(), one.WallOffset.Milliseconds, next.WallOffset.Milliseconds)).Where(change => change.Step != 0).ToList();
        var within = changes.Where(change => change.Window.To >= first && change.Window.From <= last).ToList();
        var found = within.Select(change => Evidence(times, change, interval)).ToList();
        if (found.Contains(Follows.Never) && !found.Contains(Follows.Change))
            return Fixed(times, spans[0], changes, first, zone, notes);
        if (found.Contains(Follows.Never))
            notes.Add("The clock of the logger followed some changes to or from summer time and not others; it is read as following them. Check the hours around them.");
        else if (found.Contains(Follows.Change))
            notes.Add($"The clock of the logger follows summer time in {zone.Id}: {string.Join(", ", within.Where((_, index) => found[index] == Follows.Change).Select(change => Say(change)))}.");
        else if (within.Exists(change => change.Local > first && change.Local < last))
            notes.Add($"Clocks changed in {zone.Id} during the log and its rows do not show whether the logger followed; it is read as following. If it never shifts, say a fixed zone such as --zone {Offset(spans[0].WallOffset.Milliseconds)}.");
        return Civil(times, spans[0].WallOffset.Milliseconds, changes, interval, zone, notes);
    }

    /// <summary>Turns local milliseconds that were counted from a start into UTC in place: by the offset at that start throughout.</summary>
    public static void Steadily(long[] times, DateTimeZone zone)
    {
        var start = Instant.FromUnixTimeMilliseconds(times.Min()).InUtc().LocalDateTime;
        var offset = zone.AtLeniently(start).Offset.Milliseconds;
        foreach (ref var time in times.AsSpan())
            time -= offset;
    }

    private static string Say(Change change) => (change.Step > 0 ? "forward on " : "back on ") + Day(change.Instant + change.Before);

    private static string Day(long local) => DateTimeOffset.FromUnixTimeMilliseconds(local).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Offset(int milliseconds) => (milliseconds < 0 ? "-" : "+") + TimeSpan.FromMilliseconds(Math.Abs(milliseconds)).ToString("hh\\:mm", CultureInfo.InvariantCulture);

    private static Follows Evidence(long[] times, Change change, long interval)
    {
        var (from, to) = change.Window;
        var size = to - from;
        var around = Math.Max(size, 3 * interval);
        var inside = 0;
        long before = RowTimes.None;
        var steady = true;
        var near = 0;
        var back = false;
        var seen = new HashSet<long>();
        var repeated = 0;
        var jump = 0;
        for (var row = 0; row < times.Length; row++)
        {
            var time = times[row];
            if (time == RowTimes.None || time < from - around || time > to + around)
            {
                before = RowTimes.None;
                continue;
            }

            near++;
            inside += time >= from && time < to ? 1 : 0;
            repeated += time >= from && time < to && !seen.Add(time) ? 1 : 0;
            if (before != RowTimes.None)
            {
                var step = time - before;
                back |= step < 0 && step > -size - interval;
                var shifted = change.Step > 0 ? step - size : step + size;
                if (Math.Abs(step - interval) > Slack(interval, size))
                {
                    steady = false;
                    // The step across the change is one interval once the clock's own step is taken off.
                    var crosses = change.Step > 0 ? before < from && time >= to : before < to && before >= from - interval && time >= from - interval && time < to + interval;
                    jump += crosses && Math.Abs(shifted - interval) <= Slack(interval, size) ? 1 : 0;
                }
            }

            before = time;
        }

        if (near < 3)
            return Follows.Unknown;
        if (change.Step > 0)
        {
            return inside > 0 ? Follows.Never : jump > 0 ? Follows.Change
                : steady && times.Any(time => time >= from - interval && time < from) && times.Any(time => time >= to && time < to + interval) ? Follows.Never : Follows.Unknown;
        }

        var whole = times.Any(time => time != RowTimes.None && time >= from - interval && time < from) && times.Any(time => time >= to && time < to + interval);
        return jump > 0 || (back && repeated > 0) || (repeated > 0 && repeated >= 0.5 * seen.Count) ? Follows.Change
            : steady && whole ? Follows.Never : Follows.Unknown;
    }

    // Less than half the change itself, however seldom the logger writes.
    private static long Slack(long interval, long change) => Math.Min(Math.Max(60_000, interval / 5), Math.Min(interval / 2, change / 3));

    private static (int Twice, int Never) Fixed(long[] times, ZoneInterval before, List<Change> changes, long first, DateTimeZone zone, List<string> notes)
    {
        // A clock that never shifts shows what it was set to when the log began.
        var offset = before.WallOffset.Milliseconds;
        foreach (var change in changes)
        {
            if (first - change.After >= change.Instant)
                offset = change.After;
        }

        for (var row = 0; row < times.Length; row++)
        {
            if (times[row] != RowTimes.None)
                times[row] -= offset;
        }

        var other = changes.Select(change => change.Before == offset ? change.After : change.Before).FirstOrDefault(offset);
        notes.Add($"The clock of the logger never shifts: its rows pass the change to or from summer time in {zone.Id} steadily. It is read at {Offset(offset)} throughout, the offset in force when the log begins; "
            + $"if it was set under the other one, say --zone {Offset(other)}.");
        return (0, 0);
    }

    private static (int Twice, int Never) Civil(long[] times, int start, List<Change> changes, long interval, DateTimeZone zone, List<string> notes)
    {
        int twice = 0, never = 0;
        var passes = changes.Where(change => change.Step < 0).ToDictionary(change => change, change => Passes(times, change, interval));
        var doubtful = new SortedSet<string>(StringComparer.Ordinal);
        for (var row = 0; row < times.Length; row++)
        {
            var time = times[row];
            if (time == RowTimes.None)
                continue;
            var offset = start;
            var state = 0;
            foreach (var change in changes)
            {
                var (from, to) = change.Window;
                if (time < from)
                    break;
                if (time >= to)
                {
                    offset = change.After;
                    continue;
                }

                if (change.Step > 0)
                {
                    state = 2;
                }
                else if (passes[change] is { } pass)
                {
                    offset = row < pass ? change.Before : change.After;
                }
                else
                {
                    state = 1;
                    doubtful.Add(Day(change.Local));
                }

                break;
            }

            twice += state == 1 ? 1 : 0;
            never += state == 2 ? 1 : 0;
            times[row] = state == 0 ? time - offset : RowTimes.None;
        }

        if (twice > 0)
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"{twice} rows stand in an hour that came twice in {zone.Id} ({string.Join(", ", doubtful)}) and nothing tells which time it was: they are left out."));
        if (never > 0)
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"{never} rows stand in an hour that never was in {zone.Id}, when clocks were put forward: they are left out."));
        return (twice, never);
    }

    /// <summary>The first row of the second pass through an hour that came twice: all rows before it belong to the first pass. Null where nothing tells.</summary>
    private static int? Passes(long[] times, Change change, long interval)
    {
        var (from, to) = change.Window;
        int first = -1, last = -1;
        int? back = null;
        var again = false;
        long before = RowTimes.None;
        for (var row = 0; row < times.Length; row++)
        {
            var time = times[row];
            if (time == RowTimes.None || time < from || time >= to)
                continue;
            first = first < 0 ? row : first;
            if (before != RowTimes.None && time <= before)
            {
                again |= back is not null || (time == before && interval < to - from); // sorted rows: both passes are mixed
                back ??= row;
            }

            before = time;
            last = row;
        }

        if (first < 0 || (back is not null && !again))
            return back ?? times.Length;
        if (again)
            return null;
        // One pass alone: which one, its neighbours tell.
        var early = first > 0 && times[first - 1] != RowTimes.None && times[first] - times[first - 1] is >= 0 and var into && into <= 1.5 * interval;
        var late = last + 1 < times.Length && times[last + 1] != RowTimes.None && times[last + 1] - times[last] is >= 0 and var out1 && out1 <= 1.5 * interval;
        return early == late ? null : early ? times.Length : 0;
    }
}
