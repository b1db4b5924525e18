using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Forecasts.Story;

/// <summary>The life of a package as the ledger tells it, ready to be run through the model.</summary>
/// <param name="Package">Which.</param>
/// <param name="FirstDay">Day 0: when it was sealed, or the first day on which anything is known of it.</param>
/// <param name="Sealed">How well the sealing day is known; unknown where the story starts with what was found on the shelf.</param>
/// <param name="Chapters">In time order, the first at day 0.</param>
/// <param name="Today">The day of the question, counted from day 0; not negative.</param>
public sealed record PackageStory(Package Package, DateOnly FirstDay, UnevenDate Sealed, IReadOnlyList<Chapter> Chapters, double Today)
{
    /// <summary>The story of one package.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="package">Which.</param>
    /// <param name="today">The day of the question.</param>
    public static PackageStory Of(Cellar cellar, Package package, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(package);
        var added = (Fact.PackagesAdded)package.Timeline[0].Fact;
        var first = package.Timeline[0].Day;
        if (first > today)
            first = today;
        List<Chapter> chapters = [new(0, added.Container, added.Place, false, new Turn.Sealed(), 0)];
        if (added.Opened)
            chapters.Add(chapters[0] with { FromDay = OpenedOnEntry(package, first, today), Open = true, Turn = new Turn.Aired() });
        for (var n = 1; n < package.Timeline.Count && package.Timeline[n].Day <= today; n++)
        {
            var entry = package.Timeline[n];
            if (entry.Fact is Fact.ContainerStated stated)
                Describe(chapters, stated.Container);
            var last = chapters[^1] with { Entry = n, FromDay = Math.Max(entry.Day.DayNumber - first.DayNumber, chapters[^1].FromDay), Turn = new Turn.Aired() };
            Chapter? next = entry.Fact switch
            {
                Fact.PackageOpened => last with { Open = true },
                Fact.PackageClosed => last with { Open = false },
                Fact.LeafTaken taken => last with { Turn = new Turn.Taken(taken.Mass) },
                Fact.WaterAdded water => last with { Turn = new Turn.Watered(water.Mass) },
                Fact.PackageRepacked repacked => last with { Container = repacked.Container, Open = false, Turn = new Turn.Sealed() },
                Fact.PackageMoved moved => last with { Place = moved.Place, Turn = new Turn.Stays() },
                _ => null, // measurements, looks and notes change nothing
            };
            if (next is not null)
                chapters.Add(next);
        }

        return new(package, first, added.Sealed.IsKnown ? added.Sealed : cellar.Lots[package.Lot].Made, chapters, today.DayNumber - first.DayNumber);
    }

    /// <summary>What is said of a container holds since it was closed, not since it was said.</summary>
    private static void Describe(List<Chapter> chapters, Container said)
    {
        for (var n = chapters.Count - 1; n >= 0; n--)
        {
            chapters[n] = chapters[n] with { Container = chapters[n].Container.With(said) };
            if (chapters[n].Turn is Turn.Sealed)
                return;
        }
    }

    /// <summary>The day since which it has stood open without a break, whatever was taken or moved meanwhile; today where it is closed.</summary>
    public double OpenSince => Chapters.Reverse().TakeWhile(chapter => chapter.Open).LastOrDefault()?.FromDay ?? Today;

    private const double DaysPerMonth = 30.4375;

    /// <summary>The same story with another container, place or opening from today on: what if?</summary>
    /// <param name="container">Packed into it today; null for as it is.</param>
    /// <param name="place">Moved there today; null for where it is.</param>
    /// <param name="opening">Opened or closed so from today on; null for as it is.</param>
    /// <param name="years">How far openings are planned.</param>
    public PackageStory From(Container? container, PlaceId? place, Opening? opening = null, double years = 0)
    {
        if (container is null && place is null && opening is null)
            return this;
        var last = Chapters[^1] with { Entry = Package.Timeline.Count, FromDay = Today, Turn = container is null ? new Turn.Stays() : new Turn.Sealed() };
        if (container is not null)
            last = last with { Container = container, Open = false };
        if (place is { } there)
            last = last with { Place = there };
        if (opening is { } so)
            last = last with { Open = so == Opening.InUse, Turn = container is null ? new Turn.Aired() : last.Turn };
        var openings = opening == Opening.Monthly ? (int)(((years * Grid.DaysPerYear) - 2) / DaysPerMonth) : 0;
        return this with { Chapters = [.. Chapters, last, .. Enumerable.Range(1, openings).Select(n => last with { FromDay = Math.Round(Today + (n * DaysPerMonth)), Turn = new Turn.Aired() })] };
    }

    /// <summary>A package that was open when it was first written down has been so since some time before; that day is the only one known.</summary>
    private static double OpenedOnEntry(Package package, DateOnly first, DateOnly today)
    {
        var recorded = DateOnly.FromDateTime(package.Timeline[0].Recorded.UtcDateTime);
        return Math.Max(0, (recorded < today ? recorded : today).DayNumber - first.DayNumber);
    }
}
