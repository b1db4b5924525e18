using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger;

/// <summary>What differs between two views of one cellar, such as a year ago and now.</summary>
/// <param name="Came">Packages that were not there before.</param>
/// <param name="Went">Packages that were there and are not any more.</param>
/// <param name="Moved">Packages that stand elsewhere.</param>
/// <param name="Opened">Packages that were closed and are open.</param>
/// <param name="Closed">Packages that were open and are closed.</param>
/// <param name="Repacked">Packages in another container.</param>
/// <param name="Before">Leaf before.</param>
/// <param name="After">Leaf after.</param>
public sealed record Changes(
    IReadOnlyList<PackageId> Came,
    IReadOnlyList<PackageId> Went,
    IReadOnlyList<Moved> Moved,
    IReadOnlyList<PackageId> Opened,
    IReadOnlyList<PackageId> Closed,
    IReadOnlyList<PackageId> Repacked,
    MassTotal Before,
    MassTotal After)
{
    /// <summary>Compares two views.</summary>
    /// <param name="before">The earlier one, for example folded with <see cref="View.AsOf"/> (what was so) or <see cref="View.KnownOn"/> (what was known).</param>
    /// <param name="after">The later one.</param>
    public static Changes Between(Cellar before, Cellar after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        var was = before.Here.ToDictionary(package => package.Id);
        var stays = after.Here.Where(package => was.ContainsKey(package.Id)).Select(package => (Then: was[package.Id], Now: package)).ToArray();
        var here = after.Here.Select(package => package.Id).ToHashSet();
        return new(
            [.. after.Here.Where(package => !was.ContainsKey(package.Id)).Select(package => package.Id)],
            [.. was.Keys.Where(id => !here.Contains(id))],
            [.. stays.Where(pair => pair.Then.Place != pair.Now.Place).Select(pair => new Moved(pair.Now.Id, pair.Then.Place, pair.Now.Place))],
            [.. stays.Where(pair => !pair.Then.IsOpen && pair.Now.IsOpen).Select(pair => pair.Now.Id)],
            [.. stays.Where(pair => pair.Then.IsOpen && !pair.Now.IsOpen).Select(pair => pair.Now.Id)],
            [.. stays.Where(pair => pair.Then.Repackings < pair.Now.Repackings).Select(pair => pair.Now.Id)],
            MassTotal.Of(before.Here),
            MassTotal.Of(after.Here));
    }
}

/// <summary>A package that stands elsewhere than before.</summary>
/// <param name="Package">Which.</param>
/// <param name="From">Where it stood; null where nobody said.</param>
/// <param name="To">Where it stands; null where nobody says.</param>
public sealed record Moved(PackageId Package, PlaceId? From, PlaceId? To);
