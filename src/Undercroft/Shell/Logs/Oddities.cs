using System.Globalization;
using Undercroft.Physics.Climate;

namespace Undercroft.Shell.Logs;

/// <summary>What looks odd in a log: gaps, values that stand still, jumps, a clock that runs ahead.</summary>
internal static class Oddities
{
    /// <summary>A gap is a step longer than this many usual ones.</summary>
    public const int GapIntervals = 3;

    private const double Jump = 10;

    /// <summary>Adds a sentence for each kind.</summary>
    public static void Note(Merged log, long interval, DateTimeOffset? now, List<string> notes)
    {
        int gaps = 0, jumps = 0;
        long longest = 0, longestAt = 0;
        for (var row = 1; row < log.Count; row++)
        {
            var step = log.Seconds[row] - log.Seconds[row - 1];
            if (step > GapIntervals * interval && interval > 0)
            {
                gaps++;
                (longest, longestAt) = step > longest ? (step, log.Seconds[row - 1]) : (longest, longestAt);
            }

            if (row + 1 < log.Count && step <= GapIntervals * interval && Math.Abs(log.Kelvin[row] - log.Kelvin[row - 1]) > Jump && Math.Abs(log.Kelvin[row + 1] - log.Kelvin[row - 1]) < Jump / 2)
                jumps++;
        }

        if (gaps > 0)
            notes.Add($"{LogReader.Count(gaps, "gap", "gaps")} of more than three intervals; the longest, {Span(longest)}, follows {At(longestAt)}. Nothing is bridged.");
        if (jumps > 0)
            notes.Add($"{LogReader.Count(jumps, "lone reading jumps", "lone readings jump")} by more than {Jump.As("0")} K and back; kept as read.");
        Stuck(log, log.Kelvin, "temperature", notes);
        Stuck(log, log.Humidity, "humidity", notes);
        if (now is { } present && log.Seconds[log.Count - 1] > present.ToUnixTimeSeconds() + 86_400)
            notes.Add($"The log ends on {At(log.Seconds[log.Count - 1])}, which has not come yet: its clock may be wrong, or day and month are the other way round.");
    }

    private static void Stuck(Merged log, double[] values, string quantity, List<string> notes)
    {
        var start = 0;
        (long Length, long From, long To) longest = default;
        for (var row = 1; row <= log.Count; row++)
        {
            if (row < log.Count && values[row] == values[start] && !double.IsNaN(values[row]))
                continue;
            var length = log.Seconds[row - 1] - log.Seconds[start];
            if (length >= Standstill.LeastSeconds && row - start >= Standstill.LeastMoments && length > longest.Length)
                longest = (length, log.Seconds[start], log.Seconds[row - 1]);
            start = row;
        }

        if (longest.Length > 0)
            notes.Add($"The {quantity} stands still for {Span(longest.Length)} from {At(longest.From)} to {At(longest.To)}: the sensor looks stuck. Kept as read; look at it.");
    }

    /// <summary>Seconds for people.</summary>
    internal static string Span(long seconds) => seconds switch
    {
        < 120 => Number(seconds, 1) + " seconds",
        < 2 * 3600 => Number(seconds, 60) + " minutes",
        < 2 * 86_400 => Number(seconds, 3600) + " hours",
        _ => Number(seconds, 86_400) + " days",
    };

    private static string Number(long seconds, double unit) => (seconds / unit).As("0.#");

    private static string At(long seconds) => DateTimeOffset.FromUnixTimeSeconds(seconds).ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);
}
