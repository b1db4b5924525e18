using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Keeping.Correcting;

/// <summary>Which package a change is about.</summary>
public static class Affected
{
    /// <summary>The package of the line that was corrected, undone or added, or null where it is about none or several.</summary>
    public static PackageId? By(Change change)
    {
        ArgumentNullException.ThrowIfNull(change);
        var fact = change.Events[^1].Fact;
        var target = fact switch
        {
            Fact.EventCorrected corrected => corrected.Event,
            Fact.EventUndone undone => undone.Event,
            _ => change.Events[^1].Id,
        };
        PackageId[] touched =
        [
            .. new[] { change.Before, change.After }.SelectMany(cellar => cellar.Packages.Values)
                .Where(package => package.Timeline.Any(entry => entry.Event == target)).Select(package => package.Id).Distinct(),
        ];
        return touched.Length == 1 ? touched[0] : null;
    }
}
