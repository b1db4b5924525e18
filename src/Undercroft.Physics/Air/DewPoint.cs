using Undercroft.Physics.Quantities;
using Undercroft.Physics.Roots;

namespace Undercroft.Physics.Air;

/// <summary>The temperature at which air of a given vapour pressure is saturated: the dew point over liquid water, the frost point over ice.</summary>
/// <remarks>
/// <para><b>Equation</b> the root T of psat(T) = e, by Newton's method in ln p kept inside a bracket.</para>
/// <para><b>Source</b> the definition in [Ashrae2017]; psat of <see cref="SaturationPressure"/>.</para>
/// <para><b>Valid</b> where psat is: −100 … 200 °C over water, −100 … 0.01 °C over ice.</para>
/// <para><b>Error</b> of the inversion below 1e-9 of T; else that of psat.</para>
/// </remarks>
public static class DewPoint
{
    private const double Relative = 1e-13;

    /// <summary>Dew point over liquid water, supercooled below 0 °C.</summary>
    /// <param name="vapourPressure">Partial pressure of water vapour, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero, or the dew point lies outside −100 … 200 °C.</exception>
    public static Temperature OverWater(Pressure vapourPressure) =>
        vapourPressure >= SaturationPressure.OverWater(SaturationPressure.Lowest)
        && vapourPressure <= SaturationPressure.OverWater(SaturationPressure.HighestOverWater)
            ? new(MonotoneRoot.Find(
                new LogRatioOverWater(Math.Log(vapourPressure.Pascals)), SaturationPressure.Lowest.Kelvin, SaturationPressure.HighestOverWater.Kelvin, Relative))
            : throw new ArgumentOutOfRangeException(
                nameof(vapourPressure), vapourPressure.Pascals, "A dew point from −100 to 200 °C needs a vapour pressure from 0.0036 Pa to 1.555 MPa.");

    /// <summary>Frost point over ice.</summary>
    /// <param name="vapourPressure">Partial pressure of water vapour, above zero and not above that of the triple point.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero, or no ice can be in balance with it: above 611.7 Pa, or a frost point below −100 °C.</exception>
    public static Temperature OverIce(Pressure vapourPressure) =>
        vapourPressure >= SaturationPressure.OverIce(SaturationPressure.Lowest)
        && vapourPressure <= SaturationPressure.OverIce(SaturationPressure.HighestOverIce)
            ? new(MonotoneRoot.Find(
                new LogRatioOverIce(Math.Log(vapourPressure.Pascals)), SaturationPressure.Lowest.Kelvin, SaturationPressure.HighestOverIce.Kelvin, Relative))
            : throw new ArgumentOutOfRangeException(
                nameof(vapourPressure), vapourPressure.Pascals, "A frost point from −100 to 0.01 °C needs a vapour pressure from 0.0014 to 611.7 Pa.");

    private readonly record struct LogRatioOverWater(double LogTarget) : ICurve
    {
        public (double Value, double Slope) At(double x) =>
            (Math.Log(SaturationPressure.PascalOverWater(x)) - LogTarget, SaturationPressure.LogSlopeOverWater(x));
    }

    private readonly record struct LogRatioOverIce(double LogTarget) : ICurve
    {
        public (double Value, double Slope) At(double x) =>
            (Math.Log(SaturationPressure.PascalOverIce(x)) - LogTarget, SaturationPressure.LogSlopeOverIce(x));
    }
}
