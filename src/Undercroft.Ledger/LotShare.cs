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
        var parts = all.Count(package => !IsSplitUp(package));
        var came = lot.Net.Mid?.Grams ?? CameIn(cellar, all);
        var byGrams = came > 0 && all.Where(package => package.IsHere).All(package => package.BookNet.IsKnown);
        double Share(Package package) =>
            byGrams && (package.IsHere ? package.BookNet.Mid : package.Net.Mid) is { } held ? Math.Clamp(held.Grams / came!.Value, 0, 1) : IsSplitUp(package) ? 0 : 1.0 / Math.Max(1, parts);
        return new(all.ToDictionary(package => package.Id, Share), Math.Clamp(all.Where(package => package.IsHere).Sum(Share), 0, 1), byGrams);
    }

    /// <summary>True where all of its leaf went into other packages of the lot: it was neither smoked nor given nor lost.</summary>
    public static bool IsSplitUp(Package package)
    {
        ArgumentNullException.ThrowIfNull(package);
        return package.Removed is { Fact.As: RemovedAs.Split };
    }

    /// <summary>Leaf with which the lot came, g: what was split up counts where it went, and what was split off is no longer counted where it came from. Null where a mass is not known.</summary>
    private static double? CameIn(Cellar cellar, Package[] all)
    {
        var splitOff = all.Select(package => (Cause: CauseOf(cellar, package.Timeline[0]), package.Net)).Where(pair => pair.Cause is not null).ToLookup(pair => pair.Cause!.Value, pair => pair.Net.Mid?.Grams);
        double? sum = 0;
        foreach (var package in all.Where(package => !IsSplitUp(package)))
            sum += Math.Max(0, package.Net.Mid?.Grams - package.Timeline.Where(entry => entry.Fact is Fact.LeafTaken).Sum(entry => splitOff[entry.Event].Sum()) ?? double.NaN);
        return sum is { } came && double.IsFinite(came) ? came : null;
    }

    private static Guid? CauseOf(Cellar cellar, TimelineEntry added)
    {
        var at = (int)added.Version - 1;
        var line = at < cellar.Lines.Count && cellar.Lines[at].Event.Id == added.Event ? cellar.Lines[at] : cellar.Lines.FirstOrDefault(each => each.Event.Id == added.Event);
        return line?.Event.Cause;
    }
}
