using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Leaf;

/// <summary>How the activity of leaf of fixed moisture moves with temperature.</summary>
/// <remarks>
/// <para><b>Equation</b> a(X, T) = a22(X) · s(T), s(T) = exp[(q/R)(1/295.15 K − 1/T)].</para>
/// <para><b>Source</b> the Clausius–Clapeyron form; q = 2500 J/mol for leaf is derived from the humidities at 5 and 40 °C of [Kim2004].</para>
/// <para><b>Valid</b> 5 … 40 °C, moisture near 13 % on wet basis; used elsewhere as an extrapolation.</para>
/// <para><b>Error</b> q lies anywhere from 1400 to 4200 J/mol: ±0.15 % of humidity per °C at 60 %. [Tan2022] reports the opposite sign for cigar leaf.</para>
/// </remarks>
public static class SorptionShift
{
    /// <summary>22 °C, the temperature of every isotherm here, K.</summary>
    public const double ReferenceKelvin = 295.15;

    /// <summary>q for leaf of which nothing else is known, J/mol.</summary>
    public const double TypicalHeat = 2500;

    /// <summary>The lowest q that the anchors allow, J/mol.</summary>
    public const double LowestHeat = 1400;

    /// <summary>The highest q that the anchors allow, J/mol.</summary>
    public const double HighestHeat = 4200;

    /// <summary>s(T) by which the activity at 22 °C is multiplied.</summary>
    /// <param name="sorptionHeat">q, J/mol.</param>
    /// <param name="temperature">Of the leaf.</param>
    /// <exception cref="ArgumentOutOfRangeException">q not finite, or temperature not above 0 K and finite.</exception>
    public static double Factor(double sorptionHeat, Temperature temperature)
    {
        if (!double.IsFinite(sorptionHeat))
            throw new ArgumentOutOfRangeException(nameof(sorptionHeat), sorptionHeat, "The heat of sorption is a finite number.");
        if (temperature.Kelvin is not (> 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(temperature), temperature.Kelvin, "A temperature lies above absolute zero.");
        return FactorOf(sorptionHeat, temperature.Kelvin);
    }

    /// <summary>The bare s(T).</summary>
    public static double FactorOf(double sorptionHeat, double kelvin) =>
        Math.Exp(sorptionHeat / PhysicalConstants.GasConstant * ((1 / ReferenceKelvin) - (1 / kelvin)));

    /// <summary>Activity of leaf of this moisture at this temperature. Very moist leaf in warmth can come out above 1: it would sweat.</summary>
    /// <exception cref="ArgumentOutOfRangeException">As the isotherm and <see cref="Factor"/> say.</exception>
    public static WaterActivity ActivityAt(Isotherm isotherm, Moisture moisture, Temperature temperature)
    {
        ArgumentNullException.ThrowIfNull(isotherm);
        return new(isotherm.ActivityAt(moisture).Fraction * Factor(isotherm.SorptionHeat, temperature));
    }

    /// <summary>Moisture of leaf in balance with air of this humidity at this temperature.</summary>
    /// <exception cref="ArgumentOutOfRangeException">As the isotherm and <see cref="Factor"/> say: in the cold a humidity just below 100 % can lie beyond the curve of 22 °C.</exception>
    public static Moisture MoistureAt(Isotherm isotherm, RelativeHumidity humidity, Temperature temperature)
    {
        ArgumentNullException.ThrowIfNull(isotherm);
        return isotherm.MoistureAt(new(humidity.Fraction / Factor(isotherm.SorptionHeat, temperature)));
    }
}
