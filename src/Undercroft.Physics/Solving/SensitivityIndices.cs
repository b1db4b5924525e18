namespace Undercroft.Physics.Solving;

/// <summary>How much of an answer's variance each uncertain input carries: by itself, and with all that it does together with others.</summary>
/// <remarks>
/// <para><b>Equation</b> with samples A and B and A_B(i), which is A but for input i taken from B: S_i = 1 − Σ (f(B) − f(A_B(i)))²/(2 N V),
/// S_T,i = Σ (f(A) − f(A_B(i)))²/(2 N V), V the variance of f over A and B.</para>
/// <para><b>Source</b> [Jansen1999], [Saltelli2010]; from memory, checked against the Ishigami function.</para>
/// <para><b>Valid</b> independent inputs; samples in which the answer is not a number are left out with their partners.</para>
/// <para><b>Error</b> of sampling, about 1/√N of the whole for each index: ± 0.02 at N = 2048.</para>
/// </remarks>
public static class SensitivityIndices
{
    /// <summary>The indices of each input.</summary>
    /// <param name="first">f(A).</param>
    /// <param name="second">f(B).</param>
    /// <param name="mixed">f(A_B(i)), input by input.</param>
    /// <returns>First-order and total index of each input; zeros where the answer does not vary.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Samples of different sizes, or fewer than two.</exception>
    public static (double First, double Total)[] Of(double[] first, double[] second, IReadOnlyList<double[]> mixed)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        ArgumentNullException.ThrowIfNull(mixed);
        if (first.Length < 2 || second.Length != first.Length || mixed.Any(sample => sample.Length != first.Length))
            throw new ArgumentOutOfRangeException(nameof(mixed), "Samples are of one size, at least two.");
        double[] all = [.. first.Concat(second).Where(value => !double.IsNaN(value))];
        var mean = all.Length > 0 ? all.Average() : 0;
        var variance = all.Length > 0 ? all.Sum(value => (value - mean) * (value - mean)) / all.Length : 0;
        return [.. mixed.Select(sample => variance > 0 ? (1 - (Distance(second, sample) / variance), Distance(first, sample) / variance) : (0, 0))];
    }

    /// <summary>The indices of a function of numbers between 0 and 1.</summary>
    /// <param name="inputs">How many numbers.</param>
    /// <param name="samples">N; at least 2048 for what a person is told.</param>
    /// <param name="seed">The same seed gives the same indices.</param>
    /// <param name="answer">The function.</param>
    public static (double First, double Total)[] Of(int inputs, int samples, ulong seed, Func<ReadOnlySpan<double>, double> answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        if (inputs < 1 || samples < 2)
            throw new ArgumentOutOfRangeException(nameof(samples), samples, "At least one input and two samples.");
        var state = seed;
        double[][] columns = [.. Enumerable.Range(0, 2 * inputs).Select(_ => Slices(samples, ref state))];
        var point = new double[inputs];
        double[] Of(Func<int, int> columnOf)
        {
            var values = new double[samples];
            for (var n = 0; n < samples; n++)
            {
                for (var i = 0; i < inputs; i++)
                    point[i] = columns[columnOf(i)][n];
                values[n] = answer(point);
            }

            return values;
        }

        var (first, second) = (Of(i => i), Of(i => inputs + i));
        return SensitivityIndices.Of(first, second, [.. Enumerable.Range(0, inputs).Select(swapped => Of(i => i == swapped ? inputs + i : i))]);
    }

    private static double Distance(double[] one, double[] other)
    {
        var (sum, count) = (0.0, 0);
        for (var n = 0; n < one.Length; n++)
        {
            var apart = one[n] - other[n];
            if (!double.IsNaN(apart))
                (sum, count) = (sum + (apart * apart), count + 1);
        }

        return count > 0 ? sum / (2 * count) : 0;
    }

    /// <summary>One value in each of as many slices of the unit interval, shuffled.</summary>
    private static double[] Slices(int count, ref ulong state)
    {
        var values = new double[count];
        for (var i = 0; i < count; i++)
            values[i] = (i + ((Next(ref state) >> 11) * (1.0 / (1UL << 53)))) / count;
        for (var i = count - 1; i > 0; i--)
        {
            var j = (int)(Next(ref state) % (ulong)(i + 1));
            (values[i], values[j]) = (values[j], values[i]);
        }

        return values;
    }

    /// <summary>SplitMix64.</summary>
    private static ulong Next(ref ulong state)
    {
        var z = state += 0x9E3779B97F4A7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
