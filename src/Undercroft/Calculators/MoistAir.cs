using Undercroft.Ledger;
using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;

namespace Undercroft.Calculators;

/// <summary>Over what a humidity is meant.</summary>
public enum Surface
{
    /// <summary>Liquid water at every temperature, as loggers report it.</summary>
    Water,

    /// <summary>Ice below 0.01 °C, as weather tables of the cold do.</summary>
    Ice,
}

/// <summary>What air of a temperature and humidity holds.</summary>
/// <param name="SaturationPressurePa">At the air's temperature.</param>
/// <param name="VapourPressurePa">Partial pressure of its water.</param>
/// <param name="DewPointC">Frost point where that lies below 0.01 °C over ice; null where the air is too dry to have one.</param>
/// <param name="WetBulbC">Thermodynamic.</param>
/// <param name="AbsoluteHumidityGPerM3">Water per volume.</param>
/// <param name="MixingRatioGPerKg">Water per dry air.</param>
/// <param name="PressurePa">Total pressure.</param>
public sealed record MoistAirFigures(
    double SaturationPressurePa, double VapourPressurePa, double? DewPointC, double WetBulbC, double AbsoluteHumidityGPerM3, double MixingRatioGPerKg, double PressurePa);

/// <summary>Air that was brought to another temperature.</summary>
/// <param name="HumidityPct">Not clipped: above 100 water condenses.</param>
/// <param name="Condenses">True above 100 %.</param>
/// <param name="DewPointC">Of the air; null where it is perfectly dry.</param>
public sealed record WarmedAirFigures(double HumidityPct, bool Condenses, double? DewPointC);

/// <summary>Moist air.</summary>
public static class MoistAir
{
    /// <summary>What the air holds.</summary>
    /// <exception cref="Refusal">Temperature outside −60 … 100 °C, humidity outside 0 … 100 %, or vapour that the total pressure cannot carry.</exception>
    public static MoistAirFigures Of(Temperature temperature, RelativeHumidity humidity, Pressure total, Surface surface)
    {
        Written.AtHome(temperature);
        Check(humidity);
        var saturation = Saturation(temperature, surface);
        var vapour = saturation * humidity.Fraction;
        if (!(saturation < total))
            throw new Refusal("No answer is given: at this temperature water boils at the given pressure. Lower the temperature or raise the pressure.");
        var wetBulb = surface == Surface.Ice ? WetBulb.OverIce(temperature, vapour, total) : WetBulb.OverWater(temperature, vapour, total);
        return new(
            saturation.Pascals, vapour.Pascals, DewPointOf(vapour, surface), wetBulb.Celsius, 1000 * AbsoluteHumidity.Of(vapour, temperature),
            1000 * MixingRatio.Of(vapour, total), total.Pascals);
    }

    /// <summary>The humidity after a change of temperature at equal vapour pressure.</summary>
    /// <exception cref="Refusal">A temperature outside −60 … 100 °C or a humidity outside 0 … 100 %.</exception>
    public static WarmedAirFigures Warmed(Temperature from, RelativeHumidity humidity, Temperature to, Surface surface)
    {
        Written.AtHome(from, to);
        Check(humidity);
        var vapour = Saturation(from, surface) * humidity.Fraction;
        var percent = 100 * (surface == Surface.Water ? WarmedAir.HumidityAt(humidity, from, to).Fraction : vapour.Pascals / Saturation(to, surface).Pascals);
        return new(percent, percent > 100 * (1 + 1e-12), DewPointOf(vapour, surface));
    }

    private static Pressure Saturation(Temperature temperature, Surface surface) =>
        surface == Surface.Ice && temperature < SaturationPressure.HighestOverIce
            ? SaturationPressure.OverIce(temperature)
            : SaturationPressure.OverWater(temperature);

    private const int DewPointDecimals = 9; // what the solving leaves beyond them is not the air's

    private static double? DewPointOf(Pressure vapour, Surface surface)
    {
        var ice = surface == Surface.Ice && vapour < SaturationPressure.OverIce(SaturationPressure.HighestOverIce);
        var least = ice ? SaturationPressure.OverIce(SaturationPressure.Lowest) : SaturationPressure.OverWater(SaturationPressure.Lowest);
        if (!(vapour >= least))
            return null; // so dry that its dew point lies below −100 °C
        return Math.Round((ice ? DewPoint.OverIce(vapour) : DewPoint.OverWater(vapour)).Celsius, DewPointDecimals) + 0.0; // no −0.00000000000006
    }

    private static void Check(RelativeHumidity humidity)
    {
        if (humidity.Fraction is not (>= 0 and <= 1))
            throw new Refusal($"{humidity.Percent.As("0.##")} % is not possible: a relative humidity lies from 0 to 100 %.");
    }
}
