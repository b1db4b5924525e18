using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;

namespace Undercroft.Keeping.Showing;

/// <summary>An age in years, as far as the date behind it is known.</summary>
/// <param name="FromYears">At least.</param>
/// <param name="ToYears">At most; null where nobody knows how old.</param>
public sealed record YearsOld(double FromYears, double? ToYears)
{
    private const double DaysPerYear = 365.2425;

    private string Words { get; init; } = "";

    /// <summary>From a date of any precision to a day; null where the date is unknown.</summary>
    public static YearsOld? Of(UnevenDate since, DateOnly today)
    {
        if (!since.IsKnown)
            return null;
        var age = Age.On(since, today);
        return new((age.AtLeast ?? 0) / DaysPerYear, age.AtMost / DaysPerYear) { Words = age.ToString() };
    }

    /// <summary>In words: "9 years", "8 to 10 years", "at least 3 years".</summary>
    public override string ToString() => Words;
}

/// <summary>One package as it stands.</summary>
/// <param name="Id">On its label.</param>
/// <param name="Blend">Name, or null.</param>
/// <param name="Leaf">Leaf kinds; empty where nobody said.</param>
/// <param name="Cut">In the person's words, or null.</param>
/// <param name="NetG">Leaf by the book (drying not counted), middle; null where nobody knows.</param>
/// <param name="NetLowG">At least.</param>
/// <param name="NetHighG">At most.</param>
/// <param name="Container">Code of its kind, else what was written, else null.</param>
/// <param name="Place">Path, or null.</param>
/// <param name="Sealed">ISO 8601-2, or null.</param>
/// <param name="Opened">When it was last opened, while it stands open; else null.</param>
/// <param name="LeafAge">Since made or sealed; null where unknown.</param>
/// <param name="Undisturbed">Since last opened or sealed; null where unknown.</param>
/// <param name="Removed">How it left the cellar, or null while it is here.</param>
/// <param name="Lot">Its lot.</param>
/// <param name="Doubts">What is odd in its record.</param>
public sealed record PackageLine(
    string Id, string? Blend, IReadOnlyList<string> Leaf, string? Cut, double? NetG, double? NetLowG, double? NetHighG, string? Container, string? Place, string? Sealed,
    string? Opened, YearsOld? LeafAge, YearsOld? Undisturbed, string? Removed, string Lot, IReadOnlyList<string> Doubts);

/// <summary>What stands where.</summary>
public static class ShowPackages
{
    /// <summary>All packages that are here, or one by its ID, here or gone.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="today">For ages.</param>
    /// <param name="typedId">One package; null for all.</param>
    /// <exception cref="Refusal">Unknown ID, with the nearest ones.</exception>
    public static IReadOnlyList<PackageLine> Of(Cellar cellar, DateOnly today, string? typedId = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        return typedId is not null
            ? [Line(cellar, cellar.FindPackage(typedId), today)]
            : [.. cellar.Here.OrderBy(package => cellar.PathOf(package.Place), NameOrder.Instance).ThenBy(package => package.Id.ToString(), StringComparer.Ordinal)
                .Select(package => Line(cellar, package, today))];
    }

    private static PackageLine Line(Cellar cellar, Package package, DateOnly today)
    {
        var lot = cellar.Lots[package.Lot];
        var opened = package.IsOpen ? package.Timeline.LastOrDefault(entry => entry.Fact is Fact.PackageOpened) : null;
        return new(
            package.Id.ToString(),
            lot.Blend.Name,
            [.. lot.Blend.Leaf.Select(share => share.Kind)],
            lot.Blend.Cut,
            package.BookNet.Mid?.Grams,
            package.BookNet.Low?.Grams,
            package.BookNet.High?.Grams,
            package.Container.Kind ?? package.Container.Text,
            cellar.PathOf(package.Place),
            package.Sealed.IsKnown ? package.Sealed.ToString() : null,
            package.IsOpen ? opened is { Happened.IsKnown: true } ? opened.Happened.ToString() : UnevenDate.On(opened?.Day ?? package.Since).ToString() : null,
            YearsOld.Of(lot.Made.IsKnown ? lot.Made : package.Sealed, today),
            YearsOld.Of(package.UndisturbedSince, today),
            package.Removed is { } gone ? CodeWords.Of(gone.Fact.As) : null,
            package.Lot.ToString(),
            [.. Doubts.Of(cellar, package, Kinds.SizesIn(cellar)).Select(doubt => doubt.Reason)]);
    }
}
