using Undercroft.Forecasts.Story;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Forecasts.Beliefs;

/// <summary>What looks at a package say of its closure.</summary>
public static class Findings
{
    private static readonly Finding[] ClosureBad = [Finding.LidLoose, Finding.LidLifted, Finding.FilmSlack, Finding.FilmSplit, Finding.SeamRust];

    /// <summary>True for findings that mean an open way out.</summary>
    public static bool MeansLeak(Finding finding) => ClosureBad.Contains(finding);

    /// <summary>The last look of which something is still amiss: nothing was mended, repacked or found well after it.</summary>
    public static Timed<Fact.PackageLooked>? Unmended(Package package)
    {
        ArgumentNullException.ThrowIfNull(package);
        Timed<Fact.PackageLooked>? open = null;
        foreach (var entry in package.Timeline)
        {
            open = entry.Fact switch
            {
                Fact.PackageLooked look when look.Findings.Any(Rules.IsAmiss) => new(entry, look),
                Fact.PackageLooked look when look.Findings.Contains(Finding.AllWell) => null,
                Fact.PackageRepacked or Fact.PackageClosed => null,
                _ => open,
            };
        }

        return open;
    }

    /// <summary>Leaf at an activity of 0.70 to 0.75 moulds in about half a year (Mutasa 1990, published).</summary>
    private const int MouldsWithinDays = 183;

    /// <summary>True where leaf was looked at half a year or more after it was last closed and all was well: had it been too moist, it would have moulded by then.</summary>
    public static bool Lasted(Package package)
    {
        ArgumentNullException.ThrowIfNull(package);
        var closed = package.Timeline[0].Day;
        var lasted = false;
        foreach (var entry in package.Timeline)
        {
            if (entry.Fact is Fact.PackageRepacked or Fact.PackageClosed or Fact.PackageOpened or Fact.WaterAdded)
                (closed, lasted) = (entry.Day, false);
            else if (entry.Fact is Fact.PackageLooked look)
                lasted = !look.Findings.Any(Rules.IsAmiss) && look.Findings.Contains(Finding.AllWell) && (lasted || entry.Day.DayNumber - closed.DayNumber >= MouldsWithinDays);
        }

        return lasted;
    }

    /// <summary>
    /// Chance that a look which reports all well passes over a closure that has failed: a slow leak has no look. An assumption; no inspection study of
    /// such closures is known.
    /// </summary>
    public const double OverlookedShare = 0.3;

    /// <summary>
    /// The day from which each draw's closure is bad in one chapter: as drawn; but where a look found it bad, in every draw, somewhere between the last good
    /// moment and that look; and where a look found all well, less often before it.
    /// </summary>
    /// <param name="story">Whose.</param>
    /// <param name="chapter">Number of the chapter.</param>
    /// <param name="epoch">Index of the story's day 0.</param>
    /// <param name="drawn">As drawn without looks.</param>
    public static double[] FailedFrom(PackageStory story, int chapter, double epoch, double[] drawn)
    {
        ArgumentNullException.ThrowIfNull(story);
        ArgumentNullException.ThrowIfNull(drawn);
        var from = epoch + story.Chapters[chapter].FromDay;
        var ends = chapter + 1 < story.Chapters.Count ? story.Chapters[chapter + 1].Entry : story.Package.Timeline.Count;
        var days = (double[])drawn.Clone();
        if (story.Chapters[chapter].Turn is Turn.Aired && !story.Chapters[chapter].Open)
            FoundWell(days, from, overlooked: 0); // closed again with care
        var good = from;
        for (var n = story.Chapters[chapter].Entry + 1; n < ends; n++)
        {
            var day = epoch + story.Package.Timeline[n].Day.DayNumber - story.FirstDay.DayNumber;
            if (story.Package.Timeline[n].Fact is not Fact.PackageLooked look || day > epoch + story.Today)
                continue;
            if (look.Findings.Any(MeansLeak))
            {
                for (var i = 0; i < days.Length; i++)
                    days[i] = Math.Min(days[i], good + ((day - good) * (i + 0.5) / days.Length));
            }
            else if (look.Findings.Contains(Finding.AllWell))
            {
                FoundWell(days, day, OverlookedShare);
                good = day;
            }
        }

        return days;
    }

    /// <summary>
    /// Weighs draws by a look that found all well, and draws again by those weights: one that had failed by then counts <paramref name="overlooked"/>, one that
    /// had not counts 1. Spread evenly, without chance, so that the same story gives the same draws.
    /// </summary>
    /// <param name="days">Day of failure of each draw, any scale, infinite for never; changed in place.</param>
    /// <param name="day">Of the look, on the same scale.</param>
    /// <param name="overlooked">Chance that a failed closure looks well.</param>
    public static void FoundWell(double[] days, double day, double overlooked)
    {
        int[] failed = [.. Enumerable.Range(0, days.Length).Where(i => days[i] <= day)];
        double[] sound = [.. days.Where(failedOn => failedOn > day)];
        if (failed.Length == 0)
            return;
        var kept = days.Length * overlooked * failed.Length / ((overlooked * failed.Length) + sound.Length);
        for (var n = 0; n < failed.Length; n++)
        {
            var stays = Math.Floor((n + 1) * kept / failed.Length) > Math.Floor(n * kept / failed.Length);
            if (!stays)
                days[failed[n]] = sound.Length > 0 ? sound[n * sound.Length / failed.Length] : double.PositiveInfinity;
        }
    }
}
