using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate;

/// <summary>The steady temperature at which a reaction would run as far as it did in a changing one.</summary>
/// <remarks>
/// <para><b>Equation</b> T_k = θ/−ln(Σ wᵢ exp(−θ/Tᵢ)/Σ wᵢ), θ = ΔH/R.</para>
/// <para><b>Source</b> [UspMkt], after [Haynes1971] (from memory): ΔH = 83.144 kJ/mol and R = 8.3144 J/(mol·K), so θ = 10 000 K. For unevenly spaced readings
/// exp(−θ/T) is integrated by trapezoids in time.</para>
/// <para><b>Valid</b> one reaction of that activation energy, nothing freezing; 60 to 100 kJ/mol is the usual range for medicines.</para>
/// <para><b>Error</b> for tobacco the energy is an assumption: use it to rank places, not to promise a date.</para>
/// </remarks>
public static class MeanKineticTemperature
{
    /// <summary>ΔH/R of the source, K.</summary>
    public const double UsualActivationTemperature = 10000;

    /// <summary>Of temperatures with weights: hours, days or counts.</summary>
    /// <param name="spells">At least one; weights not negative, their sum above zero.</param>
    /// <param name="activationTemperature">ΔH/R, K.</param>
    /// <exception cref="ArgumentOutOfRangeException">A temperature not above absolute zero, a negative weight, no weight at all, or an activation temperature not above zero.</exception>
    public static Temperature Of(IEnumerable<(Temperature Temperature, double Weight)> spells, double activationTemperature = UsualActivationTemperature)
    {
        ArgumentNullException.ThrowIfNull(spells);
        CheckActivation(activationTemperature);
        var list = spells.ToList();
        foreach (var (temperature, weight) in list)
        {
            CheckTemperature(temperature);
            if (weight is not (>= 0 and < double.PositiveInfinity))
                throw new ArgumentOutOfRangeException(nameof(spells), weight, "A weight is not negative.");
        }

        var total = list.Sum(spell => spell.Weight);
        if (!(total > 0))
            throw new ArgumentOutOfRangeException(nameof(spells), total, "The weights sum to more than zero.");
        var warmest = list.Where(spell => spell.Weight > 0).Max(spell => spell.Temperature.Kelvin);
        var mean = list.Sum(spell => spell.Weight * Relative(spell.Temperature.Kelvin, warmest, activationTemperature)) / total;
        return FromMean(mean, warmest, activationTemperature);
    }

    /// <summary>Of readings over time, by trapezoids; stretches that are left out separate them into spans.</summary>
    /// <param name="spans">Each with its duration and the temperatures at its two ends.</param>
    /// <param name="activationTemperature">ΔH/R, K.</param>
    /// <exception cref="ArgumentOutOfRangeException">As <see cref="Of"/>.</exception>
    public static Temperature OfSpans(IEnumerable<(double Duration, Temperature Start, Temperature End)> spans, double activationTemperature = UsualActivationTemperature)
    {
        ArgumentNullException.ThrowIfNull(spans);
        return Of(spans.SelectMany(span => new[] { (span.Start, 0.5 * span.Duration), (span.End, 0.5 * span.Duration) }), activationTemperature);
    }

    /// <summary>exp(−θ/T) relative to that of the warmest, so that nothing underflows.</summary>
    private static double Relative(double kelvin, double warmest, double activation) => Math.Exp(activation * ((1 / warmest) - (1 / kelvin)));

    private static Temperature FromMean(double mean, double warmest, double activation) => new(activation / ((activation / warmest) - Math.Log(mean)));

    private static void CheckTemperature(Temperature temperature)
    {
        if (temperature.Kelvin is not (> 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(temperature), temperature.Kelvin, "A temperature lies above absolute zero.");
    }

    private static void CheckActivation(double activationTemperature)
    {
        if (activationTemperature is not (> 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(activationTemperature), activationTemperature, "ΔH/R is above zero.");
    }
}
