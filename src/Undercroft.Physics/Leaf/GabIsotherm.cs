using System.Numerics;
using System.Runtime.CompilerServices;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Leaf;

/// <summary>The isotherm of Guggenheim, Anderson and de Boer: three constants, closed form both ways.</summary>
/// <param name="Monolayer">X_m, kg/kg on dry basis, above zero.</param>
/// <param name="C">Energy constant of the first layer, above zero.</param>
/// <param name="K">Energy constant of the further layers, above 0 and not above 1.</param>
/// <param name="SorptionHeat">q of the shift by temperature, J/mol.</param>
/// <remarks>
/// <para><b>Equation</b> X = X_m C K a / ((1 − K a)(1 − K a + C K a)). With y = K a and u = X/X_m the inverse is the root in [0, 1) of
/// u (C − 1) y² + (C − u (C − 2)) y − u = 0. dX/da = X_m C K (1 + (C − 1) y²) / ((1 − y)² (1 + (C − 1) y)²).</para>
/// <para><b>Source</b> [VandenBerg1981] for the form; the constants come with each leaf kind.</para>
/// <para><b>Valid</b> 0 ≤ a ≤ 1 for K &lt; 1, where X(1) is the most it can hold; 0 ≤ a &lt; 1 for K = 1.</para>
/// <para><b>Error</b> of constants fitted to the same points as Oswin's: up to 3.2 % of X for flue-cured leaf, 0.7 % for burley; C is not identifiable from them.</para>
/// </remarks>
public sealed record GabIsotherm(double Monolayer, double C, double K, double SorptionHeat) : Isotherm(SorptionHeat)
{
    /// <summary>X_m, kg/kg on dry basis.</summary>
    public double Monolayer { get; init; } = Monolayer is > 0 and < double.PositiveInfinity
        ? Monolayer
        : throw new ArgumentOutOfRangeException(nameof(Monolayer), Monolayer, "The monolayer moisture is above zero and finite.");

    /// <summary>Energy constant of the first layer.</summary>
    public double C { get; init; } = C is > 0 and < double.PositiveInfinity
        ? C
        : throw new ArgumentOutOfRangeException(nameof(C), C, "C of the GAB isotherm is above zero and finite.");

    /// <summary>Energy constant of the further layers.</summary>
    public double K { get; init; } = K is > 0 and <= 1
        ? K
        : throw new ArgumentOutOfRangeException(nameof(K), K, "K of the GAB isotherm is above 0 and not above 1.");

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">Activity not in [0, 1], or 1 where K is 1.</exception>
    public override Moisture MoistureAt(WaterActivity activityAt22C) => new(MoistureOf(Checked(activityAt22C), Monolayer, C, K));

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">Moisture negative, not finite, or above what the isotherm holds at activity 1.</exception>
    public override WaterActivity ActivityAt(Moisture moisture)
    {
        if (moisture.DryBasis is not (>= 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(moisture), moisture.DryBasis, "Moisture on dry basis is not negative and finite.");
        if (K < 1)
        {
            var most = MoistureOf(1, Monolayer, C, K);
            if (moisture.DryBasis <= most)
                return new(Math.Min(1, ActivityOf(moisture.DryBasis, Monolayer, C, K)));
        }
        else
        {
            var activity = ActivityOf(moisture.DryBasis, Monolayer, C, K);
            if (activity < 1)
                return new(activity);
        }

        throw new ArgumentOutOfRangeException(nameof(moisture), moisture.DryBasis, "No activity up to 1 holds so much water on this isotherm.");
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">Activity not in [0, 1], or 1 where K is 1.</exception>
    public override double Slope(WaterActivity activityAt22C) => SlopeOf(Checked(activityAt22C), Monolayer, C, K);

    /// <summary>The bare equation, kg/kg; the caller answers for the range of the activity.</summary>
    public static double MoistureOf(double activity, double monolayer, double c, double k)
    {
        MoistureOf(activity, monolayer, c, k, 1.0, out var above, out var below);
        return above / below;
    }

    /// <summary>The same over any kind of number, as what stands above and below the line of the fraction.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static void MoistureOf<TNumber>(TNumber activity, TNumber monolayer, TNumber c, TNumber k, TNumber one, out TNumber above, out TNumber below)
        where TNumber : IAdditionOperators<TNumber, TNumber, TNumber>, ISubtractionOperators<TNumber, TNumber, TNumber>, IMultiplyOperators<TNumber, TNumber, TNumber>
    {
        var y = k * activity;
        above = monolayer * c * y;
        below = (one - y) * (one + ((c - one) * y));
    }

    /// <summary>The bare inverse; the caller answers for a moisture that is not negative. Above 1 where the isotherm cannot hold so much.</summary>
    public static double ActivityOf(double dryBasis, double monolayer, double c, double k)
    {
        var u = dryBasis / monolayer;
        var square = u * (c - 1);
        var linear = c - (u * (c - 2));
        var root = Math.Sqrt((linear * linear) + (4 * square * u));
        var y = linear >= 0 ? 2 * u / (linear + root) : (root - linear) / (2 * square); // whichever subtracts nothing
        return y / k;
    }

    /// <summary>The bare dX/da, kg/kg; the caller answers for the range of the activity.</summary>
    public static double SlopeOf(double activity, double monolayer, double c, double k)
    {
        SlopeOf(activity, monolayer, c, k, 1.0, out var above, out var below);
        return above / below;
    }

    /// <summary>The same over any kind of number, as what stands above and below the line of the fraction.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static void SlopeOf<TNumber>(TNumber activity, TNumber monolayer, TNumber c, TNumber k, TNumber one, out TNumber above, out TNumber below)
        where TNumber : IAdditionOperators<TNumber, TNumber, TNumber>, ISubtractionOperators<TNumber, TNumber, TNumber>, IMultiplyOperators<TNumber, TNumber, TNumber>
    {
        var y = k * activity;
        below = (one - y) * (one + ((c - one) * y));
        below *= below;
        above = monolayer * c * k * (one + ((c - one) * y * y));
    }

    private double Checked(WaterActivity activity) => activity.Fraction is >= 0 and <= 1 && K * activity.Fraction < 1
        ? activity.Fraction
        : throw new ArgumentOutOfRangeException(
            nameof(activity), activity.Fraction, "The GAB isotherm holds for activities from 0 to 1, and below 1 where K is 1.");
}
