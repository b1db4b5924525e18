using System.Runtime.CompilerServices;

namespace Undercroft.Physics.Solving;

/// <summary>One step of dy/dθ = −(y − r(θ)) with a target r that moves evenly over the step: exact for that, second order for a smooth target, stable for any step.</summary>
/// <param name="Fraction">u = 1 − e^(−z): how far y goes toward a target at rest.</param>
/// <param name="First">u/z.</param>
/// <param name="Rest">1 − u/z.</param>
/// <param name="Second">(1 − u/z)/z.</param>
/// <remarks>
/// <para><b>Equation</b> y₁ = y₀ + (r₀ − y₀) u + Δr (1 − u/z); mean over the step r₀ + (y₀ − r₀) u/z + Δr (½ − (1 − u/z)/z); z the step in units of the time constant.</para>
/// <para><b>Source</b> elementary; the variation of constants.</para>
/// <para><b>Valid</b> z ≥ 0.</para>
/// <para><b>Error</b> rounding only, for a target that moves evenly; 1e-12 of Δr at worst.</para>
/// </remarks>
internal readonly record struct Relaxation<T>(T Fraction, T First, T Rest, T Second)
    where T : struct, ILane<T>
{
    /// <summary>The step of length <paramref name="z"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Relaxation<T> Over(T z)
    {
        var fraction = T.Of(1) - LaneExp.Of(T.Of(0) - z);
        var first = fraction / z;
        var rest = T.Of(1) - first;
        var second = rest / z;
        var small = T.Of(1e-2);
        var firstSeries = T.Of(1) - (z * (T.Of(0.5) - (z * (T.Of(1.0 / 6) - (z * (T.Of(1.0 / 24) - (z * (T.Of(1.0 / 120) - (z * T.Of(1.0 / 720))))))))));
        var secondSeries = T.Of(0.5)
            - (z * (T.Of(1.0 / 6) - (z * (T.Of(1.0 / 24) - (z * (T.Of(1.0 / 120) - (z * (T.Of(1.0 / 720) - (z * T.Of(1.0 / 5040))))))))));
        return new(
            T.WhereLess(z, small, z * firstSeries, fraction),
            T.WhereLess(z, small, firstSeries, first),
            T.WhereLess(z, small, z * secondSeries, rest),
            T.WhereLess(z, small, secondSeries, second));
    }

    /// <summary>y at the end.</summary>
    /// <param name="start">y at the beginning.</param>
    /// <param name="target">r at the beginning.</param>
    /// <param name="change">By how much r moves over the step.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T End(T start, T target, T change) => start + ((target - start) * Fraction) + (change * Rest);

    /// <summary>The mean of y over the step.</summary>
    /// <param name="start">y at the beginning.</param>
    /// <param name="target">r at the beginning.</param>
    /// <param name="change">By how much r moves over the step.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Mean(T start, T target, T change) => target + ((start - target) * First) + (change * (T.Of(0.5) - Second));
}
