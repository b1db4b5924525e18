using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;

namespace Undercroft.Keeping.Measuring;

/// <summary>A container as a person measures it, in the words that were typed; null for what was not measured.</summary>
/// <param name="Empty">It, or one like it, empty and without its lid, such as <c>212g</c>.</param>
/// <param name="Full">The same one, full of water to the brim.</param>
/// <param name="Holds">What it holds to the brim, where that was measured with a jug, such as <c>486ml</c>.</param>
/// <param name="Tare">The package's own container empty with its closure, such as <c>231.4g</c>.</param>
/// <param name="Kind">What it is, such as <c>jar-473</c>.</param>
public sealed record ContainerSize(string? Empty = null, string? Full = null, string? Holds = null, string? Tare = null, string? Kind = null)
{
    /// <summary>
    /// Water at 20 °C in kg/m³, from memory; from 10 to 30 °C it differs by 0.3 % at most. The air that the water pushes aside adds 0.1 %, left out. Both are small beside the 1 % that a
    /// measured volume is trusted to.
    /// </summary>
    private const double WaterKgPerM3 = 998.2;

    private const int TenthOfMillilitre = 7; // decimals of a m³

    /// <summary>The inner volume; unknown where nobody measured it.</summary>
    /// <exception cref="Refusal">One weight without the other, no gain in weight, or two volumes.</exception>
    internal StatedVolume Volume()
    {
        if (Empty is null && Full is null)
            return StatedVolume.Parse(Holds, SaidBy.Weighed) is { IsKnown: true } said ? said : default;
        if (Holds is not null)
            throw new Refusal("The volume was said twice. Say what it holds, or what it weighs empty and full of water.");
        if (Empty is null || Full is null)
            throw new Refusal("Both weights are needed: empty, and full of water to the brim.");
        var water = Measure.Mass(Full).Kilograms - Measure.Mass(Empty).Kilograms;
        return water > 0
            ? new StatedVolume(Stated.Exactly(Math.Round(water / WaterKgPerM3, TenthOfMillilitre), SaidBy.Weighed, $"{Empty} empty, {Full} full of water"))
            : throw new Refusal($"Full of water ({Full}) it must weigh more than empty ({Empty}). Check which is which.");
    }
}
