using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Undercroft.Physics.Solving;

/// <summary>Exact quantiles of a sample that changes little from one time to the next: each is looked for between two members that stood about it the last time.</summary>
/// <remarks>
/// <para><b>Equation</b> the members below the lower guard are counted, those between the guards picked out and sorted; the order statistics wanted stand among
/// them where the counts say so, and elsewhere the sample is selected from anew.</para>
/// <para><b>Source</b> elementary; [HyndmanFan1996], definition 7, for what is meant.</para>
/// <para><b>Valid</b> any sample of the same members; one that has come to stand quite otherwise, or holds a not-a-number, is sorted anew.</para>
/// <para><b>Error</b> none but that of the sample: the same bits as <see cref="Quantile"/>, held in the tests.</para>
/// </remarks>
internal sealed class QuantileTrack
{
    private const int LeastApart = 3;
    private const int WidestShare = 16; // of the sample, on either side
    private const int Word = 64;
    private const double Wider = 1.5;
    private const int Sampled = 32;
    private const int SampledApart = 2;

    private readonly double[] probabilities;
    private readonly int count;
    private readonly int[] lower;
    private readonly int[] upper;
    private readonly int[] apart;
    private readonly ulong[] between;
    private readonly double[] sorted;
    private readonly int[] order;
    private readonly double[] sample;
    private bool known;
    private bool isSampled;

    /// <summary>Quantiles to follow.</summary>
    /// <param name="probabilities">Rising, each from 0 to 1.</param>
    /// <param name="count">Members of the sample.</param>
    /// <param name="like">Another sample of the same members that may stand alike, or null.</param>
    public QuantileTrack(double[] probabilities, int count, QuantileTrack? like = null)
    {
        (this.probabilities, this.count) = (probabilities, count);
        (lower, upper, apart) = (new int[probabilities.Length], new int[probabilities.Length], new int[probabilities.Length]);
        (between, sorted, order) = (new ulong[(count + Word - 1) / Word], new double[count], new int[count]);
        sample = new double[Sampled];
        Array.Fill(apart, LeastApart);
        known = like is { known: true };
        if (!known)
            return;
        like!.lower.CopyTo(lower, 0);
        like.upper.CopyTo(upper, 0);
    }

    /// <summary>The quantiles of a sample, whose members stand where they stood before.</summary>
    public void Of(ReadOnlySpan<double> values, Span<double> found)
    {
        values = values[..count];
        isSampled = false;
        for (var i = 0; i < probabilities.Length; i++)
        {
            if (Follow(values, i, out found[i]))
                continue;
            Anew(values, found);
            return;
        }

        known = true;
    }

    /// <summary>Looks between the guards, beside them, and then wherever a few of the members point; false where it is nowhere there.</summary>
    private bool Follow(ReadOnlySpan<double> values, int i, out double quantile)
    {
        if (known)
        {
            var (low, high) = (Math.Min(values[lower[i]], values[upper[i]]), Math.Max(values[lower[i]], values[upper[i]]));
            if (Find(values, i, low, high, out quantile, out var rank, out var among))
                return true;
            var beyond = rank < 0 ? -rank : rank - among + 1;
            var span = Wider * (beyond + LeastApart) * (high - low) / Math.Max(1, among - 1);
            apart[i] = Math.Min(Widest, 2 * apart[i]);
            if (span > 0 && beyond < among && (rank < 0 ? Find(values, i, low - span, low, out quantile, out _, out _) : Find(values, i, high, high + span, out quantile, out _, out _)))
                return true;
        }

        var (least, most) = Elsewhere(values, i);
        return Find(values, i, least, most, out quantile, out _, out _);
    }

    private void Anew(ReadOnlySpan<double> values, Span<double> found)
    {
        values.CopyTo(sorted);
        known = true;
        for (var i = 0; i < count; i++)
        {
            order[i] = i;
            known &= !double.IsNaN(values[i]);
        }

        if (!known)
        {
            Quantile.Of(sorted, probabilities, found);
            return;
        }

        Array.Sort(sorted, order);
        for (var i = 0; i < probabilities.Length; i++)
        {
            var rank = Rank(i, out var beyond);
            found[i] = Between(rank, beyond);
            Guard(i, rank, count);
        }
    }

    private int Widest => Math.Max(LeastApart, count / WidestShare);

