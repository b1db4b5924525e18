using Undercroft.Ledger;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;
using Undercroft.Shell.Logs;

namespace Undercroft.Calculators;

/// <summary>The mean kinetic temperature beside the plain mean.</summary>
/// <param name="MeanKineticTemperatureC">With ΔH/R = 10 000 K.</param>
/// <param name="MeanC">Weighted, or by trapezoids in time.</param>
public sealed record MeanKineticFigures(double MeanKineticTemperatureC, double MeanC);

/// <summary>Mean kinetic temperature of stated spells or of a log.</summary>
public static class MeanKinetic
{
    /// <summary>Of temperatures with weights.</summary>
    /// <exception cref="Refusal">No spell, a weight that is not above zero, or a temperature outside −60 … 100 °C.</exception>
    public static MeanKineticFigures Of(IReadOnlyList<(Temperature Temperature, double Weight)> spells)
    {
        ArgumentNullException.ThrowIfNull(spells);
        Written.AtHome(spells.Select(spell => spell.Temperature));
        var found = Written.Within(() => MeanKineticTemperature.Of(spells));
        return new(found.Celsius, spells.Sum(spell => spell.Weight * spell.Temperature.Celsius) / spells.Sum(spell => spell.Weight));
    }

    /// <summary>Of a log, by trapezoids in time; steps over three usual ones are gaps and left out.</summary>
    /// <exception cref="Refusal">Fewer than two temperatures at different times.</exception>
    internal static MeanKineticFigures Of(Log log)
    {
        var known = 0;
        foreach (var kelvin in log.Kelvin)
            known += double.IsNaN(kelvin) ? 0 : 1;
        if (known == 0)
            throw new Refusal("No answer is given: the log holds no temperature. A log of humidity or light alone cannot be used here.");
        if (known < 2)
            throw new Refusal("No answer is given: the log holds fewer than two temperatures at different times. Give a longer log, or --temperature.");
        var found = LogFigures.Of(log);
        return new(found.MeanKineticTemperatureC!.Value, found.MeanC!.Value);
    }
}
