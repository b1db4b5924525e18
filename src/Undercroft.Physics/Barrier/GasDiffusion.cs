using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>Flux through a layer of still gas whose total pressure is the same on both sides.</summary>
/// <remarks>
/// <para><b>Equation</b> N = D·Δp/(R·T·L), equimolar counter-diffusion.</para>
/// <para><b>Source</b> Fick's first law for ideal gases; standard. Worked case: [FossEquimolar].</para>
/// <para><b>Valid</b> No net flow; small mole fractions where the other gas stands still (under 3 % off for the vapour of leaf).</para>
/// <para><b>Error</b> That of D.</para>
/// </remarks>
public static class GasDiffusion
{
    /// <summary>mol/(m²·s).</summary>
    /// <param name="diffusivity">m²/s.</param>
    /// <param name="difference">Of partial pressure; may be negative.</param>
    /// <param name="length">Of the layer.</param>
    /// <param name="temperature">Of the gas.</param>
    public static double Flux(double diffusivity, Pressure difference, Length length, Temperature temperature) =>
        Positive.Number(diffusivity) * difference.Pascals / (PhysicalConstants.GasConstant * Positive.Number(temperature.Kelvin) * Positive.Number(length.Metres));
}
