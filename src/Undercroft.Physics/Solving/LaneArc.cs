using System.Runtime.CompilerServices;

namespace Undercroft.Physics.Solving;

/// <summary>The arc sine over lanes.</summary>
/// <remarks>
/// <para><b>Equation</b> for |x| ≤ ½ x + x³ Σ c_i x^2i, the series of the arc sine economised; beyond, π/2 − 2 asin √((1 − |x|)/2) with the sign of x.</para>
/// <para><b>Source</b> elementary; the rational coefficients are those of the usual free library of elementary functions, from memory, and held against the base library in the tests.</para>
/// <para><b>Valid</b> −1 to 1; beyond, the ends.</para>
/// <para><b>Error</b> 4e-16, measured in the tests.</para>
/// </remarks>
internal static class LaneArc
{
    private const double P0 = 1.66666666666666657415e-01, P1 = -3.25565818622400915405e-01, P2 = 2.01212532134862925881e-01, P3 = -4.00555345006794114027e-02;
    private const double P4 = 7.91534994289814532176e-04, P5 = 3.47933107596021167570e-05;
    private const double Q1 = -2.40339491173441421878, Q2 = 2.02094576023350569471, Q3 = -6.88283971605453293030e-01, Q4 = 7.70381505559019352791e-02;

    /// <summary>asin x.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Sine<T>(T x)
        where T : struct, ILane<T>
    {
        var (one, half) = (T.Of(1), T.Of(0.5));
        var size = T.Min(T.Max(x, T.Of(0) - x), one);
        var far = (one - size) * half;
        var root = T.Sqrt(far);
        var square = T.WhereLess(half, size, far, size * size);
        var from = T.WhereLess(half, size, root, size);
        var above = T.MulAdd(square, T.MulAdd(square, T.MulAdd(square, T.MulAdd(square, T.MulAdd(square, T.Of(P5), T.Of(P4)), T.Of(P3)), T.Of(P2)), T.Of(P1)), T.Of(P0));
        var below = T.MulAdd(square, T.MulAdd(square, T.MulAdd(square, T.MulAdd(square, T.Of(Q4), T.Of(Q3)), T.Of(Q2)), T.Of(Q1)), one);
        var near = T.MulAdd(from, square * above / below, from);
        var arc = T.WhereLess(half, size, T.Of(Math.PI / 2) - (near + near), near);
        return T.WhereLess(x, T.Of(0), T.Of(0) - arc, arc);
    }
}
