using System.Runtime.CompilerServices;

namespace Undercroft.Physics.Solving;

/// <summary>The natural logarithm over lanes of single precision.</summary>
/// <remarks>
/// <para><b>Equation</b> ln x = k ln 2 + 2 Σ s^(2i + 1)/(2i + 1) to i = 4, with x = 2^k m, m between √½ and √2, and s = (m − 1)/(m + 1).</para>
/// <para><b>Source</b> elementary.</para>
/// <para><b>Valid</b> positive numbers that are not subnormal.</para>
/// <para><b>Error</b> 2 ulp, or 1e-7 where the logarithm itself is below one, measured in the tests.</para>
/// </remarks>
internal static class LaneLog
{
    /// <summary>√½ as it is kept.</summary>
    public const int HalfRootBits = 0x3F3504F3;

    /// <summary>ln x.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T Of<T>(T x)
        where T : struct, ISingleLane<T>
    {
        var k = T.Exponent(x, out var m);
        var s = (m - T.Of(1f)) / (m + T.Of(1f));
        var s2 = s * s;
        var sum = T.MulAdd(s2, T.MulAdd(s2, T.MulAdd(s2, T.Of(2.0 / 9), T.Of(2.0 / 7)), T.Of(2.0 / 5)), T.Of(2.0 / 3));
        return T.MulAdd(k, T.Of(0.693147180559945309), T.MulAdd(s * s2, sum, s + s));
    }
}
