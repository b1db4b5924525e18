using System.Globalization;
using Undercroft.Forecasts.Due;
using Undercroft.Ledger;
using Undercroft.Shell.Web;

namespace Undercroft.Keeping.Rounds;

/// <summary>One stop of a round.</summary>
/// <param name="Id">Code.</param>
/// <param name="Title">What it is.</param>
/// <param name="Container">In what.</param>
/// <param name="Place">Path.</param>
/// <param name="Reason">Why now; null where it is no more due.</param>
/// <param name="Check">What to do.</param>
/// <param name="BadIf">What counts as bad.</param>
/// <param name="LastG">Its last whole weight, grams.</param>
public sealed record RoundStop(string Id, string Title, string Container, string Place, string? Reason, string? Check, string? BadIf, double? LastG);

/// <summary>A walk along the shelves.</summary>
internal static class RoundWalk
{
    /// <summary>Minutes that can be picked.</summary>
    internal static readonly (string Code, string Word)[] Minutes = [("5", "5 minutes"), ("15", "15 minutes"), ("30", "half an hour"), ("60", "an hour")];

    /// <summary>Minutes as picked; 15 where nobody did.</summary>
    internal static double MinutesOf(string? picked) => Minutes.Any(known => known.Code == picked) ? double.Parse(picked!, CultureInfo.InvariantCulture) : 15;

    /// <summary>The stops of a list, in its order.</summary>
    internal static IReadOnlyList<RoundStop> Stops(Cellar cellar, DueAnswer due) => [.. due.Items.Select(item => Stop(cellar, cellar.FindPackage(item.Id), item))];

    /// <summary>One stop.</summary>
    internal static RoundStop Stop(Cellar cellar, Package package, DueItem? item) => new(
        package.Id.ToString(), PackageWords.Title(cellar, package), PackageWords.Container(cellar, package), PackageWords.Place(cellar, package), item?.Reason, item?.Check, item?.BadIf,
        package.Weighings.LastOrDefault(weighing => !weighing.Fact.Net) is { Fact: { } weighed } ? weighed.Mass.Grams : null);

    /// <summary>Codes as an address carries them.</summary>
    internal static string[] Ids(string? joined) => (joined ?? "").Split('.', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
}
