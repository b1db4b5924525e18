using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>Means over a turn of what flows one way when a swing rides on a steady flow.</summary>
/// <remarks>
/// <para><b>Equation</b> x = F/A: mean of max(0, F + A sin φ) = A/π [√(1 − x²) + x (π/2 + asin x)]; mean of cos φ max(0, F + A cos φ) = A/2π [π/2 + asin x + x √(1 − x²)]; share of the turn in which F + A sin φ is above 0: ½ + asin x/π.</para>
/// <para><b>Source</b> elementary.</para>
/// <para><b>Valid</b> A ≥ 0.</para>
/// <para><b>Error</b> rounding.</para>
/// </remarks>
internal static class Turn<T>
    where T : struct, ILane<T>
{
    /// <summary>The mean of max(0, F + A sin) over a turn.</summary>
    public static T MeanAboveZero(T steady, T amplitude)
    {
        var (nought, size) = (T.Of(0), Size(steady));
        var oneWay = T.Max(nought, steady);
        if (T.AllLess(amplitude, size))
            return oneWay;
        var x = Share(steady, amplitude);
        var both = amplitude * T.Of(1 / Math.PI) * (Root(x) + (x * (T.Of(Math.PI / 2) + LaneArc.Sine(x))));
        return T.WhereLess(size, amplitude, both, oneWay);
    }

    /// <summary>The mean of cos·max(0, F + A cos) over a turn: how much of what flows one way goes with the swing.</summary>
    public static T SwingAboveZero(T steady, T amplitude)
    {
        var size = Size(steady);
        var oneWay = T.WhereLess(T.Of(0), steady, amplitude * T.Of(0.5), T.Of(0));
        if (T.AllLess(amplitude, size))
            return oneWay;
        var x = Share(steady, amplitude);
        var both = amplitude * T.Of(0.5 / Math.PI) * (T.Of(Math.PI / 2) + LaneArc.Sine(x) + (x * Root(x)));
        return T.WhereLess(size, amplitude, both, oneWay);
    }

    /// <summary>The share of a turn in which F + A sin is above zero.</summary>
    public static T ShareAboveZero(T steady, T amplitude)
    {
        var size = Size(steady);
        var oneWay = T.WhereLess(T.Of(0), steady, T.Of(1), T.Of(0));
        return T.AllLess(amplitude, size) ? oneWay : T.WhereLess(size, amplitude, T.Of(0.5) + (T.Of(1 / Math.PI) * LaneArc.Sine(Share(steady, amplitude))), oneWay);
    }

    private static T Size(T value) => T.Max(value, T.Of(0) - value);

    private static T Share(T steady, T amplitude) => T.Max(T.Min(steady / T.Max(amplitude, T.Of(1e-300)), T.Of(1)), T.Of(-1));

    private static T Root(T x) => T.Sqrt((T.Of(1) - x) * (T.Of(1) + x));
}
