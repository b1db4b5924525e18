namespace Undercroft.Physics.Solving;

/// <summary>Exact quantiles of a sample that changes little from one time to the next: it is sorted from the order in which it last stood.</summary>
/// <remarks>
/// <para><b>Equation</b> insertion into the last order: as many moves as there are pairs that have changed places.</para>
/// <para><b>Source</b> elementary; [HyndmanFan1996], definition 7, for what is meant.</para>
/// <para><b>Valid</b> any sample of the same members; one that has come to stand quite otherwise, or holds a not-a-number, is sorted anew.</para>
/// <para><b>Error</b> none but that of the sample: the same bits as <see cref="Quantile"/>, held in the tests.</para>
/// </remarks>
internal sealed class QuantileTrack
{
    private const int MovesEach = 16;

    private readonly double[] probabilities;
    private readonly int[] order;
    private readonly double[] sorted;
    private readonly double[] last;
    private readonly double[] kept;
    private bool known;

    /// <summary>Quantiles to follow.</summary>
    /// <param name="probabilities">Rising, each from 0 to 1.</param>
    /// <param name="count">Members of the sample.</param>
    /// <param name="like">Another sample of the same members that may stand alike, or null.</param>
    public QuantileTrack(double[] probabilities, int count, QuantileTrack? like = null)
    {
        (this.probabilities, order, sorted, last, kept) = (probabilities, new int[count], new double[count], new double[count], new double[probabilities.Length]);
        for (var i = 0; i < count; i++)
            order[i] = like is null ? i : like.order[i];
        known = like is { known: true };
    }

    /// <summary>The quantiles of a sample, whose members stand where they stood before.</summary>
    public void Of(ReadOnlySpan<double> values, Span<double> found)
    {
        values = values[..order.Length];
        if (known && values.SequenceEqual(last))
        {
            kept.CopyTo(found);
            return;
        }

        values.CopyTo(last);
        if (!known || !Insert(values, order, sorted))
            Anew(values);
        if (!known)
        {
            Quantile.Of(sorted, probabilities, found);
            return;
        }

        for (var i = 0; i < probabilities.Length; i++)
        {
            var h = (sorted.Length - 1) * probabilities[i];
            var low = Math.Min((int)h, sorted.Length - 1);
            found[i] = h > low ? sorted[low] + ((h - low) * (sorted[low + 1] - sorted[low])) : sorted[low];
        }

        found.CopyTo(kept);
    }

    private void Anew(ReadOnlySpan<double> values)
    {
        for (var i = 0; i < order.Length; i++)
            order[i] = i;
        values.CopyTo(sorted);
        known = !double.IsNaN(Total(values));
        if (known)
            Array.Sort(sorted, order);
    }

    private static double Total(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        foreach (var value in values)
            sum += value;
        return sum;
    }

    /// <summary>False where the last order is of no use.</summary>
    private static bool Insert(ReadOnlySpan<double> values, Span<int> order, Span<double> sorted)
    {
        var left = MovesEach * order.Length;
        var before = values[order[0]];
        sorted[0] = before;
        for (var i = 1; i < order.Length; i++)
        {
            var member = order[i];
            var value = values[member];
            if (value >= before)
            {
                sorted[i] = before = value;
                continue;
            }

            var to = i;
            while (to > 0 && sorted[to - 1] > value)
            {
                (sorted[to], order[to]) = (sorted[to - 1], order[to - 1]);
                to--;
            }

            (sorted[to], order[to]) = (value, member);
            before = sorted[i];
            left -= i - to;
            if (left < 0 || double.IsNaN(value))
                return false;
        }

        return !double.IsNaN(sorted[0]);
    }
}
