using Undercroft.Forecasts.Places;
using Undercroft.Physics.Climate.Years;
using Undercroft.Shell.Web;

namespace Undercroft.Places.Showing;

/// <summary>The year of a place as charts: what is expected of the next one, and what was logged of the last.</summary>
internal static class YearCharts
{
    private const int Ahead = 365;
    private const int Step = 7;

    /// <summary>Daily means of temperature.</summary>
    internal static BandSeries Temperature(PlaceAnswer answer, DateOnly today) => Of(
        "Temperature of the year, daily means", "°C", today, day => answer.Fitted.Year.CelsiusOn(day),
        Weeks(answer.Fitted.Log?.Days.Temperature, today, day => day.Mean), [new(21, "usual aim up to 21 °C"), new(15, "and from 15 °C")]);

    /// <summary>Daily means of relative humidity.</summary>
    internal static BandSeries Humidity(PlaceAnswer answer, DateOnly today)
    {
        var warm = answer.Fitted.Log?.Days.Temperature.ToDictionary(day => day.Day, day => day.Mean) ?? [];
        return Of(
            "Humidity of the year, daily means", "%", today, day => answer.Fitted.Year.HumidityOn(day) is var band ? new Interval(100 * band.P5, 100 * band.P50, 100 * band.P95) : default,
            Weeks(answer.Fitted.Log?.Days.LogVapour, today, day => warm.TryGetValue(day.Day, out var celsius)
                ? 100 * Math.Min(1, Math.Exp(day.Mean) / Physics.Air.SaturationPressure.PascalOverWater(celsius + Physics.Quantities.Temperature.ZeroCelsius)) : double.NaN),
            [new(70, "damp above 70 %")]);
    }

    private static BandSeries Of(string title, string unit, DateOnly today, Func<double, Interval> on, IReadOnlyList<MeasuredPoint> measured, IReadOnlyList<LimitLine> limits)
    {
        double[] days = [.. Enumerable.Range(0, (Ahead / Step) + 1).Select(n => (double)n * Step)];
        Interval[] bands = [.. days.Select(day => on(today.AddDays((int)day).DayOfYear - 1))];
        return new(title, unit, today, days, [.. bands.Select(band => (double?)band.P5)], [.. bands.Select(band => (double?)band.P50)], [.. bands.Select(band => (double?)band.P95)], measured, limits);
    }

    /// <summary>Means of the logged weeks of the last year.</summary>
    private static IReadOnlyList<MeasuredPoint> Weeks(IReadOnlyList<DailyFigure>? days, DateOnly today, Func<DailyFigure, double> of)
    {
        var now = today.DayNumber - DateOnly.FromDateTime(DateTime.UnixEpoch).DayNumber;
        return days is null ? [] :
        [
            .. days.Where(day => day.Day > now - Ahead && day.Day <= now + 1).GroupBy(day => Math.Floor((day.Day - now) / Step))
                .Select(week => new MeasuredPoint(Math.Round(week.Average(day => day.Day) - now), week.Average(of), "mean of a logged week")),
        ];
    }
}
