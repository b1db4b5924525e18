using Undercroft.Forecasts.Places;
using Undercroft.Ledger;

namespace Undercroft.Shell.Web;

/// <summary>What lies before a person while one page is made: the cellar as it stands, and which day it is.</summary>
/// <param name="cellars">The way to the ledger.</param>
/// <param name="presentOf">The present of a cellar: what <c>--today</c> says, else a demo's own day, else the clock.</param>
public sealed class Desk(ICellars cellars, Func<Cellar, Present> presentOf)
{
    private Cellar? read;

    /// <summary>The way to the ledger, for use cases.</summary>
    public ICellars Cellars => cellars;

    /// <summary>The present of a cellar as a use case reads it.</summary>
    public Present Present(Cellar cellar) => presentOf(cellar);

    /// <summary>The cellar, read once for this page.</summary>
    public async ValueTask<Cellar> Cellar(CancellationToken cancellation = default) => read ??= await cellars.LearnAsync(await cellars.ReadAsync(View.Now, cancellation), cancellation);
}
