using Undercroft.Ledger;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;

namespace Undercroft.Calculators;

/// <summary>The mean kinetic temperature beside the plain mean.</summary>
/// <param name="MeanKineticTemperatureC">With ΔH/R = 10 000 K.</param>
/// <param name="MeanC">Weighted, or by trapezoids in time.</param>
public sealed record MeanKineticFigures(double MeanKineticTemperatureC, double MeanC);

/// <summary>Mean kinetic temperature of stated spells or of a log.</summary>
public static class MeanKinetic
{
    /// <summary>A gap is a step longer than this many usual steps; it is left out.</summary>
    public const double LongestStep = 3;

    /// <summary>Of temperatures with weights.</summary>
    /// <exception cref="Refusal">No spell, or a weight that is not above zero.</exception>
    public static MeanKineticFigures Of(IReadOnlyList<(Temperature Temperature, double Weight)> spells)
    {
        ArgumentNullException.ThrowIfNull(spells);
        var found = Written.Within(() => MeanKineticTemperature.Of(spells));
        return new(found.Celsius, spells.Sum(spell => spell.Weight * spell.Temperature.Celsius) / spells.Sum(spell => spell.Weight));
    }

    /// <summary>Of a log, by trapezoids in time; steps over three usual ones are gaps and left out.</summary>
    /// <returns>The figures and how many gaps were left out.</returns>
    /// <exception cref="Refusal">Fewer than two readings at different times.</exception>
    internal static (MeanKineticFigures Figures, int Gaps) Of(IReadOnlyList<LoggedTemperature> readings)
    {
        if (readings.Count < 2)
            throw new Refusal("No answer is given: the log holds fewer than two temperatures at different times. Give a longer log, or --temperature.");
        var steps = readings.Zip(readings.Skip(1), (earlier, later) => (Hours: (later.At - earlier.At).TotalHours, Start: earlier.Celsius, End: later.Celsius)).ToList();
        var usual = steps.Select(step => step.Hours).Order().ElementAt((steps.Count - 1) / 2);
        var kept = steps.Where(step => step.Hours <= LongestStep * usual * (1 + 1e-9)).ToList();
        var hours = kept.Sum(step => step.Hours);
        var found = Written.Within(() => MeanKineticTemperature.OfSpans(
            kept.Select(step => (step.Hours, Temperature.FromCelsius(step.Start), Temperature.FromCelsius(step.End)))));
        return (new(found.Celsius, kept.Sum(step => step.Hours * 0.5 * (step.Start + step.End)) / hours), steps.Count - kept.Count);
    }
}
