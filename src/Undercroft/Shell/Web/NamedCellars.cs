using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Shell.Web;

/// <summary>A cellar seen by one visitor: whatever is written says who wrote it.</summary>
/// <param name="cellars">The open cellar.</param>
/// <param name="who">As history shall call them; null writes no name.</param>
public sealed class NamedCellars(ICellars cellars, Func<string?> who) : ICellars
{
    /// <inheritdoc/>
    public ValueTask<Cellar> ReadAsync(View view = default, CancellationToken cancellation = default) => cellars.ReadAsync(view, cancellation);

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<CellarEvent>> EventsAsync(long after = 0, CancellationToken cancellation = default) => cellars.EventsAsync(after, cancellation);

    /// <inheritdoc/>
    public ValueTask<AppendResult> AppendAsync(long expectedVersion, IReadOnlyList<CellarEvent> events, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(events);
        return cellars.AppendAsync(expectedVersion, who() is { } name ? [.. events.Select(line => line with { Who = line.Who ?? name })] : events, cancellation);
    }
}
