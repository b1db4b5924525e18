using Undercroft.Physics.Quantities;
using Undercroft.Physics.Roots;

namespace Undercroft.Physics.Leaf;

/// <summary>A blend of two sorts of leaf that share one air; nest it for more.</summary>
/// <param name="First">One sort.</param>
/// <param name="Second">The other sort.</param>
/// <param name="SecondShare">Dry mass of the second over that of both, 0 to 1.</param>
/// <param name="SorptionHeat">q of the shift by temperature, J/mol, applied once to the mixture.</param>
/// <remarks>
/// <para><b>Equation</b> X(a) = (1 − w) X₁(a) + w X₂(a); inverse by safeguarded Newton between the two sorts' own activities.</para>
/// <para><b>Source</b> the additive rule of food engineering, from memory.</para>
/// <para><b>Valid</b> where both isotherms are.</para>
/// <para><b>Error</b> none beyond that of the parts, once they have come to balance with each other.</para>
/// </remarks>
public sealed record MixtureIsotherm(Isotherm First, Isotherm Second, double SecondShare, double SorptionHeat) : Isotherm(SorptionHeat)
{
    /// <summary>One sort.</summary>
    public Isotherm First { get; init; } = First ?? throw new ArgumentNullException(nameof(First));

    /// <summary>The other sort.</summary>
    public Isotherm Second { get; init; } = Second ?? throw new ArgumentNullException(nameof(Second));

    /// <summary>Dry mass of the second over that of both.</summary>
    public double SecondShare { get; init; } = SecondShare is >= 0 and <= 1
        ? SecondShare
        : throw new ArgumentOutOfRangeException(nameof(SecondShare), SecondShare, "A share lies from 0 to 1.");

    /// <summary>A mixture whose q is the mean of the parts', weighted by dry mass.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Share not in [0, 1].</exception>
    public static MixtureIsotherm Of(Isotherm first, Isotherm second, double secondShare)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        return new(first, second, secondShare, ((1 - secondShare) * first.SorptionHeat) + (secondShare * second.SorptionHeat));
    }

    /// <inheritdoc/>
    public override Moisture MoistureAt(WaterActivity activityAt22C) =>
        new(((1 - SecondShare) * First.MoistureAt(activityAt22C).DryBasis) + (SecondShare * Second.MoistureAt(activityAt22C).DryBasis));

    /// <inheritdoc/>
    public override WaterActivity ActivityAt(Moisture moisture)
    {
        if (SecondShare == 0)
            return First.ActivityAt(moisture);
        if (SecondShare == 1)
            return Second.ActivityAt(moisture);
        var one = First.ActivityAt(moisture).Fraction;
        var other = Second.ActivityAt(moisture).Fraction;
        var (low, high) = (Math.Min(one, other), Math.Max(one, other));
        var curve = new Excess(this, moisture.DryBasis);
        if (low == high || curve.At(low).Value >= 0) // rounding can hide the bracket of two nearly equal sorts
            return new(low);
        return new(curve.At(high).Value <= 0 ? high : MonotoneRoot.Find(curve, low, high));
    }

    /// <inheritdoc/>
    public override double Slope(WaterActivity activityAt22C) =>
        ((1 - SecondShare) * First.Slope(activityAt22C)) + (SecondShare * Second.Slope(activityAt22C));

    private readonly record struct Excess(MixtureIsotherm Mixture, double Target) : ICurve
    {
        public (double Value, double Slope) At(double x) => (Mixture.MoistureAt(new(x)).DryBasis - Target, Mixture.Slope(new(x)));
    }
}
