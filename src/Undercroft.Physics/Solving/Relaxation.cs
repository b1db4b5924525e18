namespace Undercroft.Physics.Solving;

/// <summary>One step of dy/dθ = −(y − r(θ)) with a target r that moves evenly over the step: exact for that, second order for a smooth target, stable for any step.</summary>
/// <param name="Fraction">u = 1 − e^(−z): how far y goes toward a target at rest.</param>
/// <param name="First">u/z.</param>
/// <param name="Second">(1 − u/z)/z.</param>
/// <param name="Clock">z, the step in units of the time constant.</param>
/// <remarks>
/// <para><b>Equation</b> y₁ = y₀ + (r₀ − y₀) u + Δr (1 − u/z); mean over the step y₀ u/z + r₀ (1 − u/z) + Δr (½ − (1 − u/z)/z).</para>
/// <para><b>Source</b> elementary; the variation of constants.</para>
/// <para><b>Valid</b> z ≥ 0.</para>
/// <para><b>Error</b> rounding only, for a target that moves evenly; 1e-12 of Δr at worst.</para>
/// </remarks>
public readonly record struct Relaxation(double Fraction, double First, double Second, double Clock)
{
    /// <summary>The step of length <paramref name="clock"/>.</summary>
    public static Relaxation Over(double clock)
    {
        if (clock < 1e-2)
        {
            var first = 1 - (clock * (0.5 - (clock * ((1.0 / 6) - (clock * ((1.0 / 24) - (clock * ((1.0 / 120) - (clock / 720)))))))));
            var second = 0.5 - (clock * ((1.0 / 6) - (clock * ((1.0 / 24) - (clock * ((1.0 / 120) - (clock * ((1.0 / 720) - (clock / 5040)))))))));
            return new(clock * first, first, second, clock);
        }

        var fraction = 1 - Math.Exp(-clock);
        var ratio = fraction / clock;
        return new(fraction, ratio, (1 - ratio) / clock, clock);
    }

    /// <summary>y at the end.</summary>
    /// <param name="start">y at the beginning.</param>
    /// <param name="target">r at the beginning.</param>
    /// <param name="change">By how much r moves over the step.</param>
    public double End(double start, double target, double change) => start + ((target - start) * Fraction) + (change * Clock * Second);

    /// <summary>The mean of y over the step.</summary>
    public double Mean(double start, double target, double change) =>
        target + ((start - target) * First) + (change * (0.5 - Second));
}
