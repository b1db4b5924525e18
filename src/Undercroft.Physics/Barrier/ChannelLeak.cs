using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Barrier;

/// <summary>A closure of which only the water it passes is known, taken as many fine air channels: a zip, a fold, a snap lid, a doubtful seal.</summary>
/// <remarks>
/// <para><b>Equation</b> G_gas = G_water·D_gas/D_water; whole gas per pascal Gv = G_water·d²·p/(32·µ·D_water), channels of one diameter d.</para>
/// <para><b>Source</b> Ratio of Hagen–Poiseuille and diffusive flow through the same capillary (<see cref="ViscousFlow"/>, <see cref="GasDiffusion"/>).</para>
/// <para><b>Valid</b> Channels above 1 µm filled with air. A polymer closure in full contact is no channel: it prefers water over oxygen by some 50.</para>
/// <para><b>Error</b> Gas conductances as uncertain as the water one; Gv goes with the square of a guessed diameter.</para>
/// </remarks>
public static class ChannelLeak
{
    /// <summary>The path.</summary>
    /// <param name="name">What a person would point at.</param>
    /// <param name="water">Water conductance at 23 °C, mol/(s·Pa).</param>
    /// <param name="diameter">Of the channels.</param>
    public static ExchangePath FromWater(string name, double water, Length diameter)
    {
        var at = new Temperature(Conductance.ReferenceKelvin);
        var inWater = DiffusivityInAir.Of(Permeant.Water, at);
        Conductance Of(Permeant permeant) => new(Positive.OrZero(water) * DiffusivityInAir.Of(permeant, at) / inWater, DiffusivityInAir.EquivalentEnergy);
        var viscous = water * Math.Pow(Positive.Number(diameter.Metres), 2) * 101325.0 / (32 * ViscousFlow.AirViscosity(at) * inWater);
        return new ExchangePath(name, Of(Permeant.Water), Of(Permeant.Oxygen), Of(Permeant.CarbonDioxide), Of(Permeant.Nitrogen), viscous);
    }
}
