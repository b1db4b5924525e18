using Undercroft.Physics.Quantities;
using Undercroft.Physics.Roots;

namespace Undercroft.Physics.Air;

/// <summary>The thermodynamic wet-bulb temperature: that at which water, evaporating into the air, saturates it without heat from elsewhere.</summary>
/// <remarks>
/// <para><b>Equation</b> over water W = ((2501 − 2.326 t*) Ws* − 1.006 (t − t*))/(2501 + 1.86 t − 4.186 t*);
/// over ice W = ((2830 − 0.24 t*) Ws* − 1.006 (t − t*))/(2830 + 1.86 t − 2.1 t*); t in °C, solved for t*.</para>
/// <para><b>Source</b> equations 33 and 35 of [Ashrae2017].</para>
/// <para><b>Valid</b> where psat is, and below the boiling point.</para>
/// <para><b>Error</b> below 0.1 K; a real wet bulb in still air reads higher.</para>
/// <para><b>Departs</b> over water the first equation is used below 0 °C too (supercooled). Over ice, where both a wet bulb above 0.01 °C
/// and an iced one would balance, the wet one is returned.</para>
/// </remarks>
public static class WetBulb
{
    /// <summary>Wet bulb with liquid water, supercooled below 0 °C.</summary>
    /// <param name="temperature">Of the air.</param>
    /// <param name="vapourPressure">Not negative, not above saturation over water.</param>
    /// <param name="total">Above the vapour pressure.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument outside its range.</exception>
    public static Temperature OverWater(Temperature temperature, Pressure vapourPressure, Pressure total) =>
        Root(temperature, vapourPressure, total, ice: false, Highest(temperature, total));

    /// <summary>Wet bulb as an iced bulb below 0.01 °C, as a wet one above.</summary>
    /// <inheritdoc cref="OverWater"/>
    public static Temperature OverIce(Temperature temperature, Pressure vapourPressure, Pressure total)
    {
        var wet = OverWater(temperature, vapourPressure, total);
        return wet >= SaturationPressure.HighestOverIce
            ? wet
            : Root(temperature, vapourPressure, total, ice: true, Math.Min(temperature.Kelvin, SaturationPressure.HighestOverIce.Kelvin));
    }

    /// <summary>Mixing ratio of air with a given wet bulb, kg/kg: the equation itself. Below zero where no air is so dry.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A temperature outside the range of psat, or saturation at the wet bulb not below the total pressure.</exception>
    public static double MixingRatioFor(Temperature temperature, Temperature wetBulb, Pressure total, bool ice)
    {
        var saturation = ice ? SaturationPressure.OverIce(wetBulb) : SaturationPressure.OverWater(wetBulb);
        _ = Air.MixingRatio.Of(saturation, total);
        return Bare(temperature.Celsius, wetBulb.Kelvin, total.Pascals, ice);
    }

    private static double Highest(Temperature temperature, Pressure total)
    {
        // Below boiling, so that the saturated mixing ratio stays finite.
        var boiling = total < SaturationPressure.OverWater(SaturationPressure.HighestOverWater) ? DewPoint.OverWater(total).Kelvin : double.PositiveInfinity;
        return Math.Min(temperature.Kelvin, boiling * (1 - 1e-9));
    }

    private static Temperature Root(Temperature temperature, Pressure vapourPressure, Pressure total, bool ice, double highest)
    {
        var saturation = ice && temperature <= SaturationPressure.HighestOverIce ? SaturationPressure.OverIce(temperature) : SaturationPressure.OverWater(temperature);
        if (!(vapourPressure.Pascals >= 0 && vapourPressure.Pascals <= saturation.Pascals * (1 + 1e-12)))
            throw new ArgumentOutOfRangeException(nameof(vapourPressure), vapourPressure.Pascals, "The vapour pressure lies from 0 to saturation.");
        var curve = new Balance(temperature.Celsius, total.Pascals, ice, Air.MixingRatio.Of(vapourPressure, total));
        if (curve.At(highest).Value <= 0) // saturated, to rounding
            return new(highest);
        return new(MonotoneRoot.Find(curve, SaturationPressure.Lowest.Kelvin, highest));
    }

    private static double Bare(double celsius, double wetKelvin, double total, bool ice)
    {
        var wet = wetKelvin - Temperature.ZeroCelsius;
        var saturated = Air.MixingRatio.Bare(ice ? SaturationPressure.PascalOverIce(wetKelvin) : SaturationPressure.PascalOverWater(wetKelvin), total);
        return ice
            ? (((2830 - (0.24 * wet)) * saturated) - (1.006 * (celsius - wet))) / (2830 + (1.86 * celsius) - (2.1 * wet))
            : (((2501 - (2.326 * wet)) * saturated) - (1.006 * (celsius - wet))) / (2501 + (1.86 * celsius) - (4.186 * wet));
    }

    private readonly record struct Balance(double Celsius, double Total, bool Ice, double Target) : ICurve
    {
        public (double Value, double Slope) At(double x)
        {
            const double step = 1e-4;
            var value = Bare(Celsius, x, Total, Ice);
            return (value - Target, (value - Bare(Celsius, x - step, Total, Ice)) / step);
        }
    }
}
