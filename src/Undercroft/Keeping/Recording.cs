using Undercroft.Forecasts.Places;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Shell;

namespace Undercroft.Keeping;

/// <summary>A fact about one package, read from words and not yet written.</summary>
/// <param name="Fact">What happened.</param>
/// <param name="Happened">When.</param>
public sealed record Said(Fact Fact, UnevenDate Happened);

/// <summary>What was written, and the cellar after it.</summary>
/// <param name="Events">The new lines of the ledger.</param>
/// <param name="After">The cellar with them.</param>
/// <param name="Package">The package that they are about.</param>
/// <param name="Doubts">What is surprising about it: written all the same.</param>
public sealed record Kept(IReadOnlyList<CellarEvent> Events, Cellar After, Package Package, IReadOnlyList<string> Doubts);

/// <summary>Writes one fact about one package: find it, decide, check, append, look again.</summary>
/// <param name="cellars">Where.</param>
/// <param name="presentOf">The present for the cellar as it was read.</param>
public sealed class Recording(ICellars cellars, Func<Cellar, Present> presentOf)
{
    /// <summary>Writes what <paramref name="say"/> says of a package.</summary>
    /// <param name="typedId">The package's ID as typed.</param>
    /// <param name="say">Pure: may be asked again when somebody else wrote in between.</param>
    /// <exception cref="Refusal">Unknown ID (with the nearest ones), or a fact that cannot be.</exception>
    public async ValueTask<Kept> Of(string typedId, Func<Package, Cellar, Present, Said> say)
    {
        PackageId id = default;
        var change = await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            var package = cellar.FindPackage(typedId);
            id = package.Id;
            var said = say(package, cellar, present);
            return Checked(cellar, CellarEvent.New(said.Fact, said.Happened, present.Now));
        });
        await cellars.LearnAsync(change.After);
        return new(change.Events, change.After, change.After.Packages[id], NewDoubts(change, id));
    }

    /// <summary>Lines that are about to be appended, after the ledger's own rules were asked.</summary>
    /// <exception cref="Refusal">One of them is impossible.</exception>
    public static IReadOnlyList<CellarEvent> Checked(Cellar cellar, params CellarEvent[] lines)
    {
        Rules.Check(cellar, lines);
        return lines;
    }

    /// <summary>What is odd about a package now that was not before.</summary>
    public static IReadOnlyList<string> NewDoubts(Change change, PackageId id)
    {
        ArgumentNullException.ThrowIfNull(change);
        return [.. On(change.After).Except(On(change.Before))];

        IEnumerable<string> On(Cellar cellar) => cellar.Packages.TryGetValue(id, out var package)
            ? Doubts.Of(cellar, package, Kinds.SizesIn(cellar)).Select(doubt => doubt.Reason)
            : [];
    }
}
