using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;

namespace Undercroft.Api;

/// <summary>A cellar behind glass: what an address that only reads is given, whatever its command could do with another.</summary>
/// <param name="cellars">What is read.</param>
internal sealed class ReadCellars(ICellars cellars) : ICellars
{
    public ValueTask<Cellar> ReadAsync(View view = default, CancellationToken cancellation = default) => cellars.ReadAsync(view, cancellation);

    public ValueTask<IReadOnlyList<CellarEvent>> EventsAsync(long after = 0, CancellationToken cancellation = default) => cellars.EventsAsync(after, cancellation);

    public ValueTask<AppendResult> AppendAsync(long expectedVersion, IReadOnlyList<CellarEvent> events, CancellationToken cancellation = default) => throw Glass();

    public ValueTask<AppendResult> AppendAsync(long expectedVersion, ReadingBatch batch, CancellationToken cancellation = default) => throw Glass();

    public IAsyncEnumerable<Reading> ReadingsAsync(ReadingSpan span, CancellationToken cancellation = default) => cellars.ReadingsAsync(span, cancellation);

    public ValueTask<IReadOnlyList<Reading>> AllReadingsAsync(ReadingSpan span, CancellationToken cancellation = default) => cellars.AllReadingsAsync(span, cancellation);

    private static Refusal Glass() => new("GET only reads, and this would write: nothing was done. Send it by POST.", RefusalKind.Closed);
}
