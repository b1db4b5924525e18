using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Forecasts.Comparing;

/// <summary>A rule of practice beside what the model says for one lot and place.</summary>
/// <param name="Rule">Which.</param>
/// <param name="Agrees">True where physics agrees, false where it does not, null where it has no say.</param>
/// <param name="Physics">In a sentence, with the number.</param>
public sealed record RuleChecked(PracticeRule Rule, bool? Agrees, string Physics);

/// <summary>Checks the rules that are switched on.</summary>
public static class PracticeCheck
{
    private const int Draws = 64;
    private const double Matters = 0.1; // of the draws, or a factor of 1.5: less is no reason to do anything (assumption)
    private const double MattersTimes = 1.5;

    /// <summary>Every rule that is on, for a lot over some years.</summary>
    /// <param name="cellar">Whose places and switches.</param>
    /// <param name="question">The lot.</param>
    /// <param name="ask">Today, horizon, seed; draws are few, for rules are coarse.</param>
    public static IReadOnlyList<RuleChecked> Of(Cellar cellar, LotQuestion question, ForecastAsk ask)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(ask);
        var few = ask with { Draws = Draws, WithNarrowing = false, WaterOnly = true };
        return [.. PracticeRules.All.Where(rule => !cellar.RulesOff.Contains(rule.Code)).AsParallel().AsOrdered().Select(rule => Of(rule, cellar, question, few))];
    }

    private static RuleChecked Of(PracticeRule rule, Cellar cellar, LotQuestion question, ForecastAsk ask)
    {
        double Dry(string code, double years) => Comparer.Of(cellar, question, [code], ask with { Years = years })[0].Forecast.DryDay.Probability;
        switch (rule.Code)
        {
            case "loose-to-glass":
                var (bag, jar) = (Dry("bag-bulk", ask.Years), Dry("jar-473", ask.Years));
                return new(rule, bag - jar > Matters, $"over {Years(ask.Years)} {Of100(bag)} draws fall dry in a shop bag, {Of100(jar)} in a jar");
            case "bridge-seams":
                var pair = Comparer.Of(cellar, question, ["tin-slip", "tin-slip-wrapped"], ask);
                var times = pair[1].YearsKept / Math.Max(pair[0].YearsKept, 1e-3);
                return new(rule, times >= MattersTimes, string.Create(CultureInfo.InvariantCulture, $"a wrapped slip-lid tin keeps {Misleading.Number(times)} times as long as a bare one, on average {Misleading.Number(pair[1].YearsKept)} of {ask.Years:0.#} years: a bridge, no armour"));
            case "pouches-under-vacuum":
                var better = SecondPouch();
                return new(rule, better >= MattersTimes, string.Create(CultureInfo.InvariantCulture, $"a sound metallised pouch inside a vacuum pouch still passes {100 / better:0} % of the water that it passes alone; what it guards against is a bad factory seal"));
            case PracticeRules.UnlinedOut:
                var dry = Comparer.Of(cellar, question, ["tin-unlined", "tin-paper"], ask with { Years = PracticeRules.UnlinedYears });
                var most = dry.Max(outcome => outcome.Forecast.DryDay.Probability);
                return new(rule, most > 0.5, $"within {PracticeRules.UnlinedYears.ToString("0", CultureInfo.InvariantCulture)} years {Of100(dry[0].Forecast.DryDay.Probability)} draws fall dry in an unlined wrapped tin, {Of100(dry[1].Forecast.DryDay.Probability)} in a paper-walled one; rust from inside is not in the model");
            case "cased-no-vacuum":
                return new(rule, null, $"water and oxygen do not tell the cuts apart: a vacuum of 50 kPa leaves {(100 * (101.325 - 50) / 101.325).ToString("0", CultureInfo.InvariantCulture)} % of the oxygen, and pressing is a matter of taste");
            case "tint-pointless":
                return new(rule, true, string.Create(CultureInfo.InvariantCulture, $"nothing times any glass is nothing; on a lit shelf clear glass passes {100 * Glass.ClearTransmission:0} % of visible light, amber at most 10 % of the ultraviolet-to-blue"));
            default:
                throw new InvalidOperationException($"Nobody said how to check the rule {rule.Code}.");
        }
    }

    /// <summary>Water conductance of a metallised pouch alone over that of it inside a vacuum pouch: resistances add.</summary>
    private static double SecondPouch()
    {
        var at = new Temperature(Conductance.ReferenceKelvin);
        double Resistance(string code) => 1 / HoldingTime.WaterConductance(ContainerKinds.Find(code)!.Paths, at);
        return (Resistance("pouch-metallised") + Resistance("pouch-vacuum")) / Resistance("pouch-metallised");
    }

    private static string Of100(double share) => (100 * share).ToString("0", CultureInfo.InvariantCulture) + " of 100";

    private static string Years(double years) => years.ToString("0.#", CultureInfo.InvariantCulture) + " years";
}
