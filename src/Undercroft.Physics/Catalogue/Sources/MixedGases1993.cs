using Undercroft.Physics.Barrier;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>[MixedGases1993]: low-density polyethylene, mixed gases, from −16 to 40 °C.</summary>
public static class MixedGases1993
{
    /// <summary>31.3 kJ/mol; for carbon dioxide 35.3 to 37.4, its middle.</summary>
    public static IReadOnlyList<MaterialEnergy> Energies { get; } =
    [
        new("ldpe", Permeant.Oxygen, 31.3e3, new(Provenance.Published, "MixedGases1993", "mixed gases, −16 to 40 °C")),
        new("ldpe", Permeant.CarbonDioxide, 36.35e3, new(Provenance.Published, "MixedGases1993", "mixed gases, −16 to 40 °C; middle of 35.3 to 37.4")),
    ];
}
