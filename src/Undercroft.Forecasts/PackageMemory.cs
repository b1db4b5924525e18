using System.Collections.Concurrent;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Forecasts;

/// <summary>
/// Answers about single packages, kept until something is written that could change them: a fact about the package itself, or one about what packages share – places, readings, kinds,
/// rules, lots, corrections, undoings.
/// </summary>
/// <remarks>For one ledger as it stands now. A weight written down for one jar leaves what is known of the others; a note or a picture leaves even what is known of its own.</remarks>
public sealed class PackageMemory
{
    private readonly Lock gate = new();
    private ConcurrentDictionary<(PackageId, string), (long Stamp, Lazy<object> Answer)> kept = new();
    private (long Version, DateOnly Today) about = (-1, default);

    /// <summary>The answer of a name about a package.</summary>
    /// <param name="cellar">As it stands.</param>
    /// <param name="package">Of it.</param>
    /// <param name="today">The present.</param>
    /// <param name="name">Sets this answer apart from others about the package.</param>
    /// <param name="answer">Works it out.</param>
    public T Of<T>(Cellar cellar, Package package, DateOnly today, string name, Func<T> answer) where T : class
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(package);
        ArgumentNullException.ThrowIfNull(answer);
        if (About(cellar, today) is not { } now)
            return answer();
        var stamp = package.Timeline.Where(entry => entry.Fact is not (Fact.Noted or Fact.PhotoKept or Fact.PhotoMarked)).Max(entry => entry.Version);
        var found = now.AddOrUpdate((package.Id, name), _ => New(), (_, old) => old.Stamp == stamp ? old : New());
        try
        {
            return (T)found.Answer.Value;
        }
        catch
        {
            now.TryRemove(new((package.Id, name), found));
            throw;
        }

        (long, Lazy<object>) New() => (stamp, new(answer));
    }

    /// <summary>What is kept for a cellar as it stands; null for an older state of it, about which nothing is kept.</summary>
    private ConcurrentDictionary<(PackageId, string), (long Stamp, Lazy<object> Answer)>? About(Cellar cellar, DateOnly today)
    {
        lock (gate)
        {
            if (about == (cellar.Version, today))
                return kept;
            if (cellar.Version < about.Version)
                return null;
            if (today != about.Today || Since(cellar, about.Version).Any(fact => !IsOfOnePackage(fact)))
                kept = new();
            about = (cellar.Version, today);
            return kept;
        }
    }

    private static IEnumerable<Fact> Since(Cellar cellar, long version)
    {
        for (var at = cellar.Lines.Count - 1; at >= 0 && cellar.Lines[at].Event.Version > version; at--)
            yield return cellar.Lines[at].Event.Fact;
    }

    private static bool IsOfOnePackage(Fact fact) => fact is Fact.PackageWeighed or Fact.HumidityRead or Fact.PackageLooked or Fact.PackageOpened or Fact.PackageClosed or Fact.LeafTaken
        or Fact.WaterAdded or Fact.PackageMoved or Fact.PackageRepacked or Fact.PackageRemoved or Fact.Decided or Fact.PhotoKept or Fact.PhotoMarked or Fact.Noted;
}
