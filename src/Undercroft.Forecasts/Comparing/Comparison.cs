using System.Globalization;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Forecasts.Comparing;

/// <summary>Container kinds side by side for one lot, with the answer in words.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="Reasons">The two strongest.</param>
/// <param name="Next">What to do, by when.</param>
/// <param name="NarrowedBy">The one measurement that would narrow the answer most; null where none would.</param>
/// <param name="Outcomes">In the order asked.</param>
/// <param name="WhyOneNumberMisleads">Three sentences.</param>
/// <param name="Where">The place, in words.</param>
/// <param name="StartsTooMoist">Share of draws too moist for long storage whatever the container.</param>
/// <param name="Practice">Rules of practice that are switched on, and whether physics agrees for this lot.</param>
public sealed record Comparison(
    string Verdict, IReadOnlyList<string> Reasons, NextStep Next, Narrowing? NarrowedBy, IReadOnlyList<KindOutcome> Outcomes, IReadOnlyList<string> WhyOneNumberMisleads, string Where,
    double StartsTooMoist, IReadOnlyList<RuleChecked> Practice)
{
    private const double AsGood = 0.03; // of the draws: less is noise of the ensemble

    /// <summary>Works it out.</summary>
    /// <param name="cellar">Whose places and own kinds.</param>
    /// <param name="question">The lot.</param>
    /// <param name="codes">Container kinds; empty for the usual ones.</param>
    /// <param name="ask">Today, horizon, draws, seed.</param>
    /// <exception cref="Refusal">An unknown code, or numbers that cannot be.</exception>
    public static Comparison Of(Cellar cellar, LotQuestion question, IReadOnlyList<string> codes, ForecastAsk ask)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(codes);
        ArgumentNullException.ThrowIfNull(ask);
        var outcomes = Comparer.Of(cellar, question, codes.Count > 0 ? codes : Comparer.UsualKinds(question.Mass), ask);
        var asked = question.In(outcomes[0].Kind, outcomes[0].Each).ToCellar(ask.Today, cellar);
        var place = PlaceBelief.Of(asked, asked.Here.Single().Place);
        var most = outcomes.Max(outcome => outcome.Forecast.InRange);
        var best = outcomes.Where(outcome => outcome.Forecast.InRange >= most - AsGood).OrderBy(outcome => outcome.Kind.FactorySealed)
            .ThenByDescending(outcome => outcome.Forecast.InRange).ThenBy(outcome => outcome.Litres).First();
        var worst = outcomes.OrderBy(outcome => ReferenceEquals(outcome, best)).ThenBy(outcome => outcome.YearsKept).First();
        var moist = best.Forecast.Stake.MoistNow;
        return new(
            VerdictOf(question, best, worst, ask), ReasonsOf(outcomes, best, worst, place, moist), NextOf(best, ask), best.Forecast.NarrowedBy, outcomes,
            Misleading.Sentences(outcomes, place), place.Name == "there" ? RoomKinds.Find(question.Room ?? "unknown")!.Name : place.Name, moist,
            PracticeCheck.Of(cellar, question, ask));
    }

    private static string VerdictOf(LotQuestion question, KindOutcome best, KindOutcome worst, ForecastAsk ask)
    {
        var lead = $"For {Grams(question.Mass.Grams)} over {Years(ask.Years)}, best: {Many(best)}, {Chance(best, ask)}";
        return ReferenceEquals(best, worst) ? lead + "." : $"{lead}; worst: {worst.Kind.Name}, {Fate(worst, ask)}.";
    }

    private static string Chance(KindOutcome outcome, ForecastAsk ask) =>
        $"above {ask.Limits.DryBelow.ToString("0.#", CultureInfo.InvariantCulture)} % in {OutOf(1 - outcome.Forecast.DryDay.Probability)} draws";

    private static string Fate(KindOutcome outcome, ForecastAsk ask) => outcome.Forecast.DryDay is { P50: { } middle } dry
        ? middle < 1 ? "dry from the start" : $"dry in {TimePhrase.WithRange(dry.P5 ?? 0, middle, dry.P95, Years(ask.Years))}"
        : Chance(outcome, ask);

    private static string[] ReasonsOf(IReadOnlyList<KindOutcome> outcomes, KindOutcome best, KindOutcome worst, PlaceBelief place, double moist)
    {
        List<string> reasons = [];
        if (outcomes.Count > 1 && worst.WaterMgPerGYear.P50 > best.WaterMgPerGYear.P50)
            reasons.Add($"per gram of leaf the {worst.Kind.Name} lets out {Misleading.Number(worst.WaterMgPerGYear.P50 / best.WaterMgPerGYear.P50)} times the water of the {best.Kind.Name}");
        if (moist >= 0.1)
            reasons.Add($"in {OutOf(moist)} draws the leaf starts too moist to store long, whatever holds it");
        reasons.Add(string.Create(CultureInfo.InvariantCulture, $"the place is taken at {place.MeanHumidity:0} ± {place.MeanHumiditySd:0} % humidity, the leaf is in balance with {100 * best.Forecast.Activity.P50[0]:0} %"));
        if (best.Forecast.DryDay.Probability > 0)
            reasons.Add($"what is left for the {best.Kind.Name} is bad closures: {best.Kind.Failure.Evidence.Remark}");
        return [.. reasons.Take(2)];
    }

    private static NextStep NextOf(KindOutcome best, ForecastAsk ask) => best.Kind.FactorySealed
        ? new(ask.Today.AddDays(best.Kind.Habit.FirstAfterDays), $"Leave it as bought. {Sentence(best.Kind.Habit.Check)}.")
        : new(ask.Today.AddDays(14), $"Pack it: {Many(best)}, {Grams(best.Each.Grams)} in each. Look after {best.Kind.Habit.FirstAfterDays} days: {best.Kind.Habit.Check}.");

    private static string Many(KindOutcome outcome) => outcome.Containers == 1 ? outcome.Kind.Name : $"{outcome.Containers.ToString(CultureInfo.InvariantCulture)} × {outcome.Kind.Name}";

    private static string Sentence(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string OutOf(double share) => share >= 0.995 ? "nearly all" : $"{(100 * share).ToString("0", CultureInfo.InvariantCulture)} of 100";


    private static string Grams(double grams) => grams >= 1000 ? (grams / 1000).ToString("0.##", CultureInfo.InvariantCulture) + " kg" : grams.ToString("0.#", CultureInfo.InvariantCulture) + " g";

    private static string Years(double years) => years < 1 ? TimePhrase.Of(years * Grid.DaysPerYear) : years.ToString("0.#", CultureInfo.InvariantCulture) is var said && said == "1" ? "1 year" : said + " years";
}
