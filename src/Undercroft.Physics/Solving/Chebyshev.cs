using System.Collections.Concurrent;
using System.Runtime.CompilerServices;

namespace Undercroft.Physics.Solving;

/// <summary>The polynomial through values at Chebyshev's points of −1 to 1, and how fast it converges.</summary>
/// <remarks>
/// <para><b>Equation</b> f(x) ≈ Σ w_j(x) f(x_j), x_j = −cos t_j, t_j = π(2j + 1)/(2n), w_j(x) = (b_j/(x − x_j))/Σ_k (b_k/(x − x_k)), b_j = (−1)^j sin t_j; by T_k its
/// coefficients are c_k = 2/n Σ_j f(x_j) cos(k t_j).</para>
/// <para><b>Source</b> elementary; Lagrange's polynomial in its barycentric form.</para>
/// <para><b>Valid</b> x from −1 to 1; smooth f.</para>
/// <para><b>Error</b> about the last coefficients, which <see cref="LastOf"/> tells. The weights of a place sum up to 1, and their sizes to less than 4: single precision loses nothing by them.</para>
/// </remarks>
internal sealed class Chebyshev
{
    private const int Last = 3;
    private const float Hit = 1e-20f; // as near to a point as if upon it
    private static readonly ConcurrentDictionary<int, Chebyshev> Kept = new();

    private readonly double[] shares;
    private readonly double[] last; // coefficient by coefficient, the shares of the points

    private Chebyshev(int count)
    {
        (Count, Points, shares, last) = (count, new double[count], new double[count], new double[Last * count]);
        for (var j = 0; j < count; j++)
        {
            var turn = Math.PI * ((2 * j) + 1) / (2 * count);
            (Points[j], shares[j]) = (-Math.Cos(turn), (j % 2 == 0 ? 1 : -1) * Math.Sin(turn));
            for (var k = 0; k < Last; k++)
                last[(k * count) + j] = 2.0 / count * Math.Cos((count - Last + k) * (Math.PI - turn));
        }
    }

    /// <summary>How many points.</summary>
    public int Count { get; }

    /// <summary>Rising.</summary>
    public double[] Points { get; }

    /// <summary>For a number of points.</summary>
    public static Chebyshev Of(int count) => Kept.GetOrAdd(count, made => new(made));

    /// <summary>The largest of the last coefficients: about the error. Not a number where a value is none.</summary>
    /// <param name="values">At the points, less any number.</param>
    public double LastOf(ReadOnlySpan<float> values)
    {
        var largest = 0.0;
        for (var k = 0; k < Last; k++)
        {
            var sum = 0.0;
            for (var j = 0; j < Count; j++)
                sum += last[(k * Count) + j] * values[j];
            largest = double.IsNaN(sum) ? double.NaN : Math.Max(largest, Math.Abs(sum));
        }

        return largest;
    }

    /// <summary>The weights of places from −1 to 1: point by point, for each of the places.</summary>
    /// <param name="places">As many as fill whole vectors.</param>
    public float[] Weights<T>(double[] places)
        where T : struct, ISingleLane<T>
    {
        var weights = new float[Count * places.Length];
        for (var place = 0; place < places.Length; place += T.Count)
        {
            var (x, sum) = (T.At(places, place), T.Of(0f));
            for (var j = 0; j < Count; j++)
            {
                var apart = x - T.Of(Points[j]);
                apart = T.WhereLess(T.Max(apart, T.Of(0f) - apart), T.Of(Hit), T.Of(Hit), apart);
                var each = T.Of(shares[j]) / apart;
                each.Put(weights, (j * places.Length) + place);
                sum += each;
            }

            var share = T.Of(1f) / sum;
            for (var j = 0; j < Count; j++)
                (share * T.At(weights, (j * places.Length) + place)).Put(weights, (j * places.Length) + place);
        }

        return weights;
    }

    /// <summary>The polynomial at some of the places of which weights were made.</summary>
    /// <param name="weights">Of all the places.</param>
    /// <param name="places">How many those are.</param>
    /// <param name="values">At the points, less a number.</param>
    /// <param name="middle">That number.</param>
    /// <param name="place">From here on.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T At<T>(float[] weights, int places, ReadOnlySpan<float> values, T middle, int place)
        where T : struct, ISingleLane<T>
    {
        for (var j = 0; j < values.Length; j++)
        {
            middle = T.MulAdd(T.At(weights, place), T.Of(values[j]), middle);
            place += places;
        }

        return middle;
    }
}
