using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Air;

/// <summary>Pressure that gas set free in a closed rigid space adds: carbon dioxide from leaf, say.</summary>
/// <remarks>
/// <para><b>Equation</b> Δp = (m/M)·R·T/V.</para>
/// <para><b>Source</b> Ideal gas law.</para>
/// <para><b>Valid</b> Low pressures; a space that does not give way. Leaf and its water take some carbon dioxide up again: an upper end.</para>
/// <para><b>Error</b> Below 1 % for carbon dioxide under two atmospheres; the mass is what nobody knows.</para>
/// </remarks>
public static class GasMade
{
    /// <summary>Molar mass of carbon dioxide, kg/mol.</summary>
    public const double CarbonDioxideMolarMass = 44.009e-3;

    /// <summary>Rise of pressure by carbon dioxide.</summary>
    /// <param name="carbonDioxide">Set free; not negative.</param>
    /// <param name="headspace">Gas space, above zero.</param>
    /// <param name="temperature">Of the gas.</param>
    /// <exception cref="ArgumentOutOfRangeException">A mass negative, a volume or temperature not above zero, or one of them not finite.</exception>
    public static Pressure Rise(Mass carbonDioxide, Volume headspace, Temperature temperature)
    {
        if (carbonDioxide.Kilograms is not (>= 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(carbonDioxide), carbonDioxide.Kilograms, "A mass is not negative.");
        if (headspace.CubicMetres is not (> 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(headspace), headspace.CubicMetres, "A gas space is above zero.");
        if (temperature.Kelvin is not (> 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(temperature), temperature.Kelvin, "A temperature is above absolute zero.");
        return new(carbonDioxide.Kilograms / CarbonDioxideMolarMass * PhysicalConstants.GasConstant * temperature.Kelvin / headspace.CubicMetres);
    }
}
