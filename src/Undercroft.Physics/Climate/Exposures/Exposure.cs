namespace Undercroft.Physics.Climate.Exposures;

/// <summary>A time out of the time that was watched.</summary>
/// <param name="Hours">Counted.</param>
/// <param name="WatchedHours">Of all that is known, gaps left out.</param>
public readonly record struct Duration(double Hours, double WatchedHours)
{
    /// <summary>Hours of a mean year.</summary>
    public const double HoursPerYear = 8766;

    /// <summary>Scaled to a year; a season that was not watched is not in it. NaN where nothing was watched.</summary>
    public double HoursPerYearOf => WatchedHours > 0 ? Hours * HoursPerYear / WatchedHours : double.NaN;

    /// <summary>Share of the time watched.</summary>
    public double Share => WatchedHours > 0 ? Hours / WatchedHours : double.NaN;
}

/// <summary>Time beyond a limit.</summary>
/// <remarks>
/// <para><b>Equation</b> Σ Δt · share of the step during which the straight line between its ends lies beyond the limit.</para>
/// <para><b>Source</b> the definition.</para>
/// <para><b>Valid</b> readings close enough that a straight line joins them: an hour or less in a room.</para>
/// <para><b>Error</b> that of the sensor at the limit: with ±0.5 K a place that stands at the limit is counted by chance.</para>
/// </remarks>
public static class TimeBeyond
{
    /// <summary>Time warmer than a limit.</summary>
    public static Duration Warmer(LoggedAir air, double limitKelvin) => Of(air, moment => moment.Kelvin - Checked(limitKelvin));

    /// <summary>Time moister than a limit, fraction.</summary>
    public static Duration Moister(LoggedAir air, double limit) => Of(air, moment => moment.Humidity - Checked(limit));

    /// <summary>Time drier than a limit, fraction.</summary>
    public static Duration Drier(LoggedAir air, double limit) => Of(air, moment => Checked(limit) - moment.Humidity);

    /// <summary>Time during which a quantity, straight between readings, is above zero.</summary>
    internal static Duration Of(LoggedAir air, Func<LoggedMoment, double> excess)
    {
        ArgumentNullException.ThrowIfNull(air);
        var (hours, watched) = (0.0, 0.0);
        foreach (var span in air.Spans)
        {
            var (a, b) = (excess(span.Start), excess(span.End));
            if (double.IsNaN(a) || double.IsNaN(b))
                continue;
            watched += span.Hours;
            hours += span.Hours * (a > 0 && b > 0 ? 1 : a <= 0 && b <= 0 ? 0 : Math.Max(a, b) / Math.Abs(b - a));
        }

        return new(hours, watched);
    }

    private static double Checked(double limit) => double.IsFinite(limit) ? limit : throw new ArgumentOutOfRangeException(nameof(limit), limit, "A limit is finite.");
}
