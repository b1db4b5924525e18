using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger;

/// <summary>The IDs that a fact brings into the world.</summary>
internal static class Introduced
{
    internal static IEnumerable<ShortId> By(Fact fact) => fact switch
    {
        Fact.PlaceAdded place => [place.Place.Id],
        Fact.LotAdded lot => [lot.Lot.Id],
        Fact.PackagesAdded packages => packages.Packages.Select(package => package.Id),
        _ => [],
    };

    internal static void AddTo(HashSet<ShortId> ids, Fact fact)
    {
        if (fact is Fact.PlaceAdded or Fact.LotAdded or Fact.PackagesAdded)
            ids.UnionWith(By(fact));
    }
}