    /// <summary>The rank at or below a quantile, and how far beyond it the quantile stands.</summary>
    private int Rank(int i, out double beyond)
    {
        var h = (count - 1) * probabilities[i];
        var whole = Math.Min((int)h, count - 1);
        beyond = h - whole;
        return whole;
    }

    private double Between(int rank, double beyond) => beyond > 0 ? sorted[rank] + (beyond * (sorted[rank + 1] - sorted[rank])) : sorted[rank];

    /// <summary>The members some places below and above a rank stand guard the next time.</summary>
    private void Guard(int i, int rank, int among) =>
        (lower[i], upper[i]) = (order[Math.Max(0, rank - apart[i])], order[Math.Min(among - 1, rank + 1 + apart[i])]);

    /// <summary>False where the quantile does not stand between two values; its rank among the members that do is told in any case.</summary>
    private bool Find(ReadOnlySpan<double> values, int i, double low, double high, out double quantile, out int rank, out int among)
    {
        var below = Part(values, low, high);
        rank = Rank(i, out var beyond) - below;
        among = 0;
        for (var word = 0; word < between.Length; word++)
        {
            for (var bits = between[word]; bits != 0; bits &= bits - 1)
            {
                order[among] = (word * Word) + BitOperations.TrailingZeroCount(bits);
                sorted[among] = values[order[among]];
                among++;
            }
        }

        quantile = 0;
        if (below < 0 || rank < 0 || rank + (beyond > 0 ? 1 : 0) >= among)
            return false;
        if (among <= Word)
            Insert(among);
        else
            Array.Sort(sorted, order, 0, among);
        quantile = Between(rank, beyond);

        // As wide as it moved of late: half of those between the guards should stand on either side.
        apart[i] = Math.Clamp(Math.Max(apart[i] / 2, LeastApart + (Math.Abs((2 * rank) + 2 - among) / 2)), LeastApart, Widest);
        Guard(i, rank, among);
        return true;
    }

    /// <summary>Values between which a quantile should stand by a few of the members, evenly picked.</summary>
    private (double Low, double High) Elsewhere(ReadOnlySpan<double> values, int i)
    {
        if (!isSampled)
        {
            for (var k = 0; k < Sampled; k++)
                sample[k] = values[(int)((long)k * count / Sampled)];
            sample.AsSpan().Sort();
            isSampled = true;
        }

        var place = probabilities[i] * (Sampled - 1);
        var (below, above) = ((int)place - SampledApart, (int)Math.Ceiling(place) + SampledApart);
        return (below < 0 ? double.NegativeInfinity : sample[below], above >= Sampled ? double.PositiveInfinity : sample[above]);
    }

    private void Insert(int among)
    {
        for (var i = 1; i < among; i++)
        {
            var (value, member, to) = (sorted[i], order[i], i);
            while (to > 0 && sorted[to - 1] > value)
            {
                (sorted[to], order[to]) = (sorted[to - 1], order[to - 1]);
                to--;
            }

            (sorted[to], order[to]) = (value, member);
        }
    }

    /// <summary>Marks the members from the one value to the other, and counts those below; negative where a member is not a number.</summary>
    private int Part(ReadOnlySpan<double> values, double low, double high)
    {
        var (below, numbers, place) = (0, true, 0);
        for (var word = 0; word < between.Length; word++)
        {
            var (bits, from, to) = (0UL, place, Math.Min(count, place + Word));
            if (Vector256.IsHardwareAccelerated)
            {
                var (least, most, counted, real) = (Vector256.Create(low), Vector256.Create(high), Vector256<long>.Zero, Vector256<double>.AllBitsSet);
                for (; place + 4 <= to; place += 4)
                {
                    var each = Vector256.LoadUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetReference(values), place));
                    var less = Vector256.LessThan(each, least);
                    counted -= less.AsInt64();
                    real &= Vector256.Equals(each, each);
                    bits |= (ulong)Vector256.ExtractMostSignificantBits(Vector256.AndNot(Vector256.LessThanOrEqual(each, most), less)) << (place - from);
                }

                below += (int)Vector256.Sum(counted);
                numbers &= Vector256.ExtractMostSignificantBits(real) == 0xF;
            }

            for (; place < to; place++)
            {
                below += values[place] < low ? 1 : 0;
                numbers &= !double.IsNaN(values[place]);
                bits |= values[place] >= low && values[place] <= high ? 1UL << (place - from) : 0;
            }

            between[word] = bits;
        }

        return numbers ? below : -1;
    }
}
