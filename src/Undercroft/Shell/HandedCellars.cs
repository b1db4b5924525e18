using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;

namespace Undercroft.Shell;

/// <summary>A cellar as it is handed to one use: what is written says who wrote it, and it is closed afterwards only where it was opened for this use.</summary>
/// <param name="cellars">The way to the ledger.</param>
/// <param name="who">As history shall call the writer; null or a null answer writes no name.</param>
/// <param name="owned">True where closing this closes the ledger.</param>
public sealed class HandedCellars(ICellars cellars, Func<string?>? who = null, bool owned = false) : ICellars, IDisposable
{
    /// <inheritdoc/>
    public ValueTask<Cellar> ReadAsync(View view = default, CancellationToken cancellation = default) => cellars.ReadAsync(view, cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<CellarEvent>> EventsAsync(long after = 0, CancellationToken cancellation = default) => cellars.EventsAsync(after, cancellation);

    /// <inheritdoc/>
    public ValueTask<AppendResult> AppendAsync(long expectedVersion, IReadOnlyList<CellarEvent> events, CancellationToken cancellation = default) =>
        cellars.AppendAsync(expectedVersion, Named(events), cancellation);

    /// <inheritdoc/>
    public ValueTask<AppendResult> AppendAsync(long expectedVersion, ReadingBatch batch, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(batch);
        return cellars.AppendAsync(expectedVersion, batch with { Decide = taken => Named(batch.Decide(taken)) }, cancellation);
    }

    /// <inheritdoc/>
    public IAsyncEnumerable<Reading> ReadingsAsync(ReadingSpan span, CancellationToken cancellation = default) => cellars.ReadingsAsync(span, cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Reading>> AllReadingsAsync(ReadingSpan span, CancellationToken cancellation = default) => cellars.AllReadingsAsync(span, cancellation);

    /// <inheritdoc/>
    public void Dispose()
    {
        if (owned)
            (cellars as IDisposable)?.Dispose();
    }

    private IReadOnlyList<CellarEvent> Named(IReadOnlyList<CellarEvent> events) =>
        who?.Invoke() is { } name ? [.. events.Select(line => line with { Who = line.Who ?? name })] : events;
}

/// <summary>What a server hands to a command that it runs for a caller: its open cellar and its present.</summary>
/// <param name="Cellars">Stays open afterwards.</param>
/// <param name="PresentOf">The present of a cellar, where the call does not say another.</param>
public sealed record Handed(ICellars Cellars, Func<Cellar, Present> PresentOf);
