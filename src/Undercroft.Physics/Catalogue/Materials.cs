using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue.Sources;

namespace Undercroft.Physics.Catalogue;

/// <summary>Permeabilities and activation energies of plain materials, all sources side by side: they scatter, and that is the message.</summary>
public static class Materials
{
    /// <summary>Every value of every source, the one to be used first; last what is there for comparison only.</summary>
    public static IReadOnlyList<MaterialValue> All { get; } =
        [.. FitnessU12.Values, .. Robb1968.Values, .. BiosystemsTable.Values, .. ResinMakerMxd6.Values, .. HandbookFromMemory.Values, .. MasseyRubber.Values, .. SupplierSheets.Values];

    /// <summary>Every activation energy, the most trusted source first.</summary>
    public static IReadOnlyList<MaterialEnergy> Energies { get; } = [.. Moyls1998.Energies, .. MixedGases1993.Energies, .. HandbookFromMemory.Energies];

    /// <summary>Short names of all materials.</summary>
    public static IReadOnlyList<string> Codes { get; } = [.. All.Select(value => value.Material).Distinct().Order(StringComparer.Ordinal)];

    /// <summary>The value of the most trusted source, or null where no source has one.</summary>
    public static MaterialValue? Find(string material, Permeant permeant) =>
        All.FirstOrDefault(value => value.Permeant == permeant && string.Equals(value.Material, material, StringComparison.OrdinalIgnoreCase));

    /// <summary>The value of the most trusted source, else a guess by the usual ratio to oxygen (marked as an assumption), else null.</summary>
    public static MaterialValue? FindOrGuess(string material, Permeant permeant) => Find(material, permeant) ?? Guesses.Of(material, permeant);

    /// <summary>The energy of the most trusted source, or null.</summary>
    public static MaterialEnergy? FindEnergy(string material, Permeant permeant) =>
        Energies.FirstOrDefault(value => value.Permeant == permeant && string.Equals(value.Material, material, StringComparison.OrdinalIgnoreCase));

    /// <summary>The codes most like a mistyped one.</summary>
    public static IReadOnlyList<string> Nearest(string code, int count = 3) => Quantities.Nearest.To(code, Codes, count);
}
