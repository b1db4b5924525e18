using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>Gas that creeps edgewise through the sealing layer of a heat seal.</summary>
/// <remarks>
/// <para><b>Equation</b> G = P·length·(2·thickness of the sealing layer)/width of the seal.</para>
/// <para><b>Source</b> Steady permeation through a slab; standard.</para>
/// <para><b>Valid</b> A sound seal of two equal layers. What makes real pouches leak are creases and leaf in the seal: channels, see <see cref="Pinhole"/>.</para>
/// <para><b>Error</b> Factor 1.5 for the sound seal; no limit for an unsound one.</para>
/// </remarks>
public static class HeatSealConductance
{
    /// <summary>Conductance of a seal, mol/(s·Pa).</summary>
    public static double Of(Permeability sealingLayer, Length length, Length layerThickness, Length sealWidth) =>
        GasketConductance.Of(sealingLayer, length, layerThickness * 2, sealWidth);
}
