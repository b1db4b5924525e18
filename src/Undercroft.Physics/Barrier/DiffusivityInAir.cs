using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>How fast a gas spreads through still air.</summary>
/// <remarks>
/// <para><b>Equation</b> D = D₂₅·(T/298.15 K)^1.75·(101 325 Pa/p).</para>
/// <para><b>Source</b> D₂₅ in 10⁻⁵ m²/s: water 2.5, oxygen 2.05, carbon dioxide 1.6 (from memory of handbooks, not re-read); nitrogen as oxygen (assumption). Exponent: the usual
/// correlation of Fuller, Schettler and Giddings (from memory).</para>
/// <para><b>Valid</b> −20 to 60 °C, 50 to 110 kPa.</para>
/// <para><b>Error</b> 5 %.</para>
/// </remarks>
public static class DiffusivityInAir
{
    /// <summary>m²/s.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Temperature or pressure not above zero.</exception>
    public static double Of(Permeant permeant, Temperature temperature, Pressure pressure) =>
        At25(permeant) * Math.Pow(Positive.Number(temperature.Kelvin) / 298.15, 1.75) * (101325.0 / Positive.Number(pressure.Pascals));

    /// <summary>m²/s at one atmosphere.</summary>
    public static double Of(Permeant permeant, Temperature temperature) => Of(permeant, temperature, Pressure.FromAtmospheres(1));

    /// <summary>Energy that stands for the growth of D/T about 23 °C, J/mol: 0.75·R·296.15 K.</summary>
    public const double EquivalentEnergy = 0.75 * PhysicalConstants.GasConstant * 296.15;

    private static double At25(Permeant permeant) => permeant switch
    {
        Permeant.Water => 2.5e-5,
        Permeant.Oxygen => 2.05e-5,
        Permeant.CarbonDioxide => 1.6e-5,
        Permeant.Nitrogen => 2.05e-5,
        _ => throw new ArgumentOutOfRangeException(nameof(permeant), permeant, "Unknown permeant."),
    };
}
