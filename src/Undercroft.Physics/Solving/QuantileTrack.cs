using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Undercroft.Physics.Solving;

/// <summary>Exact quantiles of a sample that changes little from one time to the next: each is looked for between two members that stood about it the last time.</summary>
/// <remarks>
/// <para><b>Equation</b> the members below the lower guard are counted, those between the guards picked out and sorted; the order statistics wanted stand among
/// them where the counts say so, and elsewhere the sample is selected from anew. A sample that stands in order already is only read.</para>
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
    private readonly long[] standing;
    private readonly double[] unsorted;
    private readonly int[] unordered;
    private readonly (int Rank, double Beyond)[] wanted;
    private bool known;
    private bool isSampled;

    /// <summary>Quantiles to follow.</summary>
    /// <param name="probabilities">Rising, each from 0 to 1.</param>
    /// <param name="count">Members of the sample.</param>
    /// <param name="like">Another sample of the same members that may stand alike, or null.</param>
    /// <param name="beside">Another sample of as many members and the same probabilities, never followed at the same time, whose room to work in this one shares; or null.</param>
    public QuantileTrack(double[] probabilities, int count, QuantileTrack? like = null, QuantileTrack? beside = null)
    {
        (this.probabilities, this.count) = (probabilities, count);
        (lower, upper, apart) = (new int[probabilities.Length], new int[probabilities.Length], new int[probabilities.Length]);
        (between, sorted, order, sample, standing, unsorted, unordered, wanted) = beside is null
            ? (new ulong[(count + Word - 1) / Word], new double[count + Vector256<double>.Count], new int[count], new double[Sampled], new long[Word + Vector256<double>.Count],
                new double[Word + Vector256<double>.Count], new int[Word], [.. probabilities.Select(Rank)])
            : (beside.between, beside.sorted, beside.order, beside.sample, beside.standing, beside.unsorted, beside.unordered, beside.wanted);
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
        if (InOrder(values, found))
            return;
        if (!known || !AreNumbers(values))
        {
            Anew(values, found);
            return;
        }

        isSampled = false;
        for (var i = 0; i < probabilities.Length; i++)
        {
            if (Follow(values, i, out found[i]))
                continue;
            Anew(values, found);
            return;
        }
    }

    /// <summary>Draws that stand in the order of what makes them differ need no looking for.</summary>
    private bool InOrder(ReadOnlySpan<double> values, Span<double> found)
    {
        var rising = values[0] <= values[^1];
        if (!(rising ? Rises(values[..^1], values[1..]) : Rises(values[1..], values[..^1])))
            return false;
        for (var i = 0; i < wanted.Length; i++)
        {
            var (rank, beyond) = wanted[i];
            int Member(int place) => rising ? place : count - 1 - place;
            var value = values[Member(rank)];
            found[i] = beyond > 0 ? value + (beyond * (values[Member(rank + 1)] - value)) : value;
            (lower[i], upper[i]) = (Member(Math.Max(0, rank - apart[i])), Member(Math.Min(count - 1, rank + 1 + apart[i])));
        }

        known = true;
        return true;
    }

    private static bool Rises(ReadOnlySpan<double> each, ReadOnlySpan<double> next)
    {
        var place = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            for (; place + Vector256<double>.Count <= each.Length; place += Vector256<double>.Count)
            {
                if (!Vector256.LessThanOrEqualAll(At(each, place), At(next, place)))
                    return false;
            }
        }

        for (; place < each.Length; place++)
        {
            if (!(each[place] <= next[place]))
                return false;
        }

        return true;
    }

    private static bool AreNumbers(ReadOnlySpan<double> values)
    {
        var place = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            var real = Vector256<double>.AllBitsSet;
            for (; place + Vector256<double>.Count <= values.Length; place += Vector256<double>.Count)
                real &= Vector256.Equals(At(values, place), At(values, place));
            if (Vector256.ExtractMostSignificantBits(real) != 0xF)
                return false;
        }

        for (; place < values.Length; place++)
        {
            if (double.IsNaN(values[place]))
                return false;
        }

        return true;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> At(ReadOnlySpan<double> values, int place) => Vector256.LoadUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetReference(values), (uint)place));

    /// <summary>Looks between the guards, beside them, and then wherever a few of the members point; false where it is nowhere there.</summary>
    private bool Follow(ReadOnlySpan<double> values, int i, out double quantile)
    {
        var (low, high) = (Math.Min(values[lower[i]], values[upper[i]]), Math.Max(values[lower[i]], values[upper[i]]));
        if (Find(values, i, low, high, out quantile, out var rank, out var among))
            return true;
        var beyond = rank < 0 ? -rank : rank - among + 1;
        var span = Wider * (beyond + LeastApart) * (high - low) / Math.Max(1, among - 1);
        apart[i] = Math.Min(Widest, 2 * apart[i]);
        if (span > 0 && beyond < among && (rank < 0 ? Find(values, i, low - span, low, out quantile, out _, out _) : Find(values, i, high, high + span, out quantile, out _, out _)))
            return true;
        var (least, most) = Elsewhere(values, i);
        return Find(values, i, least, most, out quantile, out _, out _);
    }

    private void Anew(ReadOnlySpan<double> values, Span<double> found)
    {
        var all = sorted.AsSpan(0, count);
        values.CopyTo(all);
        known = AreNumbers(values);
        if (!known)
        {
            Quantile.Of(all, probabilities, found);
            return;
        }

        all.Sort();
        for (var i = 0; i < probabilities.Length; i++)
        {
            var (rank, beyond) = wanted[i];
            found[i] = Between(rank, beyond);
            lower[i] = values.IndexOf(sorted[Math.Max(0, rank - apart[i])]);
            upper[i] = values.IndexOf(sorted[Math.Min(count - 1, rank + 1 + apart[i])]);
        }
    }

    private int Widest => Math.Max(LeastApart, count / WidestShare);

    /// <summary>The rank at or below a quantile, and how far beyond it the quantile stands.</summary>
    private (int Rank, double Beyond) Rank(double probability)
    {
        var h = (count - 1) * probability;
        var whole = Math.Min((int)h, count - 1);
        return (whole, h - whole);
    }

    private double Between(int rank, double beyond) => beyond > 0 ? sorted[rank] + (beyond * (sorted[rank + 1] - sorted[rank])) : sorted[rank];

    /// <summary>The members some places below and above a rank stand guard the next time.</summary>
    private void Guard(int i, int rank, int among) =>
        (lower[i], upper[i]) = (order[Math.Max(0, rank - apart[i])], order[Math.Min(among - 1, rank + 1 + apart[i])]);

    /// <summary>False where the quantile does not stand between two values; its rank among the members that do is told in any case.</summary>
    private bool Find(ReadOnlySpan<double> values, int i, double low, double high, out double quantile, out int rank, out int among)
    {
        var below = Part(values, low, high);
        (rank, var beyond) = wanted[i];
        rank -= below;
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
        if (rank < 0 || rank + (beyond > 0 ? 1 : 0) >= among)
            return false;
        if (among <= Word)
            Order(among);
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

    /// <summary>Sorts a few by how many are less than each, which needs no guesses of the processor.</summary>
    private void Order(int among)
    {
        if (!Vector256.IsHardwareAccelerated)
        {
            Insert(among);
            return;
        }

        sorted.AsSpan(0, among).CopyTo(unsorted);
        order.AsSpan(0, among).CopyTo(unordered);
        for (var i = 0; i < among; i += Vector256<double>.Count)
        {
            var (each, less) = (At(unsorted, i), Vector256<long>.Zero);
            for (var k = 0; k < among; k++)
                less -= Vector256.LessThan(Vector256.Create(unsorted[k]), each).AsInt64();
            less.CopyTo(standing, i);
        }

        var taken = 0UL;
        for (var i = 0; i < among; i++)
        {
            var place = (int)standing[i];
            taken |= 1UL << place;
            (sorted[place], order[place]) = (unsorted[i], unordered[i]);
        }

        if (taken == ulong.MaxValue >> (Word - among))
            return;

        // Some are equal.
        unsorted.AsSpan(0, among).CopyTo(sorted);
        unordered.AsSpan(0, among).CopyTo(order);
        Insert(among);
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

    /// <summary>Marks the members from the one value to the other, and counts those below.</summary>
    private int Part(ReadOnlySpan<double> values, double low, double high)
    {
        var (below, place) = (0, 0);
        for (var word = 0; word < between.Length; word++)
        {
            var (bits, from, to) = (0UL, place, Math.Min(count, place + Word));
            if (Vector256.IsHardwareAccelerated)
            {
                var (least, most, counted) = (Vector256.Create(low), Vector256.Create(high), Vector256<long>.Zero);
                for (; place + 4 <= to; place += 4)
                {
                    var each = At(values, place);
                    var less = Vector256.LessThan(each, least);
                    counted -= less.AsInt64();
                    bits |= (ulong)Vector256.ExtractMostSignificantBits(Vector256.AndNot(Vector256.LessThanOrEqual(each, most), less)) << (place - from);
                }

                below += (int)Vector256.Sum(counted);
            }

            for (; place < to; place++)
            {
                below += values[place] < low ? 1 : 0;
                bits |= values[place] >= low && values[place] <= high ? 1UL << (place - from) : 0;
            }

            between[word] = bits;
        }

        return below;
    }
}
