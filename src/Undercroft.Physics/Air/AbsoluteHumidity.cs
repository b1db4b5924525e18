using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Air;

/// <summary>Mass of water vapour per volume of air.</summary>
/// <remarks>
/// <para><b>Equation</b> ρ = e M/(R T), M of water.</para>
/// <para><b>Source</b> the ideal gas law.</para>
/// <para><b>Valid</b> e ≥ 0.</para>
/// <para><b>Error</b> below 0.2 % at room temperature.</para>
/// </remarks>
public static class AbsoluteHumidity
{
    /// <summary>kg/m³.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Vapour pressure negative, or temperature not above absolute zero.</exception>
    public static double Of(Pressure vapourPressure, Temperature temperature)
    {
        if (vapourPressure.Pascals is not (>= 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(vapourPressure), vapourPressure.Pascals, "A vapour pressure is not negative.");
        if (temperature.Kelvin is not (> 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(temperature), temperature.Kelvin, "A temperature lies above absolute zero.");
        return vapourPressure.Pascals * PhysicalConstants.MolarMassOfWater / (PhysicalConstants.GasConstant * temperature.Kelvin);
    }
}
