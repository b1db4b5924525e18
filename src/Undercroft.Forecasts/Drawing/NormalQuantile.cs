namespace Undercroft.Forecasts.Drawing;

/// <summary>The value below which a standard normal variable falls with a given probability.</summary>
/// <remarks>
/// <para><b>Equation</b> rational approximations of Φ⁻¹(p) on three intervals of |p − 1/2|.</para>
/// <para><b>Source</b> [Wichura1988], algorithm AS 241, routine PPND16; coefficients from memory, checked by integrating the density.</para>
/// <para><b>Valid</b> 0 &lt; p &lt; 1. <b>Error</b> about 1 part in 10¹⁶, as stated by the source.</para>
/// </remarks>
public static class NormalQuantile
{
    private static readonly double[] A =
    [
        2.5090809287301226727e+3, 3.3430575583588128105e+4, 6.7265770927008700853e+4, 4.5921953931549871457e+4,
        1.3731693765509461125e+4, 1.9715909503065514427e+3, 1.3314166789178437745e+2, 3.3871328727963666080e0,
    ];

    private static readonly double[] B =
    [
        5.2264952788528545610e+3, 2.8729085735721942674e+4, 3.9307895800092710610e+4, 2.1213794301586595867e+4,
        5.3941960214247511077e+3, 6.8718700749205790830e+2, 4.2313330701600911252e+1, 1.0,
    ];

    private static readonly double[] C =
    [
        7.74545014278341407640e-4, 2.27238449892691845833e-2, 2.41780725177450611770e-1, 1.27045825245236838258e0,
        3.64784832476320460504e0, 5.76949722146069140550e0, 4.63033784615654529590e0, 1.42343711074968357734e0,
    ];

    private static readonly double[] D =
    [
        1.05075007164441684324e-9, 5.47593808499534494600e-4, 1.51986665636164571966e-2, 1.48103976427480074590e-1,
        6.89767334985100004550e-1, 1.67638483018380384940e0, 2.05319162663775882187e0, 1.0,
    ];

    private static readonly double[] E =
    [
        2.01033439929228813265e-7, 2.71155556874348757815e-5, 1.24266094738807843860e-3, 2.65321895265761230930e-2,
        2.96560571828504891230e-1, 1.78482653991729133580e0, 5.46378491116411436990e0, 6.65790464350110377720e0,
    ];

    private static readonly double[] F =
    [
        2.04426310338993978564e-15, 1.42151175831644588870e-7, 1.84631831751005468180e-5, 7.86869131145613259100e-4,
        1.48753612908506148525e-2, 1.36929880922735805310e-1, 5.99832206555887937690e-1, 1.0,
    ];

    /// <summary>Φ⁻¹(p).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not strictly between 0 and 1.</exception>
    public static double At(double probability)
    {
        if (!(probability > 0 && probability < 1))
            throw new ArgumentOutOfRangeException(nameof(probability), probability, "A probability strictly between 0 and 1 is needed.");
        var q = probability - 0.5;
        if (Math.Abs(q) <= 0.425)
        {
            var central = 0.180625 - (q * q);
            return q * Polynomial(A, central) / Polynomial(B, central);
        }

        var r = Math.Sqrt(-Math.Log(q < 0 ? probability : 1 - probability));
        var tail = r <= 5
            ? Polynomial(C, r - 1.6) / Polynomial(D, r - 1.6)
            : Polynomial(E, r - 5) / Polynomial(F, r - 5);
        return q < 0 ? -tail : tail;
    }

    /// <summary>Coefficients from the highest power down.</summary>
    private static double Polynomial(double[] coefficients, double x)
    {
        var sum = 0.0;
        foreach (var coefficient in coefficients)
            sum = (sum * x) + coefficient;
        return sum;
    }
}
