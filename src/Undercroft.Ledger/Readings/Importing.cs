using Undercroft.Ledger.Events;

namespace Undercroft.Ledger.Readings;

/// <summary>Ways to bring readings in.</summary>
public static class Importing
{
    /// <summary>Reads the cellar, prepares a batch and appends it, and does so again where somebody else wrote in between.</summary>
    /// <param name="cellars">Where.</param>
    /// <param name="prepare">The cellar to a batch, or null where there is nothing to bring in. It may run several times; the readings are taken once, after the version was found unchanged.</param>
    /// <param name="cancellation">Stops, and keeps nothing.</param>
    /// <returns>The cellar before, the events as written (none where nothing was kept), and the cellar after.</returns>
    /// <exception cref="Refusal">The rules refuse the events, or others kept writing.</exception>
    public static async ValueTask<Change> ImportAsync(this ICellars cellars, Func<Cellar, ReadingBatch?> prepare, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(prepare);
        for (var attempt = 0; attempt < 20; attempt++)
        {
            var before = await cellars.ReadAsync(View.Now, cancellation).ConfigureAwait(false);
            if (prepare(before) is not { } batch)
                return new Change(before, [], before);
            IReadOnlyList<CellarEvent> Checked(ReadingsTaken taken)
            {
                var events = batch.Decide(taken);
                Rules.Check(before, events);
                return events;
            }

            if (await cellars.AppendAsync(before.Version, batch with { Decide = Checked }, cancellation).ConfigureAwait(false) is AppendResult.Written written)
                return new Change(before, written.Events, await cellars.ReadAsync(View.Now, cancellation).ConfigureAwait(false));
        }

        throw new Refusal("The ledger is busy: others kept writing to it. Nothing of this was written; try again.");
    }
}
