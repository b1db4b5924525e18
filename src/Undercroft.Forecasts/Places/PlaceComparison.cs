using Undercroft.Ledger;
using Undercroft.Ledger.Ids;

namespace Undercroft.Forecasts.Places;

/// <summary>Places side by side, over the same typical year.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="Places">Best for thirty years first.</param>
/// <param name="ForThirtyYears">Which for decades; null where none is good enough for more than this year.</param>
/// <param name="ForThisYear">Which for what is used within the year; null where none is fit for leaf.</param>
/// <param name="Reasons">The two strongest.</param>
/// <param name="Next">What to do, by when.</param>
/// <param name="NarrowedBy">What would narrow the difference most.</param>
/// <param name="AgreeWithin">True where their ranges of mean kinetic temperature overlap so far that the order may be the other way round.</param>
public sealed record PlaceComparison(
    string Verdict, IReadOnlyList<PlaceAnswer> Places, PlaceAnswer? ForThirtyYears, PlaceAnswer? ForThisYear, IReadOnlyList<string> Reasons, NextStep Next, string NarrowedBy, bool AgreeWithin)
{
    private const double Nothing = 0.05; // K: no difference that anything here could show

    /// <summary>Compares.</summary>
    /// <param name="cellar">As read, its logs fetched.</param>
    /// <param name="places">At least two mentions; a place named twice is compared with itself.</param>
    /// <param name="today">The present.</param>
    /// <exception cref="Refusal">Fewer than two.</exception>
    public static PlaceComparison Of(Cellar cellar, IReadOnlyList<PlaceId> places, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(places);
        if (places.Count < 2)
            throw new Refusal("Comparing takes two places or more: name them one after the other.");
        PlaceAnswer[] answers = [.. places.Select(place => PlaceAnswer.Of(cellar, place, today))
            .OrderByDescending(answer => answer.Fitness).ThenBy(answer => Math.Round(answer.MeanKinetic.P50, 2)).ThenBy(answer => answer.Typical.DailySwingK ?? 0).ThenBy(answer => answer.Path, StringComparer.Ordinal)];
        var (best, last) = (answers[0], answers[^1]);
        var thirty = best.Fitness >= Fitness.SomeYears ? best : null;
        var year = answers.LastOrDefault(answer => answer.Fitness >= Fitness.ThisYear);
        var same = Same(best, last);
        var close = !same && best.MeanKinetic.P95 > answers[1].MeanKinetic.P5 && best.Fitness == answers[1].Fitness;
        var widest = answers.MaxBy(answer => answer.NarrowedBy.NowK)!;
        return new(
            FirstLine(best, thirty, year, same, close), answers, thirty, same ? thirty ?? year : year, same ? ["every measure of them is the same", best.Reasons[0]] : Because(best, last), best.Fitness == Fitness.NotForLeaf || same ? best.Next : Move(best, last, today),
            FormattableString.Invariant($"{widest.NarrowedBy.What}, at {widest.Path} (mean from ±{widest.NarrowedBy.NowK:0.0} to about ±{widest.NarrowedBy.AfterK:0.0} K)"), close);
    }

    private static bool Same(PlaceAnswer one, PlaceAnswer other) => one.Typical == other.Typical
        || (Math.Abs(one.MeanKinetic.P50 - other.MeanKinetic.P50) < Nothing && Math.Abs((one.Typical.MeanHumidityPct ?? 0) - (other.Typical.MeanHumidityPct ?? 0)) < 1 && one.Fitness == other.Fitness
            && Math.Abs((one.Typical.DailySwingK ?? 0) - (other.Typical.DailySwingK ?? 0)) < Nothing);

    private static string FirstLine(PlaceAnswer best, PlaceAnswer? thirty, PlaceAnswer? year, bool same, bool close)
    {
        if (same)
            return $"No difference: good enough {PlaceAnswer.Words(best.Fitness)}, one as the other.".Replace("good enough not for leaf", "not for leaf", StringComparison.Ordinal);
        if (year is null)
            return "None of them is a place for leaf.";
        var first = thirty is null ? "None of them is good enough for decades" : $"{thirty.Path} {(thirty.Fitness == Fitness.ThirtyYears ? "for thirty years" : "for the long run, though not ideal")}";
        var second = year.Place.Id == thirty?.Place.Id ? "; leaf for this year may stand there too" : $"; {year.Path} will do for this year";
        return first + second + (close ? ". It is a close call: their ranges overlap." : ".");
    }

    private static IReadOnlyList<string> Because(PlaceAnswer best, PlaceAnswer last)
    {
        var warmth = FormattableString.Invariant(
            $"{best.Path} acts like {best.MeanKinetic.P50:0.#} °C ({best.MeanKinetic.P5:0.#} to {best.MeanKinetic.P95:0.#}), {last.Path} like {last.MeanKinetic.P50:0.#} °C ({last.MeanKinetic.P5:0.#} to {last.MeanKinetic.P95:0.#})");
        return [warmth, last.Fitness < best.Fitness ? $"{last.Path}: {last.Reasons[0]}" : FormattableString.Invariant($"leaf ages {last.Typical.AgeingRate / best.Typical.AgeingRate:0.0} times as fast at {last.Path}")];
    }

    private static NextStep Move(PlaceAnswer best, PlaceAnswer last, DateOnly today) => new(
        today.AddDays(30), last.Fitness == Fitness.NotForLeaf ? $"Clear {last.Path} of leaf, first what is meant to stay for years, and put it to {best.Path}." : $"Put what is meant to stay longest to {best.Path}; leave at {last.Path} what will be opened within the year.");
}
