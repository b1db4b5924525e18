using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>The climate of a water-vapour test: without it a rate in g/(m²·day) says nothing about another climate.</summary>
/// <param name="Temperature">Of the film.</param>
/// <param name="WetSide">Humidity of the moist side.</param>
/// <param name="DrySide">Humidity of the dry side; zero in most methods.</param>
/// <remarks>
/// <para><b>Equation</b> Δp = (RH_wet − RH_dry)·psat(T), over liquid water.</para>
/// <para><b>Source</b> Definition; the usual test climates are those of [FitnessU12].</para>
/// <para><b>Valid</b> Where the test states its climate. "38 °C, 90 %" is 5967 Pa, more than ten times what drives water out of leaf at home.</para>
/// <para><b>Error</b> That of the climate: ±2 points of humidity at 90 % are 2 % of the permeance.</para>
/// </remarks>
public readonly record struct WaterTest(Temperature Temperature, RelativeHumidity WetSide, RelativeHumidity DrySide = default)
{
    /// <summary>38 °C, 90 %: the climate of most data sheets.</summary>
    public static WaterTest Tropical => Of(38, 90);

    /// <summary>37.8 °C (100 °F), 90 %.</summary>
    public static WaterTest TropicalFahrenheit => Of(37.8, 90);

    /// <summary>23 °C, 85 %.</summary>
    public static WaterTest Temperate => Of(23, 85);

    /// <summary>A climate in °C and percent against a dry side.</summary>
    public static WaterTest Of(double celsius, double humidityPercent) =>
        new(Temperature.FromCelsius(celsius), RelativeHumidity.FromPercent(humidityPercent));

    /// <summary>The vapour-pressure difference of the test.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The moist side is not moister, or a humidity lies outside 0 to 100 %.</exception>
    public Pressure Difference => WetSide.Fraction is >= 0 and <= 1 && DrySide.Fraction >= 0 && WetSide.Fraction > DrySide.Fraction
        ? new Pressure((WetSide.Fraction - DrySide.Fraction) * SaturationPressure.OverWater(Temperature).Pascals)
        : throw new ArgumentOutOfRangeException(nameof(WetSide), WetSide.Percent, "The moist side must be moister than the dry side, both within 0 to 100 %.");
}
