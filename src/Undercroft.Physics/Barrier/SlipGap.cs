using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Barrier;

/// <summary>The ring-shaped gap between a slip lid and the body of a tin, or between a lid and a rim that do not quite meet.</summary>
/// <remarks>
/// <para><b>Equation</b> G = D·(perimeter·gap)/(R·T·overlap) for each gas; the whole gas flows as through a slot.</para>
/// <para><b>Source</b> <see cref="GasDiffusion"/>, <see cref="ViscousFlow"/>; no measurement of a slip-lid tin was found.</para>
/// <para><b>Valid</b> Gaps from 5 µm to 1 mm, overlap well above the gap. Lid and body rarely sit centred: the gap is an average.</para>
/// <para><b>Error</b> The gap is a guess, and G goes with it: factor 3. Weigh the tin.</para>
/// </remarks>
public static class SlipGap
{
    /// <summary>The path.</summary>
    /// <param name="name">What a person would point at.</param>
    /// <param name="perimeter">Of the lid.</param>
    /// <param name="gap">Mean width.</param>
    /// <param name="overlap">Length of the way out.</param>
    public static ExchangePath Path(string name, Length perimeter, Length gap, Length overlap)
    {
        var shape = Positive.Number(perimeter.Metres) * Positive.Number(gap.Metres) / Positive.Number(overlap.Metres);
        return new ExchangePath(name, Of(Permeant.Water, shape), Of(Permeant.Oxygen, shape), Of(Permeant.CarbonDioxide, shape), Of(Permeant.Nitrogen, shape),
            ViscousFlow.SlotPerPascal(perimeter, gap, overlap));
    }

    private static Conductance Of(Permeant permeant, double areaOverLength)
    {
        var at = new Temperature(Conductance.ReferenceKelvin);
        return new(DiffusivityInAir.Of(permeant, at) * areaOverLength / (PhysicalConstants.GasConstant * at.Kelvin), DiffusivityInAir.EquivalentEnergy);
    }
}
