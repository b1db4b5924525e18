using Undercroft.Forecasts.Drawing;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Climate.Years;

namespace Undercroft.Forecasts.Places;

/// <summary>One year of a place as it may well come: its waves with weather about them, hour by hour, always drawn alike.</summary>
/// <remarks>So that limits, mould and rust are counted with warm and damp spells, which the waves alone smooth away.</remarks>
public static class TypicalYear
{
    private const int Hours = HarmonicYear.Days * 24;
    private const double Driest = 0.01;

    /// <summary>The year.</summary>
    /// <param name="year">As fitted.</param>
    /// <param name="pascals">Pressure of the room.</param>
    /// <param name="warmer">K by which all of it is warmer: the doubt of the mean.</param>
    /// <param name="damping">Share of the day's wave and of the weather that is left, 0 to 1: inside a box.</param>
    public static LoggedAir Of(YearPosterior year, double pascals, double warmer = 0, double damping = 1)
    {
        ArgumentNullException.ThrowIfNull(year);
        var middle = year.Year(pascals);
        middle = middle with
        {
            Celsius = middle.Celsius with { Mean = middle.Celsius.Mean + warmer, DayCosine = damping * middle.Celsius.DayCosine, DaySine = damping * middle.Celsius.DaySine },
            LogVapour = middle.LogVapour with { DayCosine = damping * middle.LogVapour.DayCosine, DaySine = damping * middle.LogVapour.DaySine },
        };
        var warm = Weather("warm", year.CelsiusMemory, damping * year.CelsiusScatter);
        var moist = Weather("moist", year.VapourMemory, damping * year.VapourScatter);
        var moments = new LoggedMoment[Hours + 1];
        for (var hour = 0; hour <= Hours; hour++)
        {
            var calm = middle.At(hour / 24.0);
            var kelvin = calm.Kelvin + warm[hour % Hours];
            var humidity = Math.Exp(middle.LogVapour.At(Math.Tau * hour / Hours, Math.Tau * (hour % 24) / 24) + moist[hour % Hours]) / Physics.Air.SaturationPressure.PascalOverWater(kelvin);
            moments[hour] = new(hour * 3600.0, kelvin, Math.Clamp(humidity, Driest, 1));
        }

        return LoggedAir.Of(moments);
    }

    private static double[] Weather(string purpose, double memoryDays, double sd)
    {
        var drawn = new SeededDraws(1, Hours).Normal("typical-year/" + purpose);
        var keep = Math.Exp(-1 / (24 * memoryDays));
        var (value, values) = (0.0, new double[Hours]);
        for (var hour = -2000; hour < Hours; hour++)
        {
            value = (keep * value) + (Math.Sqrt(1 - (keep * keep)) * sd * drawn[(hour + Hours) % Hours]);
            if (hour >= 0)
                values[hour] = value;
        }

        return values;
    }
}
