using System.Globalization;

namespace Undercroft.Shell.Logs;

/// <summary>A logger that notes more than once a minute and writes the minute alone: rows of one stamp are spread over it.</summary>
internal static class SharedMinutes
{
    private const long Minute = 60_000;
    private const int MostAMinute = 60;
    private const double Shared = 0.3;

    /// <summary>Moves the times of rows within their minute, and says so; leaves all as it is where several sensors may stand below each other.</summary>
    /// <param name="times">UTC milliseconds, oldest first.</param>
    /// <param name="rowAt">The row of each of them.</param>
    public static void Spread(long[] times, Func<int, int> rowAt, RawRows rows, List<string> notes)
    {
        int shared = 0, most = 1, size = 0;
        var before = RowTimes.None;
        foreach (var time in times)
        {
            if (time == RowTimes.None)
                continue;
            if (time % Minute != 0 || time < before)
                return;
            size = time == before ? size + 1 : 1;
            shared += size > 1 ? 1 : 0;
            most = Math.Max(most, size);
            before = time;
        }

        if (Steps.Usual(times) != Minute || most is 1 or > MostAMinute || shared < Shared * times.Length || !IsOneSensor(rows.Temperature, rowAt, times.Length, most) || !IsOneSensor(rows.Humidity, rowAt, times.Length, most))
            return;
        var step = Minute / most;
        for (int first = 0, next; first < times.Length; first = next)
        {
            var stamp = times[first];
            for (next = first + 1; next < times.Length && times[next] == stamp && stamp != RowTimes.None;)
                next++;
            if (stamp == RowTimes.None)
                continue;
            // The first minute may have begun before the log did.
            var missing = first == 0 ? most - (next - first) : 0;
            for (var row = first; row < next; row++)
                times[row] = stamp + (step * (row - first + missing));
        }

        notes.Add($"Times stand in whole minutes and up to {most.ToString(CultureInfo.InvariantCulture)} rows share one: they are taken {Oddities.Span(step / 1000)} apart, in the order of the file.");
    }

    // Neighbours of one sensor are no further apart than rows a minute apart; those of several are, by as much as the sensors differ.
    private static bool IsOneSensor(double[] values, Func<int, int> rowAt, int count, int most)
    {
        var (near, far) = (0.0, 0.0);
        for (var place = most; place < count; place++)
        {
            var (now, last, earlier) = (values[rowAt(place)], values[rowAt(place - 1)], values[rowAt(place - most)]);
            if (!double.IsFinite(now - last) || !double.IsFinite(now - earlier))
                continue;
            near += Math.Abs(now - last);
            far += Math.Abs(now - earlier);
        }

        return near <= 1.2 * far;
    }
}
