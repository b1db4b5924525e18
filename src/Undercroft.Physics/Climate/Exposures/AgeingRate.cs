using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate.Exposures;

/// <summary>How fast slow reactions run, relative to 20 °C, by temperature alone.</summary>
/// <remarks>
/// <para><b>Equation</b> r = exp[(E/R)(1/293.15 − 1/T)], its mean over time.</para>
/// <para><b>Source</b> the temperature term of the lifetime multiplier of [Michalski2002], E = 100 kJ/mol for paper and 70 for varnish, read where public code documents it.</para>
/// <para><b>Valid</b> to rank places: which reaction decides in leaf, and its energy, are unknown. Humidity is left out on purpose, since leaf is wanted moist.</para>
/// <para><b>Error</b> between the two energies a place at 30 °C differs by a factor of 1.5.</para>
/// </remarks>
public static class AgeingRate
{
    /// <summary>E of paper, J/mol.</summary>
    public const double Paper = 100_000;

    /// <summary>E of varnish, J/mol.</summary>
    public const double Varnish = 70_000;

    private const double Reference = 293.15;

    /// <summary>Relative to 20 °C at a steady temperature.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A temperature or energy not above zero.</exception>
    public static double At(Temperature temperature, double energy = Paper)
    {
        if (temperature.Kelvin is not (> 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(temperature), temperature.Kelvin, "A temperature lies above absolute zero.");
        return energy is > 0 and < double.PositiveInfinity
            ? Math.Exp(energy / PhysicalConstants.GasConstant * ((1 / Reference) - (1 / temperature.Kelvin)))
            : throw new ArgumentOutOfRangeException(nameof(energy), energy, "An activation energy is above zero.");
    }

    /// <summary>The mean over a log, by trapezoids.</summary>
    public static double Of(LoggedAir air, double energy = Paper)
    {
        ArgumentNullException.ThrowIfNull(air);
        var (sum, hours) = (0.0, 0.0);
        foreach (var span in air.Spans.Where(span => !double.IsNaN(span.Start.Kelvin + span.End.Kelvin)))
        {
            sum += 0.5 * span.Hours * (At(new(span.Start.Kelvin), energy) + At(new(span.End.Kelvin), energy));
            hours += span.Hours;
        }

        return sum / hours;
    }
}
