using System.Runtime.CompilerServices;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;
using Undercroft.Ledger.Sqlite;

namespace Undercroft.Shell;

/// <summary>A cellar that need not exist yet: it reads as empty, and folder and ledger are made when the first lines are written.</summary>
/// <param name="path">Of the data folder.</param>
public sealed class BegunCellars(string path) : ICellars, IDisposable
{
    private SqliteCellars? open;

    /// <inheritdoc/>
    public async ValueTask<Cellar> ReadAsync(View view = default, CancellationToken cancellation = default) =>
        Existing() is { } there ? await there.ReadAsync(view, cancellation) : Cellar.Empty;

    /// <inheritdoc/>
    public async ValueTask<IReadOnlyList<CellarEvent>> EventsAsync(long after = 0, CancellationToken cancellation = default) =>
        Existing() is { } there ? await there.EventsAsync(after, cancellation) : [];

    /// <inheritdoc/>
    /// <exception cref="Refusal">The folder holds other things, or cannot be written.</exception>
    public async ValueTask<AppendResult> AppendAsync(long expectedVersion, IReadOnlyList<CellarEvent> events, CancellationToken cancellation = default)
        => await Begun().AppendAsync(expectedVersion, events, cancellation);

    /// <inheritdoc/>
    /// <exception cref="Refusal">The folder holds other things, or cannot be written.</exception>
    public async ValueTask<AppendResult> AppendAsync(long expectedVersion, ReadingBatch batch, CancellationToken cancellation = default)
        => await Begun().AppendAsync(expectedVersion, batch, cancellation);

    /// <inheritdoc/>
    public async IAsyncEnumerable<Reading> ReadingsAsync(ReadingSpan span, [EnumeratorCancellation] CancellationToken cancellation = default)
    {
        if (Existing() is not { } there)
            yield break;
        await foreach (var reading in there.ReadingsAsync(span, cancellation))
            yield return reading;
    }

    /// <inheritdoc/>
    public async ValueTask<IReadOnlyList<Reading>> AllReadingsAsync(ReadingSpan span, CancellationToken cancellation = default) =>
        Existing() is { } there ? await there.AllReadingsAsync(span, cancellation) : [];

    /// <inheritdoc/>
    public void Dispose() => open?.Dispose();

    private SqliteCellars Begun() => open ??= SqliteCellars.OpenOrCreate(DataFolder.OrNew(path));

    private SqliteCellars? Existing()
    {
        if (open is null && File.Exists(Path.Combine(path, "ledger.sqlite")))
            open = SqliteCellars.Open(DataFolder.Existing(path));
        return open;
    }
}
