using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Leaf;

/// <summary>Oswin's isotherm: two constants, closed form both ways.</summary>
/// <param name="A">Moisture at activity one half, kg/kg on dry basis, above zero.</param>
/// <param name="B">Exponent, above zero.</param>
/// <param name="SorptionHeat">q of the shift by temperature, J/mol.</param>
/// <remarks>
/// <para><b>Equation</b> X = A (a/(1 − a))^B; inverse a = r/(1 + r) with r = (X/A)^(1/B); dX/da = X B/(a (1 − a)).</para>
/// <para><b>Source</b> [Oswin1946] for the form; the constants come with each leaf kind.</para>
/// <para><b>Valid</b> the form for 0 ≤ a &lt; 1; constants for leaf were fitted from activity 0.50 to 0.85 only, see <see cref="LowestFittedActivity"/>.</para>
/// <para><b>Error</b> of the leaf constants: 1–2 points of moisture on wet basis within the fitted range; below it the curve puts flue-cured leaf above burley, which measurements contradict.</para>
/// </remarks>
public sealed record OswinIsotherm(double A, double B, double SorptionHeat) : Isotherm(SorptionHeat)
{
    /// <summary>The lowest activity at which constants for leaf were fitted; below, the curve is an extrapolation.</summary>
    public const double LowestFittedActivity = 0.50;

    /// <summary>The highest activity at which constants for leaf were fitted.</summary>
    public const double HighestFittedActivity = 0.85;

    /// <summary>Moisture at activity one half, kg/kg on dry basis.</summary>
    public double A { get; init; } = A is > 0 and < double.PositiveInfinity
        ? A
        : throw new ArgumentOutOfRangeException(nameof(A), A, "A of Oswin's isotherm is above zero and finite.");

    /// <summary>Exponent.</summary>
    public double B { get; init; } = B is > 0 and < double.PositiveInfinity
        ? B
        : throw new ArgumentOutOfRangeException(nameof(B), B, "B of Oswin's isotherm is above zero and finite.");

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">Activity not in [0, 1).</exception>
    public override Moisture MoistureAt(WaterActivity activityAt22C) => new(MoistureOf(Checked(activityAt22C), A, B));

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">Moisture negative, not finite, or so high that the activity rounds to 1.</exception>
    public override WaterActivity ActivityAt(Moisture moisture)
    {
        if (moisture.DryBasis is not (>= 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(moisture), moisture.DryBasis, "Moisture on dry basis is not negative and finite.");
        var activity = ActivityOf(moisture.DryBasis, A, B);
        return activity < 1
            ? new(activity)
            : throw new ArgumentOutOfRangeException(nameof(moisture), moisture.DryBasis, "No activity below 1 holds so much water on this isotherm.");
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">Activity not in (0, 1).</exception>
    public override double Slope(WaterActivity activityAt22C) => activityAt22C.Fraction is > 0 and < 1
        ? SlopeOf(activityAt22C.Fraction, A, B)
        : throw new ArgumentOutOfRangeException(nameof(activityAt22C), activityAt22C.Fraction, "The slope is known for activities above 0 and below 1.");

    /// <summary>The bare equation, kg/kg; the caller answers for 0 ≤ a &lt; 1.</summary>
    public static double MoistureOf(double activity, double a, double b) => a * Math.Pow(activity / (1 - activity), b);

    /// <summary>The bare inverse; the caller answers for a moisture that is not negative.</summary>
    public static double ActivityOf(double dryBasis, double a, double b)
    {
        var ratio = Math.Pow(dryBasis / a, 1 / b);
        return ratio < 1 ? ratio / (1 + ratio) : 1 / (1 + (1 / ratio));
    }

    /// <summary>The bare dX/da, kg/kg; the caller answers for 0 &lt; a &lt; 1.</summary>
    public static double SlopeOf(double activity, double a, double b) => MoistureOf(activity, a, b) * b / (activity * (1 - activity));

    private static double Checked(WaterActivity activity) => activity.Fraction is >= 0 and < 1
        ? activity.Fraction
        : throw new ArgumentOutOfRangeException(nameof(activity), activity.Fraction, "Oswin's isotherm holds for activities from 0 up to, but not including, 1.");
}
