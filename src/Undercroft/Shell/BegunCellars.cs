using Undercroft.Ledger;
using Undercroft.Ledger.Events;
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
    {
        open ??= SqliteCellars.OpenOrCreate(DataFolder.OrNew(path));
        return await open.AppendAsync(expectedVersion, events, cancellation);
    }

    /// <inheritdoc/>
    public void Dispose() => open?.Dispose();

    private SqliteCellars? Existing()
    {
        if (open is null && File.Exists(Path.Combine(path, "ledger.sqlite")))
            open = SqliteCellars.Open(DataFolder.Existing(path));
        return open;
    }
}
