using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;

namespace Undercroft.Ledger;

/// <summary>The one way to a cellar: read it; append to it. Whatever keeps the ledger stands behind it.</summary>
public interface ICellars
{
    /// <summary>The cellar that the ledger tells of.</summary>
    /// <param name="view">Which past to see; <see cref="View.Now"/> for all that is known.</param>
    /// <param name="cancellation">Stops waiting.</param>
    ValueTask<Cellar> ReadAsync(View view = default, CancellationToken cancellation = default);

    /// <summary>Every event in the order of the ledger.</summary>
    /// <param name="after">Only those after this version.</param>
    /// <param name="cancellation">Stops waiting.</param>
    ValueTask<IReadOnlyList<CellarEvent>> EventsAsync(long after = 0, CancellationToken cancellation = default);

    /// <summary>Writes events behind the last one, all or none; once it returns <see cref="AppendResult.Written"/> they are on the disk.</summary>
    /// <param name="expectedVersion">The <see cref="Cellar.Version"/> on which the events were decided.</param>
    /// <param name="events">New events; their versions are given here. Ones whose ID is already in the ledger are not written again.</param>
    /// <param name="cancellation">Stops waiting; what was already written stays written.</param>
    /// <exception cref="Refusal">An event with a known ID says something else than the one in the ledger.</exception>
    ValueTask<AppendResult> AppendAsync(long expectedVersion, IReadOnlyList<CellarEvent> events, CancellationToken cancellation = default);

    /// <summary>Writes a batch of readings and its events, all or none; once it returns <see cref="AppendResult.Written"/> they are on the disk.</summary>
    /// <param name="expectedVersion">The <see cref="Cellar.Version"/> on which the batch was decided. It is compared before the readings are taken.</param>
    /// <param name="batch">The readings, and what to write of them. One whose ID is already in the ledger is not written again.</param>
    /// <param name="cancellation">Stops, and keeps nothing.</param>
    /// <exception cref="Refusal">There was not one reading in it.</exception>
    /// <exception cref="ArgumentException">Its events do not tell of what was taken.</exception>
    ValueTask<AppendResult> AppendAsync(long expectedVersion, ReadingBatch batch, CancellationToken cancellation = default);

    /// <summary>Readings in order of time, one an instant, a few thousand at a time in memory.</summary>
    /// <param name="span">From <see cref="Cellar.ReadingsOf"/>.</param>
    /// <param name="cancellation">Stops.</param>
    IAsyncEnumerable<Reading> ReadingsAsync(ReadingSpan span, CancellationToken cancellation = default);

    /// <summary>The same, all at once.</summary>
    /// <param name="span">From <see cref="Cellar.ReadingsOf"/>.</param>
    /// <param name="cancellation">Stops waiting.</param>
    ValueTask<IReadOnlyList<Reading>> AllReadingsAsync(ReadingSpan span, CancellationToken cancellation = default);
}

/// <summary>What became of an append.</summary>
public abstract record AppendResult
{
    private AppendResult()
    {
    }

    /// <summary>The events are in the ledger, these or, where their IDs were known, from before.</summary>
    /// <param name="Version">The last version of the ledger.</param>
    /// <param name="Events">The events with their versions, in the order given.</param>
    public sealed record Written(long Version, IReadOnlyList<CellarEvent> Events) : AppendResult;

    /// <summary>Somebody else wrote in between; nothing was written. Read again, decide again, append again.</summary>
    /// <param name="Version">The version found.</param>
    public sealed record Conflict(long Version) : AppendResult;
}

/// <summary>Ways to use <see cref="ICellars"/>.</summary>
public static class Cellars
{
    /// <summary>Reads, decides and appends, and does so again where somebody else wrote in between.</summary>
    /// <param name="cellars">Where.</param>
    /// <param name="decide">A pure rule: the cellar to new events, or a <see cref="Refusal"/>. It may run several times. <see cref="Rules.Check"/> runs on what it decided.</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <returns>The cellar before, the events as written, and the cellar after.</returns>
    /// <exception cref="Refusal">The rule refused, or others kept writing.</exception>
    public static async ValueTask<Change> ChangeAsync(this ICellars cellars, Func<Cellar, IReadOnlyList<CellarEvent>> decide, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(decide);
        for (var attempt = 0; attempt < 20; attempt++)
        {
            var before = await cellars.ReadAsync(View.Now, cancellation).ConfigureAwait(false);
            var decided = decide(before);
            if (decided.Count == 0)
                return new Change(before, [], before);
            Rules.Check(before, decided);
            if (await cellars.AppendAsync(before.Version, decided, cancellation).ConfigureAwait(false) is AppendResult.Written written)
                return new Change(before, written.Events, await cellars.ReadAsync(View.Now, cancellation).ConfigureAwait(false));
        }

        throw new Refusal("The ledger is busy: others kept writing to it. Nothing of this was written; try again.", RefusalKind.Standing);
    }
}

/// <summary>What a change did.</summary>
/// <param name="Before">The cellar on which it was decided.</param>
/// <param name="Events">The events as written.</param>
/// <param name="After">The cellar with them.</param>
public sealed record Change(Cellar Before, IReadOnlyList<CellarEvent> Events, Cellar After);
