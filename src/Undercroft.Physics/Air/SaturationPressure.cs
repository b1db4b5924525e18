using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Air;

/// <summary>Saturation pressure of water vapour over a flat surface of liquid water, also supercooled, or of ice.</summary>
/// <remarks>
/// <para><b>Equation</b> water: ln p = C8/T + C9 + C10 T + C11 T² + C12 T³ + C13 ln T;
/// ice: ln p = C1/T + C2 + C3 T + C4 T² + C5 T³ + C6 T⁴ + C7 ln T; p in Pa, T in K.</para>
/// <para><b>Source</b> [HylandWexler1983], as equations 5 and 6 of [Ashrae2017].</para>
/// <para><b>Valid</b> water 0 … 200 °C, ice −100 … 0.01 °C. Supercooled water is accepted down to −100 °C.</para>
/// <para><b>Error</b> within 300 ppm of the tables of [Ashrae2017] over the stated ranges.
/// Supercooled: differs from [MurphyKoop2005] by 0.1 % at −20 °C, 0.8 % at −40 °C, 5 % at −60 °C; colder than that it is an extrapolation for orientation only.</para>
/// <para><b>Departs</b> the water equation is used below 0 °C as well, since humidity loggers report over liquid water at every temperature;
/// the ice equation is used up to the triple point, 0.01 °C, where the source stops at 0 °C.</para>
/// </remarks>
public static class SaturationPressure
{
    /// <summary>The coldest temperature accepted, over water and over ice.</summary>
    public static readonly Temperature Lowest = Temperature.FromCelsius(-100);

    /// <summary>The warmest temperature accepted over water.</summary>
    public static readonly Temperature HighestOverWater = Temperature.FromCelsius(200);

    /// <summary>The warmest temperature accepted over ice: the triple point, 273.16 K.</summary>
    public static readonly Temperature HighestOverIce = new(273.16);

    /// <summary>Over liquid water, supercooled below 0 °C.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not from −100 to 200 °C.</exception>
    public static Pressure OverWater(Temperature temperature) => temperature >= Lowest && temperature <= HighestOverWater
        ? new(PascalOverWater(temperature.Kelvin))
        : throw new ArgumentOutOfRangeException(nameof(temperature), temperature.Celsius, "The saturation pressure over water is known from −100 to 200 °C.");

    /// <summary>Over ice.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not from −100 to 0.01 °C.</exception>
    public static Pressure OverIce(Temperature temperature) => temperature >= Lowest && temperature <= HighestOverIce
        ? new(PascalOverIce(temperature.Kelvin))
        : throw new ArgumentOutOfRangeException(nameof(temperature), temperature.Celsius, "The saturation pressure over ice is known from −100 to 0.01 °C.");

    /// <summary>The bare equation over liquid water, Pa; the caller answers for the range.</summary>
    public static double PascalOverWater(double kelvin) => Math.Exp(
        (-5.8002206e3 / kelvin) + 1.3914993 + (kelvin * (-4.8640239e-2 + (kelvin * (4.1764768e-5 + (kelvin * -1.4452093e-8))))) + (6.5459673 * Math.Log(kelvin)));

    /// <summary>The bare equation over ice, Pa; the caller answers for the range.</summary>
    public static double PascalOverIce(double kelvin) => Math.Exp(
        (-5.6745359e3 / kelvin) + 6.3925247
        + (kelvin * (-9.6778430e-3 + (kelvin * (6.2215701e-7 + (kelvin * (2.0747825e-9 + (kelvin * -9.4840240e-13)))))))
        + (4.1635019 * Math.Log(kelvin)));

    /// <summary>d ln p / dT over liquid water, 1/K.</summary>
    public static double LogSlopeOverWater(double kelvin) => LogSlopeOverWater<Lane1>(kelvin);

    /// <summary>d ln p / dT over liquid water, 1/K, over lanes.</summary>
    internal static T LogSlopeOverWater<T>(T kelvin)
        where T : struct, ILane<T> =>
        (T.Of(5.8002206e3) / (kelvin * kelvin)) - T.Of(4.8640239e-2) + (kelvin * (T.Of(2 * 4.1764768e-5) + (kelvin * T.Of(3 * -1.4452093e-8)))) + (T.Of(6.5459673) / kelvin);

    /// <summary>d ln p / dT over ice, 1/K.</summary>
    public static double LogSlopeOverIce(double kelvin) =>
        (5.6745359e3 / (kelvin * kelvin)) - 9.6778430e-3
        + (kelvin * ((2 * 6.2215701e-7) + (kelvin * ((3 * 2.0747825e-9) + (kelvin * (4 * -9.4840240e-13))))))
        + (4.1635019 / kelvin);
}
