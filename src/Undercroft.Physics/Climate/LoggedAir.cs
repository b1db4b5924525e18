using Undercroft.Physics.Air;

namespace Undercroft.Physics.Climate;

/// <summary>One moment of a logger.</summary>
/// <param name="Seconds">On any one clock; exposure measures take days of 86 400 s from its zero.</param>
/// <param name="Kelvin">NaN where the logger has none.</param>
/// <param name="Humidity">Relative, fraction over liquid water; NaN where the logger has none.</param>
public readonly record struct LoggedMoment(double Seconds, double Kelvin, double Humidity);

/// <summary>Two neighbouring moments with no gap between them.</summary>
/// <param name="Start">Earlier.</param>
/// <param name="End">Later.</param>
public readonly record struct LoggedSpan(LoggedMoment Start, LoggedMoment End)
{
    /// <summary>How long.</summary>
    public double Hours => (End.Seconds - Start.Seconds) / 3600;
}

/// <summary>What a logger saw, in time order whatever the order of its rows; readings of one moment are averaged.</summary>
/// <remarks>A step longer than three usual ones, and longer than two hours, is a gap: nothing is said about it.</remarks>
public sealed class LoggedAir
{
    private const double UsualSteps = 3;
    private const double AlwaysBridged = 7200;

    private LoggedAir(LoggedMoment[] moments)
    {
        Moments = moments;
        double[] steps = [.. moments.Zip(moments.Skip(1), (a, b) => b.Seconds - a.Seconds).Order()];
        UsualStep = steps.Length == 0 ? 0 : steps[(steps.Length - 1) / 2];
    }

    /// <summary>By time.</summary>
    public IReadOnlyList<LoggedMoment> Moments { get; }

    /// <summary>The usual distance between two moments, s; 0 with fewer than two.</summary>
    public double UsualStep { get; }

    /// <summary>The neighbouring moments between which the air is known, each quantity as a straight line.</summary>
    public IEnumerable<LoggedSpan> Spans
    {
        get
        {
            var longest = Math.Max(UsualSteps * UsualStep * (1 + 1e-9), AlwaysBridged);
            for (var n = 1; n < Moments.Count; n++)
            {
                if (Moments[n].Seconds - Moments[n - 1].Seconds <= longest)
                    yield return new(Moments[n - 1], Moments[n]);
            }
        }
    }

    /// <summary>True where any temperature was logged.</summary>
    public bool HasTemperature => Moments.Any(moment => !double.IsNaN(moment.Kelvin));

    /// <summary>True where any humidity was logged.</summary>
    public bool HasHumidity => Moments.Any(moment => !double.IsNaN(moment.Humidity));

    /// <summary>Sorts, averages what falls on one moment, and checks.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A time that is not finite, a temperature outside −100 to 200 °C, or a humidity outside 0 to 1.</exception>
    public static LoggedAir Of(IEnumerable<LoggedMoment> moments)
    {
        ArgumentNullException.ThrowIfNull(moments);
        LoggedMoment[] sorted = [.. moments];
        foreach (var moment in sorted)
        {
            if (!double.IsFinite(moment.Seconds))
                throw new ArgumentOutOfRangeException(nameof(moments), moment.Seconds, "A time is finite.");
            if (!double.IsNaN(moment.Kelvin) && !(moment.Kelvin >= SaturationPressure.Lowest.Kelvin && moment.Kelvin <= SaturationPressure.HighestOverWater.Kelvin))
                throw new ArgumentOutOfRangeException(nameof(moments), moment.Kelvin, "A temperature lies from −100 to 200 °C, or is NaN.");
            if (!double.IsNaN(moment.Humidity) && moment.Humidity is not (>= 0 and <= 1))
                throw new ArgumentOutOfRangeException(nameof(moments), moment.Humidity, "A humidity lies from 0 to 1, or is NaN.");
        }

        // Values decide between rows of one moment, so that the order of rows never shows, not even in the last bit.
        Array.Sort(sorted, (a, b) => a.Seconds.CompareTo(b.Seconds) is not 0 and var time ? time : a.Kelvin.CompareTo(b.Kelvin) is not 0 and var warmth ? warmth : a.Humidity.CompareTo(b.Humidity));
        List<LoggedMoment> merged = new(sorted.Length);
        for (var n = 0; n < sorted.Length;)
        {
            var end = n + 1;
            while (end < sorted.Length && sorted[end].Seconds == sorted[n].Seconds)
                end++;
            merged.Add(end == n + 1 ? sorted[n] : new(sorted[n].Seconds, Mean(sorted.AsSpan(n, end - n), moment => moment.Kelvin), Mean(sorted.AsSpan(n, end - n), moment => moment.Humidity)));
            n = end;
        }

        LoggedMoment[] all = [.. merged];
        Fill(all, moment => moment.Kelvin, (moment, value) => moment with { Kelvin = value });
        Fill(all, moment => moment.Humidity, (moment, value) => moment with { Humidity = value });
        return new(all);
    }

