namespace Undercroft.Physics.Solving;

/// <summary>Exact quantiles by selection.</summary>
/// <remarks>
/// <para><b>Equation</b> with the values in rising order x₀ … x₍n₋₁₎ and h = (n − 1) p: x_⌊h⌋ + (h − ⌊h⌋)(x_⌊h⌋₊₁ − x_⌊h⌋).</para>
/// <para><b>Source</b> [HyndmanFan1996], definition 7.</para>
/// <para><b>Valid</b> at least one value; not-a-numbers are left out.</para>
/// <para><b>Error</b> none but that of the sample.</para>
/// </remarks>
public static class Quantile
{
    /// <summary>Quantiles of values that may be reordered; NaN where no value is a number.</summary>
    /// <param name="values">Reordered.</param>
    /// <param name="probabilities">Each from 0 to 1, rising.</param>
    /// <param name="quantiles">Filled.</param>
    /// <exception cref="ArgumentOutOfRangeException">A probability outside 0 to 1.</exception>
    public static void Of(Span<double> values, ReadOnlySpan<double> probabilities, Span<double> quantiles)
    {
        var count = 0;
        for (var i = 0; i < values.Length; i++)
        {
            if (!double.IsNaN(values[i]))
                (values[count++], values[i]) = (values[i], values[count - 1]);
        }

        var numbers = values[..count];
        var sorted = 0;
        for (var i = 0; i < probabilities.Length; i++)
        {
            if (probabilities[i] is not (>= 0 and <= 1))
                throw new ArgumentOutOfRangeException(nameof(probabilities), probabilities[i], "A probability lies from 0 to 1.");
            if (count == 0)
            {
                quantiles[i] = double.NaN;
                continue;
            }

            var h = (count - 1) * probabilities[i];
            var low = Math.Min((int)h, count - 1);
            if (low < sorted)
                sorted = 0;
            Select(numbers[sorted..], low - sorted);
            sorted = low;
            var value = numbers[low];
            if (h > low)
            {
                var next = Smallest(numbers[(low + 1)..]);
                value += (h - low) * (next - value);
            }

            quantiles[i] = value;
        }
    }

    /// <summary>One quantile; the values stay as they are.</summary>
    public static double Of(ReadOnlySpan<double> values, double probability)
    {
        Span<double> result = stackalloc double[1];
        Of(values.ToArray(), [probability], result);
        return result[0];
    }
    private static double Smallest(Span<double> values)
    {
        var smallest = values[0];
        foreach (var value in values)
            smallest = Math.Min(smallest, value);
        return smallest;
    }

    /// <summary>Puts the k-th smallest at place k, smaller ones before it.</summary>
    private static void Select(Span<double> values, int k)
    {
        int low = 0, high = values.Length - 1;
        while (high > low)
        {
            var pivot = Middle(values[low], values[(low + high) / 2], values[high]);
            int i = low, j = high;
            while (i <= j)
            {
                while (values[i] < pivot)
                    i++;
                while (values[j] > pivot)
                    j--;
                if (i <= j)
                {
                    (values[i], values[j]) = (values[j], values[i]);
                    i++;
                    j--;
                }
            }

            if (k <= j)
                high = j;
            else if (k >= i)
                low = i;
            else
                return;
        }
    }

    private static double Middle(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
