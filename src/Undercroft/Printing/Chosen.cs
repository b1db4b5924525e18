using Undercroft.Ledger;

namespace Undercroft.Printing;

/// <summary>Which packages a paper is about.</summary>
internal static class Chosen
{
    /// <summary>Those that are named, or else all that are here; at one place where one is given. In the order of their places, then of their IDs.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="ids">As typed; each once.</param>
    /// <param name="place">As typed, or null.</param>
    /// <exception cref="Refusal">An unknown ID or place, with the nearest ones.</exception>
    internal static IReadOnlyList<Package> Of(Cellar cellar, IReadOnlyList<string> ids, string? place = null)
    {
        var packages = ids.Count > 0 ? ids.Select(cellar.FindPackage).DistinctBy(package => package.Id) : ByPlace(cellar, cellar.Here);
        if (string.IsNullOrWhiteSpace(place))
            return [.. packages];
        var there = cellar.FindPlace(place).Id;
        return [.. packages.Where(package => cellar.Outwards(package.Place).Any(outer => outer.Id == there))];
    }

    /// <summary>In the order in which one walks: place by place; those of which no place is known last.</summary>
    internal static IEnumerable<Package> ByPlace(Cellar cellar, IEnumerable<Package> packages) => packages
        .OrderBy(package => package.Place is null).ThenBy(package => cellar.PathOf(package.Place) ?? "", NameOrder.Instance).ThenBy(package => package.Id.Id);
}
