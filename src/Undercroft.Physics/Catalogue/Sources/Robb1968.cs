using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>[Robb1968], table 1: oxygen in 10⁻⁹ cm³·cm/(s·cm²·cmHg), ten of which are a hundred Barrer. Volumes look like those of the room: ± 9 %.</summary>
public static class Robb1968
{
    private static readonly Evidence Read = new(Provenance.Published, "Robb1968", "table 1; volume basis not certain, ± 9 %");

    /// <summary>Rubbers and films.</summary>
    public static IReadOnlyList<MaterialValue> Values { get; } =
    [
        Row("silicone", "silicone rubber", 60, 0.3),
        Row("fluorosilicone", "fluorosilicone rubber", 11, 0.3),
        Row("nitrile-silicone", "nitrile silicone rubber", 8.5, 0.3),
        Row("natural-rubber", "natural rubber", 2.4, 0.3),
        Row("ldpe", "low-density polyethylene", 0.8, 0.3),
        Row("butyl", "butyl rubber", 0.14, 0.3),
        Row("hdpe", "high-density polyethylene", 0.1, 0.7),
        Row("pvc", "PVC", 0.014, 0.3),
        Row("pa6", "nylon 6", 0.004, 0.3),
        Row("pet", "polyester", 0.0019, 0.3),
        Row("pvdc", "vinylidene copolymer", 0.0005, 0.7),
    ];

    private static MaterialValue Row(string code, string name, double nanos, double logSd)
    {
        var value = Permeability.FromBarrer(nanos * 10);
        return new(code, name, Permeant.Oxygen, value, value, Temperature.FromCelsius(25), "25 °C", logSd, Read);
    }
}
