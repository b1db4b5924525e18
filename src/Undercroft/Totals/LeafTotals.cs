using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Totals;

/// <summary>A span of years; the upper end is null where it never ends.</summary>
/// <param name="FromYears">At least.</param>
/// <param name="ToYears">At most.</param>
public sealed record YearsSpan(double FromYears, double? ToYears);

/// <summary>One leaf kind, or blends of several.</summary>
/// <param name="Leaf">Code of the kind; <c>several</c> for blends of more than one whose shares nobody knows, <c>unknown</c> where nobody said.</param>
/// <param name="Name">In words.</param>
/// <param name="Packages">Packages with it.</param>
/// <param name="LowG">At least, on record.</param>
/// <param name="HighG">At most.</param>
/// <param name="UnknownPackages">Of the packages without any known mass: not in the sum, and not nothing.</param>
/// <param name="Lasts">How long it lasts were it alone used at the pace; null without a pace or a mass.</param>
public sealed record LeafTotal(string Leaf, string Name, int Packages, double LowG, double HighG, int UnknownPackages, YearsSpan? Lasts);

/// <summary>What there is, by leaf, and how long it lasts.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="LowG">Altogether at least.</param>
/// <param name="HighG">Altogether at most.</param>
/// <param name="Packages">All that are here.</param>
/// <param name="UnknownPackages">Without any known mass.</param>
/// <param name="PaceLowGPerWeek">The pace, at least; null where nobody stated one.</param>
/// <param name="PaceHighGPerWeek">At most.</param>
/// <param name="Lasts">How long all of it lasts.</param>
/// <param name="Rows">By leaf, the most first.</param>
public sealed record LeafTotals(
    string Verdict, double LowG, double HighG, int Packages, int UnknownPackages, double? PaceLowGPerWeek, double? PaceHighGPerWeek, YearsSpan? Lasts, IReadOnlyList<LeafTotal> Rows)
{
    private const double WeeksPerYear = 365.2425 / 7;

    /// <summary>Of what is here.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="pace">A week, to try; null takes the pace that was stated last.</param>
    public static LeafTotals Of(Cellar cellar, StatedMass? pace = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var used = pace ?? cellar.Pace?.PerWeek ?? StatedMass.Unknown;
        var total = MassTotal.Of(cellar.Here);
        LeafTotal[] rows =
        [
            .. cellar.Here.SelectMany(package => Parts(cellar, package)).GroupBy(part => part.Leaf)
                .Select(group => new LeafTotal(
                    group.Key, NameOf(group.Key), group.Count(), group.Sum(part => part.Low ?? 0), group.Sum(part => part.High ?? 0), group.Count(part => part.Low is null),
                    Span(group.Sum(part => part.Low ?? 0), group.Sum(part => part.High ?? 0), used)))
                .OrderByDescending(row => row.HighG).ThenBy(row => row.Leaf, StringComparer.Ordinal),
        ];
        var lasts = Span(total.Low.Grams, total.High.Grams, used);
        return new(
            Said(total, lasts, used), total.Low.Grams, total.High.Grams, total.Packages, total.Unknown, used.Low?.Grams, used.High?.Grams, lasts, rows);
    }

    /// <summary>In words: "3.1 to 4 years", "half a year".</summary>
    public static string Words(YearsSpan? span) => span switch
    {
        null => "not known",
        { ToYears: null, FromYears: <= 0 } => "not known: the pace may be nothing",
        { ToYears: null } => $"{Years(span.FromYears)} or more",
        _ when Years(span.FromYears) == Years(span.ToYears.Value) => Years(span.FromYears),
        _ => $"{Number(span.FromYears)} to {Years(span.ToYears.Value)}",
    };

    private static string Years(double years) => $"{Number(years)} {(Number(years) == "1" ? "year" : "years")}";

    private static string Number(double years) => years.ToString(years < 10 ? "0.#" : "0", System.Globalization.CultureInfo.InvariantCulture);

    private static string Said(MassTotal total, YearsSpan? lasts, StatedMass pace)
    {
        if (total.Packages == 0)
            return "Nothing stands here yet.";
        if (total.Unknown == total.Packages)
            return "How much there is, nobody wrote down. A kitchen scale and the tare of one empty jar would tell.";
        var grams = Shell.Web.PackageWords.Range(total.Low, total.High);
        var unknown = total.Unknown == 0 ? "" : $"; of {total.Unknown} of {total.Packages} packages no weight is known, so it is more";
        return lasts is null ? $"{grams} on record{unknown}. State a pace to see how long it lasts." : $"{grams} on record, {Words(lasts)} at {Shell.AmountText.Of(pace)} a week{unknown}.";
    }

    private static YearsSpan? Span(double lowG, double highG, StatedMass pace)
    {
        if (pace is not { Low: { } least, High: { } most } || most.Grams <= 0 || highG <= 0)
            return null;
        return new(lowG / most.Grams / WeeksPerYear, least.Grams > 0 ? highG / least.Grams / WeeksPerYear : null);
    }

    private static IEnumerable<(string Leaf, double? Low, double? High)> Parts(Cellar cellar, Package package)
    {
        var leaf = cellar.BlendOf(package).Leaf;
        var (low, high) = (package.BookNet.Low?.Grams, package.BookNet.High?.Grams);
        if (leaf.Count == 0)
            return [("unknown", low, high)];
        if (leaf.Count == 1)
            return [(leaf[0].Kind, low, high)];
        return leaf.All(share => share.Share.IsKnown)
            ? leaf.Select(share => (share.Kind, low * share.Share.Si.First, high * share.Share.Si.Second))
            : [("several", low, high)];
    }

    private static string NameOf(string leaf) => leaf switch
    {
        "unknown" => "leaf not known",
        "several" => "blends of several leaves, shares not known",
        _ => LeafKinds.Find(leaf)?.Name ?? leaf,
    };
}
