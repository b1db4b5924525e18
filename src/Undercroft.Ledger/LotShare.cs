using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger;

/// <summary>Which part of a lot, as it came, its packages hold: by leaf where all of it is known, else in equal parts.</summary>
/// <param name="ByPackage">For each package, 0 to 1: what it holds, and where it left the cellar, what it held when it was packed.</param>
/// <param name="Here">Of all that are here together, 0 to 1.</param>
/// <param name="ByGrams">True where it was told by grams.</param>
public sealed record LotShare(IReadOnlyDictionary<PackageId, double> ByPackage, double Here, bool ByGrams)
{
    /// <summary>The shares of a lot.</summary>
    public static LotShare Of(Cellar cellar, Lot lot)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(lot);
        Package[] all = [.. lot.Packages.Select(id => cellar.Packages[id])];
        // Leaf that went into other packages of the lot is counted there.
        Package[] first = [.. all.Where(package => package.Removed is not { Fact.As: RemovedAs.Split })];
        var came = lot.Net.Mid?.Grams ?? (first.All(package => package.Net.IsKnown) ? first.Sum(package => package.Net.Mid!.Value.Grams) : (double?)null);
        var byGrams = came > 0 && all.Where(package => package.IsHere).All(package => package.BookNet.IsKnown);
        double Share(Package package) =>
            byGrams && (package.IsHere ? package.BookNet.Mid : package.Net.Mid) is { } held ? Math.Clamp(held.Grams / came!.Value, 0, 1) : 1.0 / Math.Max(1, first.Length);
        return new(all.ToDictionary(package => package.Id, Share), Math.Clamp(all.Where(package => package.IsHere).Sum(Share), 0, 1), byGrams);
    }
}
