using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue;

/// <summary>How much shelf a closed container takes: the box around it, since round things do not stack without gaps.</summary>
/// <remarks>
/// From outside sizes that shops state (±10 %): a jar of 237 ml stands in 0.47 l, of 473 ml in 0.90 l, of 946 ml in 1.5 l. Tins, pouches and bags by geometry.
/// </remarks>
public static class ShelfSpace
{
    private const double LooseLeaf = 240; // kg/m³, ribbon, common practice: see Cuts

    /// <summary>What it rests on.</summary>
    public static Evidence Evidence { get; } = new(Provenance.Derived, "", "outside sizes as shops state them, ±10 %, times the box around them; pouches and bags by the leaf in them. Measure your own");

    /// <summary>Box around one container with some leaf in it.</summary>
    /// <param name="kind">Which sort.</param>
    /// <param name="leaf">In it; decides the room that a soft one takes.</param>
    public static Volume Of(ContainerKind kind, Mass leaf)
    {
        ArgumentNullException.ThrowIfNull(kind);
        return kind.Vessel switch
        {
            Vessel.Jar => kind.Capacity * (kind.Capacity.Millilitres < 700 ? 1.9 : 1.6),
            Vessel.Tin => kind.Capacity * 1.35,
            Vessel.Pouch or Vessel.Bag => new Volume(Math.Min(leaf.Kilograms / LooseLeaf * (kind.PressesLeaf ? 1.0 : 1.5), 1.2 * kind.Capacity.CubicMetres)),
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind.Vessel, "Unknown vessel."),
        };
    }
}
