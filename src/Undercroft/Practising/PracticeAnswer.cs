using Undercroft.Forecasts;
using Undercroft.Forecasts.Comparing;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Practising;

/// <summary>A rule of practice as it stands here.</summary>
/// <param name="Code">Switches it.</param>
/// <param name="Says">The rule.</param>
/// <param name="Reason">Why, as practice has it.</param>
/// <param name="Provenance">Common practice, no source.</param>
/// <param name="Remark">What else is known.</param>
/// <param name="On">It counts.</param>
/// <param name="PhysicsAgrees">Null where physics has no say, or the rule is off.</param>
/// <param name="Physics">In a sentence; null where the rule is off.</param>
public sealed record RuleLine(string Code, string Says, string Reason, string Provenance, string Remark, bool On, bool? PhysicsAgrees, string? Physics);

/// <summary>The rules, and what one of them asks for in this cellar.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="Rules">All of them.</param>
/// <param name="TinsOut">Unlined and paper-walled tins with the day by which they come out.</param>
/// <param name="JarsNeeded">For their leaf.</param>
public sealed record PracticeAnswer(string Verdict, IReadOnlyList<RuleLine> Rules, IReadOnlyList<TinOut> TinsOut, IReadOnlyList<JarsNeeded> JarsNeeded)
{
    private const double Years = 5;

    /// <summary>As they stand.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="today">The present.</param>
    /// <param name="place">Where physics is asked: a place of the cellar or a kind of room; null for a cupboard.</param>
    /// <exception cref="Refusal">An unknown place.</exception>
    public static PracticeAnswer Of(Cellar cellar, DateOnly today, string? place)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var question = LotQuestion.At(cellar, string.IsNullOrWhiteSpace(place) ? "cupboard" : place, Mass.FromGrams(50), null, null, 0.15);
        var physics = PracticeCheck.Of(cellar, question, new ForecastAsk(today, Years)).ToDictionary(found => found.Rule.Code);
        RuleLine[] rules =
        [
            .. PracticeRules.All.Select(rule => physics.TryGetValue(rule.Code, out var found)
                ? new RuleLine(rule.Code, rule.Says, rule.Reason, rule.Evidence.Tag, rule.Evidence.Remark, true, found.Agrees, found.Physics)
                : new RuleLine(rule.Code, rule.Says, rule.Reason, rule.Evidence.Tag, rule.Evidence.Remark, false, null, null)),
        ];
        var tins = UnlinedTins.Of(cellar, today);
        return new(VerdictOf(rules, tins), rules, tins.Tins, tins.Jars);
    }

    /// <summary>Switches a rule.</summary>
    /// <exception cref="Refusal">No such rule, or it stands so already; nothing is written.</exception>
    public static async ValueTask<CellarEvent> Switch(ICellars cellars, string code, bool on, string? note, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(code);
        ArgumentNullException.ThrowIfNull(presentOf);
        var rule = PracticeRules.Find(code) ?? throw new Refusal($"No rule is called '{code}'. Nearest: {string.Join(", ", PracticeRules.Nearest(code))}.");
        var change = await cellars.ChangeAsync(cellar =>
        {
            if (cellar.RulesOff.Contains(rule.Code) != on)
                throw new Refusal($"The rule {rule.Code} is {(on ? "on" : "off")} already.");
            var present = presentOf(cellar);
            CellarEvent[] lines = [CellarEvent.New(new Fact.RuleSwitched(rule.Code, on, string.IsNullOrWhiteSpace(note) ? null : note.Trim()), UnevenDate.On(present.Today), present.Now)];
            Ledger.Rules.Check(cellar, lines);
            return lines;
        });
        return change.Events[^1];
    }

    private static string VerdictOf(RuleLine[] rules, UnlinedTins tins)
    {
        var (agrees, not) = (rules.Count(rule => rule.PhysicsAgrees == true), rules.Count(rule => rule.PhysicsAgrees == false));
        var line = $"{rules.Count(rule => rule.On)} of {rules.Length} rules of practice count here; physics agrees with {agrees}, not with {not}, and has no say in the rest.";
        if (tins.Tins.Count == 0)
            return line;
        var due = tins.Tins.Count(tin => tin.Overdue);
        return $"{line} {tins.Tins.Count} unlined or paper-walled {(tins.Tins.Count == 1 ? "tin stands" : "tins stand")} here{(due > 0 ? $", {due} past five years" : "")}.";
    }
}
