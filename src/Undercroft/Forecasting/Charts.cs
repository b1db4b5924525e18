using Undercroft.Forecasts;
using Undercroft.Ledger;
using Undercroft.Shell.Web;

namespace Undercroft.Forecasting;

/// <summary>Forecasts as charts: the band, and what was measured of the same quantity.</summary>
internal static class Charts
{
    /// <summary>Moisture with the dry line, and the moist one where it comes near.</summary>
    internal static BandSeries Moisture(PackageForecast forecast, DateOnly today)
    {
        var limits = new Limits();
        List<LimitLine> lines = [new(limits.DryBelow, FormattableString.Invariant($"dry below {limits.DryBelow} %"))];
        if (forecast.Moisture.P95.Max() > limits.MoistAbove - 1)
            lines.Add(new(limits.MoistAbove, FormattableString.Invariant($"moist above {limits.MoistAbove} %")));
        return Of("Moisture of the leaf", "% of its weight", forecast, forecast.Moisture, today, 1, [], lines);
    }

    /// <summary>Activity as the humidity that a hygrometer inside would show, with its readings.</summary>
    internal static BandSeries Activity(PackageForecast forecast, DateOnly today, Package? package)
    {
        var limits = new Limits();
        return Of("Humidity inside", "%", forecast, forecast.Activity, today, 100,
            [.. package?.Humidities.Select(read => new MeasuredPoint(read.Day.DayNumber - today.DayNumber, read.Fact.Humidity.Percent, "humidity inside")) ?? []],
            [new(100 * limits.TooMoistActivity, FormattableString.Invariant($"too moist to store above {100 * limits.TooMoistActivity} %"))]);
    }

    /// <summary>Oxygen in the headspace.</summary>
    internal static BandSeries Oxygen(PackageForecast forecast, DateOnly today) => Of("Oxygen inside", "kPa", forecast, forecast.Oxygen, today, 1, [], []);

    /// <summary>Absolute pressure.</summary>
    internal static BandSeries Pressure(PackageForecast forecast, DateOnly today) => Of("Pressure inside, absolute", "kPa", forecast, forecast.Pressure, today, 1, [], []);

    /// <summary>What the scale showed of the whole package; nothing is computed in it.</summary>
    internal static BandSeries Weight(Package package, DateOnly today) => new(
        "Weight of the whole package", "g", today, [], [], [], [],
        [.. package.Weighings.Where(weighing => !weighing.Fact.Net).Select(weighing => new MeasuredPoint(weighing.Day.DayNumber - today.DayNumber, weighing.Fact.Mass.Grams, "weighed"))], []);

    private static BandSeries Of(
        string title, string unit, PackageForecast forecast, Band band, DateOnly today, double factor, IReadOnlyList<MeasuredPoint> measured, IReadOnlyList<LimitLine> limits) =>
        new(title, unit, today, forecast.Days, Scaled(band.P5, factor), Scaled(band.P50, factor), Scaled(band.P95, factor), measured, limits);

    private static double?[] Scaled(double[] values, double factor) => Array.ConvertAll(values, value => (double?)(value * factor));
}
