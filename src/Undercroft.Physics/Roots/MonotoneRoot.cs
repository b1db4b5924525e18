namespace Undercroft.Physics.Roots;

/// <summary>A smooth monotone function with its derivative; a struct, so that a root costs no allocation.</summary>
internal interface ICurve
{
    /// <summary>Value and derivative at <paramref name="x"/>.</summary>
    (double Value, double Slope) At(double x);
}

/// <summary>The root of a monotone function by Newton's method kept inside a bracket: each step that would leave the bracket, or shrink it too slowly, bisects instead.</summary>
internal static class MonotoneRoot
{
    /// <summary>More steps than bisection alone needs for any two doubles of the same sign that are 2^60 apart.</summary>
    private const int StepLimit = 200;

    /// <summary>The root in [<paramref name="low"/>, <paramref name="high"/>].</summary>
    /// <param name="curve">Monotone, with values of opposite sign (or zero) at the two ends.</param>
    /// <param name="low">Lower end.</param>
    /// <param name="high">Upper end.</param>
    /// <param name="relative">Stops when a step is smaller than this times |x|.</param>
    /// <exception cref="InvalidOperationException">The ends do not bracket a root.</exception>
    public static double Find<TCurve>(in TCurve curve, double low, double high, double relative = 1e-13)
        where TCurve : struct, ICurve
    {
        var atLow = curve.At(low).Value;
        var atHigh = curve.At(high).Value;
        if (atLow == 0)
            return low;
        if (atHigh == 0)
            return high;
        if (!(atLow < 0 != atHigh < 0) || double.IsNaN(atLow) || double.IsNaN(atHigh))
            throw new InvalidOperationException("The ends of the interval do not bracket a root.");

        return Between(curve, low, high, atLow < 0, relative);
    }

    /// <summary>The root between two ends that are known to bracket one.</summary>
    /// <param name="curve">Monotone.</param>
    /// <param name="low">Lower end.</param>
    /// <param name="high">Upper end.</param>
    /// <param name="rising">True where the curve rises.</param>
    /// <param name="relative">Stops when a step is smaller than this times |x|.</param>
    public static double Between<TCurve>(in TCurve curve, double low, double high, bool rising, double relative = 1e-13)
        where TCurve : struct, ICurve
    {
        var x = 0.5 * (low + high);
        for (var step = 0; step < StepLimit; step++)
        {
            var (value, slope) = curve.At(x);
            if (value == 0)
                return x;
            if (value < 0 == rising)
                low = x;
            else
                high = x;

            var next = x - (value / slope);
            if (!(next > low && next < high)) // also when the slope is 0 or not a number
                next = 0.5 * (low + high);
            if (Math.Abs(next - x) <= relative * Math.Abs(next))
                return next;
            x = next;
        }

        return x;
    }
}
