using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Catalogue;

/// <summary>Jars with a glass lid, a wire clamp and a ring. The ring's material decides: silicone passes some 25 times natural rubber.</summary>
internal static class ClampJarKinds
{
    private static readonly Length RingHeight = Length.FromMillimetres(1.5);
    private static readonly Length RingWay = Length.FromMillimetres(6);

    public static IReadOnlyList<ContainerKind> All { get; } =
    [
        Of("clamp-500-rubber", 500, 267, "natural-rubber"),
        Of("clamp-500-silicone", 500, 267, "silicone"),
        Of("clamp-1000-rubber", 1000, 300, "natural-rubber"),
        Of("clamp-1000-silicone", 1000, 300, "silicone"),
    ];

    private static PathKind Ring(string material, double perimeter)
    {
        var oxygen = Materials.Find(material, Permeant.Oxygen)!;
        Conductance Through(Permeant permeant, double fallbackEnergy)
        {
            var value = permeant is Permeant.Oxygen ? oxygen : Materials.Find(material, permeant)!;
            var energy = Materials.FindEnergy(material, permeant)?.JoulesPerMole ?? fallbackEnergy;
            return GasketConductance.Of(value.Middle, value.Test, energy, Length.FromMillimetres(perimeter), RingHeight, RingWay);
        }

        var gas = Materials.FindEnergy(material, Permeant.Oxygen)!.JoulesPerMole;
        var path = new ExchangePath("ring", Through(Permeant.Water, 15e3), Through(Permeant.Oxygen, gas), Through(Permeant.CarbonDioxide, gas), Through(Permeant.Nitrogen, gas));
        return new(path, Spread.Closure.Own, Spread.Closure.Shared, new(
            Provenance.Derived, "Robb1968",
            "no clamp jar has been measured: oxygen of the rubber through an assumed ring section of 1.5 by 6 mm; carbon dioxide, nitrogen and water of the rubber from memory [PolymerHandbook]"));
    }

    private static ContainerKind Of(string code, double millilitres, double perimeter, string material)
    {
        var silicone = material == "silicone";
        return new(
            code,
            FormattableString.Invariant($"clamp jar {millilitres:0} ml, {(silicone ? "silicone" : "natural-rubber")} ring"),
            Vessel.Jar,
            Volume.FromMillilitres(millilitres),
            new(Provenance.Assumption, "", "nominal; to the brim more. Weigh it full of water"),
            TypicalTare: null,
            Flexible: false,
            ResidualPressure: null,
            [Ring(material, perimeter)],
            silicone
                ? Leaks.Failing(0.03, 0.02, Leaks.LiftedLid(perimeter), "silicone hardly ages; wire and glass do: nobody has counted")
                : Leaks.Failing(0.03, 0.35, Leaks.LiftedLid(perimeter),
                    "the ring hardens and relaxes: rate set so that half have let go within the \"months to two years\" that practice gives such jars", Provenance.Derived, fitted: true),
            Habits.ClampJar,
            silicone ? "years, but oxygen passes" : "months to two years, then a new ring",
            "A snapping wire pinches; the lid is glass. Never heat a closed jar.")
        {
            SeeThrough = true,
            Cost = new(3m, 6m),
        };
    }
}
