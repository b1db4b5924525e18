using Undercroft.Ledger;

namespace Undercroft.Forecasts.Due;

/// <summary>What the list ranks by.</summary>
public enum RankedBy
{
    /// <summary>Grams that can still be saved.</summary>
    Grams,

    /// <summary>Money paid for the grams that can still be saved, where it is known; grams at the mean price otherwise.</summary>
    Money,
}

/// <summary>One package that wants a look.</summary>
/// <param name="Id">On its label.</param>
/// <param name="Blend">Its name, or null.</param>
/// <param name="Place">Path, or null.</param>
/// <param name="Reason">Why now, in a few words.</param>
/// <param name="Check">What to do before the shelf.</param>
/// <param name="BadIf">What counts as bad.</param>
/// <param name="Share">Of the risk removed by this list, 0 to 1.</param>
/// <param name="Rank">1 for the highest stake of all.</param>
/// <param name="DueDay">ISO day; in the past where it is overdue.</param>
/// <param name="DueKnownTo">How finely that day is known: day, month, year or decade.</param>
/// <param name="DueWords">The day in words, never more exact than it is known.</param>
/// <param name="AtRiskG">Grams that may be lost within a year and can still be saved.</param>
/// <param name="AtRiskMoney">The same in the currency it was paid in, or null.</param>
/// <param name="Currency">As written, or null.</param>
/// <param name="Verdict">First line of its forecast.</param>
public sealed record DueItem(
    string Id, string? Blend, string? Place, string Reason, string Check, string BadIf, double Share, int Rank, string DueDay, string DueKnownTo, string DueWords, double AtRiskG, double? AtRiskMoney,
    string? Currency, string Verdict);

/// <summary>The list.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="RankedBy">grams or money.</param>
/// <param name="Items">By place, the place with the highest stake first.</param>
/// <param name="Left">How many more are due than fit into the minutes.</param>
/// <param name="CoveredShare">Of all risk in the cellar that a look can still remove, what this list covers.</param>
/// <param name="Minutes">For how long the list is meant.</param>
public sealed record DueAnswer(string Verdict, string RankedBy, IReadOnlyList<DueItem> Items, int Left, double CoveredShare, double Minutes);

/// <summary>From forecasts to a dated list of what needs a look.</summary>
public static class DueList
{
    /// <summary>Minutes that one look takes: five to ten items in a quarter of an hour (common practice, no source).</summary>
    public const double MinutesPerLook = 1.5;

    /// <summary>So many of the first are told from as many draws as on their own pages.</summary>
    private const int WellDrawn = 20;

    /// <summary>A chance to lose it within a year that puts a package on the list before its habit does (assumption).</summary>
    public const double WorthALook = 0.05;

    /// <summary>The list for so many minutes.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="today">The present.</param>
    /// <param name="minutes">For how long; at least one item is named.</param>
    /// <param name="by">Grams, or money.</param>
    /// <param name="seed">Of the forecasts.</param>
    /// <param name="memory">What is known of packages from before; null works all of it out.</param>
    /// <param name="done">Called once for each package here whose stake is known, by any thread.</param>
    /// <exception cref="Refusal">Minutes not above zero.</exception>
    public static DueAnswer Of(Cellar cellar, DateOnly today, double minutes = 15, RankedBy by = RankedBy.Grams, ulong seed = 1, PackageMemory? memory = null, Action? done = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        if (!(minutes > 0))
            throw new Refusal("A round takes more than no time: give minutes above zero.");
        var ask = new ForecastAsk(today, Years: 2, Draws: 64, Seed: seed) { WithNarrowing = false, WaterOnly = true };
        var candidates = cellar.Here.AsParallel().AsOrdered().Select(Told).Where(candidate => candidate.IsDue).ToArray();
        return Ranked(cellar, ask, candidates, minutes, by, memory);

        Candidate Told(Package package)
        {
            var candidate = Candidate.Of(cellar, package, ask, memory);
            done?.Invoke();
            return candidate;
        }
    }

    private static DueAnswer Ranked(Cellar cellar, ForecastAsk ask, Candidate[] candidates, double minutes, RankedBy by, PackageMemory? memory)
    {
        var price = MeanPrice(cellar);
        var weighed = candidates.Select(candidate => (Candidate: candidate, Stake: by == RankedBy.Grams ? candidate.Grams : candidate.MoneyOr(price)))
            .OrderByDescending(pair => pair.Candidate.Urgency).ThenByDescending(pair => pair.Stake).ThenBy(pair => pair.Candidate.DueOn.On)
            .ThenBy(pair => pair.Candidate.Package.Id.ToString(), StringComparer.Ordinal).ToArray();
        var most = Math.Max(1, (int)(minutes / MinutesPerLook));
        var chosen = weighed.Take(most).ToArray();
        var covered = chosen.Sum(pair => pair.Stake);
        var all = weighed.Sum(pair => pair.Stake);
        var items = chosen.Select((pair, n) => pair.Candidate.ToItem(cellar, n < WellDrawn ? ask with { Draws = ForecastAsk.UsualDraws } : ask, covered > 0 ? pair.Stake / covered : 1.0 / chosen.Length, n + 1, memory)).ToArray();
        DueItem[] bundled =
        [
            .. items.GroupBy(item => item.Place ?? "").OrderBy(group => group.Min(item => item.Rank)).SelectMany(group => group.OrderBy(item => item.Rank)),
        ];
        return new(
            Verdict(bundled, weighed.Length - chosen.Length, cellar.Here.Count()), by == RankedBy.Grams ? "grams" : "money", bundled, weighed.Length - chosen.Length,
            all > 0 ? covered / all : 1, minutes);
    }

    private static string Verdict(DueItem[] items, int left, int packages)
    {
        if (packages == 0)
            return "Nothing stands here yet.";
        if (items.Length == 0)
            return "Nothing needs a look.";
        var overdue = $"{items.Length} {(items.Length == 1 ? "package wants" : "packages want")} a look";
        var (sum, few) = (0.0, 0);
        foreach (var item in items.OrderBy(item => item.Rank))
        {
            (sum, few) = (sum + item.Share, few + 1);
            if (sum >= 0.6)
                break;
        }

        var rest = left > 0 ? $"; {left} more can wait for the next round" : "";
        return items.Length > 3 && few < items.Length ? $"{overdue}{rest}. {(few == 1 ? "The first by rank covers" : $"The first {few} by rank cover")} {100 * sum:0} % of the risk." : $"{overdue}{rest}.";
    }

    /// <summary>Per gram, over all lots with a price and a mass; null where there is none. Lots in different currencies are not mixed: the commonest counts.</summary>
    private static double? MeanPrice(Cellar cellar)
    {
        var priced = cellar.Lots.Values.Where(lot => lot.Paid is not null)
            .Select(lot => (lot.Paid!.Currency, Money: (double)lot.Paid.Mid, Grams: lot.Packages.Sum(id => cellar.Packages[id].Net.Mid?.Grams ?? 0)))
            .Where(lot => lot.Grams > 0).GroupBy(lot => lot.Currency).MaxBy(group => group.Count());
        return priced is null ? null : priced.Sum(lot => lot.Money) / priced.Sum(lot => lot.Grams);
    }
}
