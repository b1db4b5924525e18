using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>Mean speed of gas molecules.</summary>
/// <remarks>
/// <para><b>Equation</b> v = √(8RT/(πM)).</para>
/// <para><b>Source</b> Kinetic theory; 25 °C values (oxygen 444.0, nitrogen 474.8, carbon dioxide 378.8, water 592.1 m/s) printed in [FitnessU46].</para>
/// <para><b>Valid</b> Dilute gas.</para>
/// <para><b>Error</b> Exact for an ideal gas.</para>
/// </remarks>
public static class MolecularSpeed
{
    /// <summary>m/s.</summary>
    public static double Of(Permeant permeant, Temperature temperature) =>
        Math.Sqrt(8 * PhysicalConstants.GasConstant * Positive.Number(temperature.Kelvin) / (Math.PI * Molar.MassOf(permeant)));
}
