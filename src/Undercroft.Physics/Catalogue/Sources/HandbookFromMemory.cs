using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>Values remembered from the [PolymerHandbook], in Barrer at 25 °C unless noted, energies in kJ/mol. Not re-read: never shown as published.</summary>
public static class HandbookFromMemory
{
    private static readonly Evidence Memory = new(Provenance.FromMemory, "PolymerHandbook", "to be checked there");

    /// <summary>Permeabilities.</summary>
    public static IReadOnlyList<MaterialValue> Values { get; } =
    [
        Of("ldpe", "low-density polyethylene", Permeant.Oxygen, 2.88, 2.88), Of("ldpe", "low-density polyethylene", Permeant.CarbonDioxide, 12.6, 12.6),
        Of("ldpe", "low-density polyethylene", Permeant.Nitrogen, 0.97, 0.97), Of("ldpe", "low-density polyethylene", Permeant.Water, 90, 90),
        Of("hdpe", "high-density polyethylene", Permeant.Oxygen, 0.403, 0.403, 25, 0.7), Odd("hdpe", "high-density polyethylene", Permeant.CarbonDioxide, 0.36),
        Of("hdpe", "high-density polyethylene", Permeant.Water, 12, 12, 25, 0.7),
        Of("pp", "polypropylene", Permeant.Oxygen, 2.2, 2.2, 30), Of("pp", "polypropylene", Permeant.CarbonDioxide, 9.2, 9.2, 30), Of("pp", "polypropylene", Permeant.Water, 51, 51),
        Of("pet", "polyester, crystalline", Permeant.Oxygen, 0.035, 0.035), Of("pet", "polyester, crystalline", Permeant.CarbonDioxide, 0.17, 0.17),
        Of("pet", "polyester, crystalline", Permeant.Water, 130, 130),
        Of("pa6", "nylon 6", Permeant.Oxygen, 0.038, 0.038, 30), Of("pa6", "nylon 6", Permeant.CarbonDioxide, 0.088, 0.088, 20), Of("pa6", "nylon 6", Permeant.Water, 177, 177),
        Of("pvc", "PVC", Permeant.Oxygen, 0.045, 0.045), Of("pvc", "PVC", Permeant.CarbonDioxide, 0.157, 0.157), Of("pvc", "PVC", Permeant.Water, 275, 275),
        Of("pvdc", "PVDC", Permeant.Oxygen, 0.0053, 0.0053, 30, 0.7), Of("pvdc", "PVDC", Permeant.CarbonDioxide, 0.03, 0.03, 30, 0.7), Of("pvdc", "PVDC", Permeant.Water, 0.5, 0.5, 25, 0.7),
        Of("natural-rubber", "natural rubber", Permeant.Oxygen, 23, 24), Of("natural-rubber", "natural rubber", Permeant.CarbonDioxide, 131, 153),
        Of("natural-rubber", "natural rubber", Permeant.Nitrogen, 8, 9), Of("natural-rubber", "natural rubber", Permeant.Water, 2290, 2290),
        Of("butyl", "butyl rubber", Permeant.Oxygen, 1.3, 1.3), Of("butyl", "butyl rubber", Permeant.CarbonDioxide, 5.2, 5.2),
        Of("nitrile", "nitrile rubber", Permeant.Oxygen, 1, 8, 25, 0.7), Of("nitrile", "nitrile rubber", Permeant.CarbonDioxide, 7.5, 64, 25, 0.7),
        Of("nitrile", "nitrile rubber", Permeant.Water, 1000, 1000, 25, 0.7),
        Of("silicone", "silicone rubber", Permeant.Oxygen, 500, 600), Of("silicone", "silicone rubber", Permeant.CarbonDioxide, 2700, 3250),
        Of("silicone", "silicone rubber", Permeant.Nitrogen, 250, 280), Of("silicone", "silicone rubber", Permeant.Water, 36_000, 43_000),
    ];

    /// <summary>Activation energies.</summary>
    public static IReadOnlyList<MaterialEnergy> Energies { get; } =
    [
        E("ldpe", Permeant.Oxygen, 42.7), E("ldpe", Permeant.CarbonDioxide, 38.9), E("ldpe", Permeant.Water, 33.5),
        E("hdpe", Permeant.Oxygen, 35.1), E("hdpe", Permeant.CarbonDioxide, 30.1),
        E("pp", Permeant.Oxygen, 47.7), E("pp", Permeant.CarbonDioxide, 38.1), E("pp", Permeant.Water, 42.3),
        E("pet", Permeant.Oxygen, 32.3), E("pet", Permeant.CarbonDioxide, 18.4), E("pet", Permeant.Water, 2.9),
        E("pa6", Permeant.Oxygen, 43.5), E("pa6", Permeant.CarbonDioxide, 40.6),
        E("pvc", Permeant.Oxygen, 55.6), E("pvc", Permeant.CarbonDioxide, 56.9), E("pvc", Permeant.Water, 22.9),
        E("pvdc", Permeant.Oxygen, 66.5), E("pvdc", Permeant.CarbonDioxide, 51.4), E("pvdc", Permeant.Water, 46.1),
        E("natural-rubber", Permeant.Oxygen, 31), E("natural-rubber", Permeant.CarbonDioxide, 22),
        E("butyl", Permeant.Oxygen, 45), E("butyl", Permeant.CarbonDioxide, 42),
        E("silicone", Permeant.Oxygen, 10), E("silicone", Permeant.CarbonDioxide, 0),
        E("evoh", Permeant.Oxygen, 52),
    ];

    private static MaterialValue Of(string code, string name, Permeant permeant, double low, double high, double celsius = 25, double logSd = 0.3) => new(
        code, name, permeant, Permeability.FromBarrer(low), Permeability.FromBarrer(high), Temperature.FromCelsius(celsius),
        FormattableString.Invariant($"{celsius} °C"), logSd, Memory);

    private static MaterialValue Odd(string code, string name, Permeant permeant, double barrer) =>
        Of(code, name, permeant, barrer, barrer, 25, 0.7) with { Evidence = Memory with { Remark = "less than its oxygen: a known oddity of that table, three times oxygen is likelier; to be checked there" } };

    private static MaterialEnergy E(string code, Permeant permeant, double kilojoules) => new(code, permeant, kilojoules * 1e3, Memory);
}
