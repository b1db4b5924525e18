using System.Collections.Concurrent;
using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Shell.Web;

namespace Undercroft.Keeping.Showing;

/// <summary>How every package of a cellar stands, each told once.</summary>
/// <param name="cellar">As read.</param>
/// <param name="today">The present.</param>
public sealed class ShelfStates(Cellar cellar, DateOnly today)
{
    private readonly ConcurrentDictionary<PackageId, ShelfState> told = new();

    /// <summary>Those of a cellar as it stands, kept until the next line is written.</summary>
    public static ShelfStates In(RecentAnswers recent, Cellar cellar, DateOnly today) => recent.Of(cellar, today, "shelf states", () => new ShelfStates(cellar, today));

    /// <summary>Of a package.</summary>
    public ShelfState Of(Package package) => told.GetOrAdd(package.Id, _ => ShelfState.Of(cellar, package, today));
}
