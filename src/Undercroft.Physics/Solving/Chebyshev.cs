using System.Collections.Concurrent;

namespace Undercroft.Physics.Solving;

/// <summary>The polynomial through values at Chebyshev's points of −1 to 1, and how fast it converges.</summary>
/// <remarks>
/// <para><b>Equation</b> f(x) ≈ Σ c_k T_k(x), c_k = (2 − δ_k0)/n Σ_j f(x_j) cos(k t_j), x_j = −cos t_j, t_j = π(2j + 1)/(2n); told by powers of x, which n up to 32 allows.</para>
/// <para><b>Source</b> elementary.</para>
/// <para><b>Valid</b> x from −1 to 1; smooth f.</para>
/// <para><b>Error</b> about the last coefficients, which <see cref="Fit"/> tells.</para>
/// </remarks>
internal sealed class Chebyshev
{
    private const int Last = 3;
    private static readonly ConcurrentDictionary<int, Chebyshev> Kept = new();

    private readonly double[] coefficients; // by point, then by degree
    private readonly double[] powers; // by degree of T, then by power

    private Chebyshev(int count)
    {
        (Count, Points, coefficients, powers) = (count, new double[count], new double[count * count], new double[count * count]);
        for (var j = 0; j < count; j++)
        {
            var turn = Math.PI * ((2 * j) + 1) / (2 * count);
            Points[j] = -Math.Cos(turn);
            for (var k = 0; k < count; k++)
                coefficients[(j * count) + k] = (k == 0 ? 1.0 : 2.0) / count * Math.Cos(k * (Math.PI - turn));
        }

        (powers[0], powers[count + 1]) = (1, 1);
        for (var k = 2; k < count; k++)
        {
            for (var power = 0; power < count; power++)
                powers[(k * count) + power] = (power > 0 ? 2 * powers[((k - 1) * count) + power - 1] : 0) - powers[((k - 2) * count) + power];
        }
    }

    /// <summary>How many points.</summary>
    public int Count { get; }

    /// <summary>Rising.</summary>
    public double[] Points { get; }

    /// <summary>For a number of points, a multiple of 8.</summary>
    public static Chebyshev Of(int count) => Kept.GetOrAdd(count, made => new(made));

    /// <summary>Finds the polynomial.</summary>
    /// <param name="values">At the points.</param>
    /// <param name="negligible">Coefficients that do not sum up to more than this are left out.</param>
    /// <param name="scratch">As long as the points.</param>
    /// <param name="polynomial">Filled with coefficients of the powers of x, as far as the degree goes.</param>
    /// <param name="last">The largest of the last coefficients: about the error. Not a number where a value is none.</param>
    /// <returns>The degree.</returns>
    public int Fit<T>(double[] values, double negligible, double[] scratch, double[] polynomial, out double last)
        where T : struct, ILane<T>
    {
        for (var k = 0; k < Count; k += T.Count)
        {
            var sum = T.Of(0);
            for (var j = 0; j < Count; j++)
                sum = T.MulAdd(T.At(coefficients, (j * Count) + k), T.Of(values[j]), sum);
            sum.Put(scratch, k);
        }

        last = 0;
        for (var k = Count - Last; k < Count; k++)
            last = double.IsNaN(scratch[k]) ? double.NaN : Math.Max(last, Math.Abs(scratch[k]));
        var (degree, left) = (Count - 1, Math.Abs(scratch[Count - 1]));
        while (degree > 0 && left < negligible)
            left += Math.Abs(scratch[--degree]);
        for (var power = 0; power <= degree; power += T.Count)
        {
            var sum = T.Of(0);
            for (var k = power; k <= degree; k++)
                sum = T.MulAdd(T.At(powers, (k * Count) + power), T.Of(scratch[k]), sum);
            sum.Put(polynomial, power);
        }

        return degree;
    }

    /// <summary>The polynomial at places from −1 to 1.</summary>
    /// <param name="polynomial">Coefficients of the powers.</param>
    /// <param name="degree">How far it goes.</param>
    /// <param name="places">Where.</param>
    /// <param name="from">First of them.</param>
    /// <param name="count">How many; a multiple of 8.</param>
    /// <param name="into">Filled.</param>
    /// <param name="at">From here on.</param>
    public static void At<T>(double[] polynomial, int degree, double[] places, int from, int count, double[] into, int at)
        where T : struct, ILane<T>
    {
        const int Abreast = 4; // each waits for itself
        var done = 0;
        for (; done + (Abreast * T.Count) <= count; done += Abreast * T.Count)
        {
            var place = from + done;
            var (x0, x1, x2, x3) = (T.At(places, place), T.At(places, place + T.Count), T.At(places, place + (2 * T.Count)), T.At(places, place + (3 * T.Count)));
            var y0 = T.Of(polynomial[degree]);
            var (y1, y2, y3) = (y0, y0, y0);
            for (var power = degree - 1; power >= 0; power--)
            {
                var next = T.Of(polynomial[power]);
                y0 = T.MulAdd(y0, x0, next);
                y1 = T.MulAdd(y1, x1, next);
                y2 = T.MulAdd(y2, x2, next);
                y3 = T.MulAdd(y3, x3, next);
            }

            var to = at + done;
            y0.Put(into, to);
            y1.Put(into, to + T.Count);
            y2.Put(into, to + (2 * T.Count));
            y3.Put(into, to + (3 * T.Count));
        }

        for (; done < count; done += T.Count)
        {
            var (x, y) = (T.At(places, from + done), T.Of(polynomial[degree]));
            for (var power = degree - 1; power >= 0; power--)
                y = T.MulAdd(y, x, T.Of(polynomial[power]));
            y.Put(into, at + done);
        }
    }
}