    /// <summary>Two channels that are not read at the same moments: each is drawn straight through the moments of the other, never across a gap.</summary>
    private static void Fill(LoggedMoment[] moments, Func<LoggedMoment, double> of, Func<LoggedMoment, double, LoggedMoment> with)
    {
        int[] known = [.. Enumerable.Range(0, moments.Length).Where(n => !double.IsNaN(of(moments[n])))];
        if (known.Length == moments.Length || known.Length < 2)
            return;
        double[] steps = [.. known.Zip(known.Skip(1), (a, b) => moments[b].Seconds - moments[a].Seconds).Order()];
        var longest = Math.Max(UsualSteps * steps[(steps.Length - 1) / 2] * (1 + 1e-9), AlwaysBridged);
        for (var k = 1; k < known.Length; k++)
        {
            var (a, b) = (moments[known[k - 1]], moments[known[k]]);
            for (var n = known[k - 1] + 1; n < known[k] && b.Seconds - a.Seconds <= longest; n++)
            {
                var share = (moments[n].Seconds - a.Seconds) / (b.Seconds - a.Seconds);
                moments[n] = with(moments[n], of(a) + (share * (of(b) - of(a))));
            }
        }
    }

    /// <summary>The same air as it comes to a place inside that follows with one time constant: temperature and vapour pressure each through a first-order lag (<see cref="Years.RoomLag"/>), from moment to moment along
    /// straight lines; after a gap, and at the beginning, at rest with the outer air of the next day.</summary>
    /// <param name="timeConstantHours">Above zero.</param>
    public LoggedAir Through(double timeConstantHours)
    {
        if (timeConstantHours is not (> 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(timeConstantHours), timeConstantHours, "A time constant lies above zero.");
        var longest = Math.Max(UsualSteps * UsualStep * (1 + 1e-9), AlwaysBridged);
        var later = new LoggedMoment[Moments.Count];
        static double Vapour(LoggedMoment moment) => moment.Humidity * SaturationPressure.PascalOverWater(moment.Kelvin);
        var (kelvin, vapour) = (double.NaN, double.NaN);
        for (var n = 0; n < later.Length; n++)
        {
            var (now, step) = (Moments[n], n == 0 ? double.PositiveInfinity : Moments[n].Seconds - Moments[n - 1].Seconds);
            if (step > longest)
                (kelvin, vapour) = (double.NaN, double.NaN);
            kelvin = Lagged(kelvin, n == 0 ? double.NaN : Moments[n - 1].Kelvin, now.Kelvin, n, moment => moment.Kelvin);
            vapour = Lagged(vapour, n == 0 ? double.NaN : Vapour(Moments[n - 1]), Vapour(now), n, Vapour);
            later[n] = new(now.Seconds, kelvin, Math.Clamp(vapour / SaturationPressure.PascalOverWater(kelvin), 0, 1));

            double Lagged(double state, double before, double after, int at, Func<LoggedMoment, double> of)
            {
                if (double.IsNaN(after))
                    return double.NaN;
                if (double.IsNaN(state) || double.IsNaN(before))
                {
                    double[] day = [.. Moments.Skip(at).TakeWhile(moment => moment.Seconds < now.Seconds + 86_400).Select(of).Where(value => !double.IsNaN(value))];
                    return day.Average();
                }

                // The exact answer of the lag to a ramp.
                var (ratio, slope) = (step / (3600 * timeConstantHours), after - before);
                var keep = Math.Exp(-ratio);
                return ratio < 1e-9 ? state : after + ((state - before) * keep) - (slope * (1 - keep) / ratio);
            }
        }

        return new(later);
    }

    /// <summary>The moments from one time up to, but not including, another.</summary>
    public LoggedAir Between(double fromSeconds, double toSeconds) => new([.. Moments.Where(moment => moment.Seconds >= fromSeconds && moment.Seconds < toSeconds)]);

    private static double Mean(ReadOnlySpan<LoggedMoment> moments, Func<LoggedMoment, double> of)
    {
        var (sum, count) = (0.0, 0);
        foreach (var moment in moments)
        {
            if (of(moment) is var value && !double.IsNaN(value))
                (sum, count) = (sum + value, count + 1);
        }

        return count == 0 ? double.NaN : sum / count;
    }
}
