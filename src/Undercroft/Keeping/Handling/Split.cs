using System.Globalization;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Keeping.Handling;

/// <summary>What came of splitting a package.</summary>
/// <param name="From">The package that was split.</param>
/// <param name="Ids">The new ones, of the same lot.</param>
/// <param name="Each">Leaf in each.</param>
/// <param name="Change">What was written; undoing its last line takes all of it back.</param>
public sealed record SplitDone(PackageId From, IReadOnlyList<PackageId> Ids, StatedMass Each, Change Change);

/// <summary>Splits one package, such as a bulk bag, into several alike of the same lot.</summary>
public static class Split
{
    /// <summary>Writes it: the new packages, and what became of the old one.</summary>
    /// <param name="cellars">Where.</param>
    /// <param name="typedId">The package to split.</param>
    /// <param name="kind">The kind of the new containers.</param>
    /// <param name="count">How many.</param>
    /// <param name="each">Leaf in each, such as <c>50g</c>; null shares out all that is in it.</param>
    /// <param name="place">Where the new ones stand; null where the old one stood.</param>
    /// <param name="on">When; null means today.</param>
    /// <param name="presentOf">The present for the cellar as read.</param>
    /// <exception cref="Refusal">An unknown ID or kind, a count that cannot be, or more than is in it.</exception>
    public static async ValueTask<SplitDone> Of(
        ICellars cellars, string typedId, string? kind, int count, string? each, string? place, string? on, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        if (count is < 1 or > AddPackages.MostAtOnce)
            throw new Refusal($"It cannot be split into {count}: give 1 to {AddPackages.MostAtOnce}.");
        SplitDone? done = null;
        var change = await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            var package = cellar.FindPackage(typedId);
            if (!package.IsHere)
                throw new Refusal($"{package.Id} has left the cellar: there is nothing to split.");
            var share = each is null ? Shared(package.BookNet, count) : StatedMass.Parse(each, SaidBy.Weighed);
            if (each is not null && share.Low is { } least && package.BookNet.High is { } most && least.Kilograms * count > most.Kilograms * 1.02)
                throw new Refusal(string.Create(CultureInfo.InvariantCulture, $"{count} times {AmountText.Of(share)} is more than the {AmountText.Of(package.BookNet)} that are in {package.Id} on record. Weigh it, or give less."));
            PackageId[] ids = [.. cellar.NextIds(count).Select(id => new PackageId(id))];
            var day = present.When(on);
            var added = new Fact.PackagesAdded(
                package.Lot, ids, AddPackages.ContainerOf(cellar, kind, null, SaidBy.Unstated), share, Sealed: day, Place: place is null ? package.Place : cellar.FindPlace(place).Id, Note: $"Split from {package.Id}.");
            var left = each is not null && package.BookNet.Mid is { } whole && share.Mid is { } part && whole.Kilograms - (part.Kilograms * count) > 0.02 * whole.Kilograms;
            Fact end = left
                ? new Fact.LeafTaken(package.Id, Times(share, count), $"Split into {string.Join(", ", ids)}.")
                : new Fact.PackageRemoved(package.Id, RemovedAs.Split, Text: $"Split into {string.Join(", ", ids)}.");
            var last = CellarEvent.New(end, day, present.Now);
            done = new(package.Id, ids, share, null!);
            return Recording.Checked(cellar, CellarEvent.New(added, UnevenDate.Unknown, present.Now) with { Cause = last.Id }, last);
        });
        return done! with { Change = change };
    }

    /// <summary>The share of one of several alike.</summary>
    internal static StatedMass Shared(StatedMass whole, int count) => Times(whole, 1.0 / count);

    private static StatedMass Times(StatedMass mass, double factor) => mass switch
    {
        { IsKnown: false } => StatedMass.Unknown,
        { Low: { } low, High: { } high } when low == high => StatedMass.Exactly(new Mass(low.Kilograms * factor), mass.By),
        { Low: { } low, High: { } high } => StatedMass.Between(new Mass(low.Kilograms * factor), new Mass(high.Kilograms * factor), mass.By),
        _ => StatedMass.Unknown,
    };
}
