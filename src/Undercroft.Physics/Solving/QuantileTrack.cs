using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Undercroft.Physics.Solving;

/// <summary>Exact quantiles of a sample that changes little from one time to the next: each is looked for about where it is going.</summary>
/// <remarks>
/// <para><b>Equation</b> with q and q' the quantile of the last time and of the time before, it is looked for from q to q + (q − q') and a few ranks beyond: the members
/// below are counted, those between picked out, and the order statistics wanted stand among them where the counts say so. Elsewhere it is looked for wider, and
/// at last selected from anew. A sample that stands in order already is only read.</para>
/// <para><b>Source</b> elementary; [HyndmanFan1996], definition 7, for what is meant.</para>
/// <para><b>Valid</b> any sample; one that has come to stand quite otherwise, or holds a not-a-number, costs a sort.</para>
/// <para><b>Error</b> none but that of the sample: the same bits as <see cref="Quantile"/>, held in the tests.</para>
/// </remarks>
internal sealed class QuantileTrack
{
    private const int Ranks = 3; // beyond, on either side
    private const int Word = 64;
    private const double Wider = 1.5;
    private const int Sampled = 32;
    private const int SampledApart = 3;

    private readonly double[] probabilities;
    private readonly int count;
    private readonly Room room;
    private readonly (int Rank, double Beyond)[] wanted;
    private readonly double[] last;
    private readonly double[] change;
    private readonly double[] apart;
    private bool known;
    private bool isOwn; // what is known is of this sample, not of the one like it
    private bool isSampled;

    /// <summary>Quantiles to follow.</summary>
    /// <param name="probabilities">Rising, each from 0 to 1.</param>
    /// <param name="count">Members of the sample.</param>
    /// <param name="like">Another sample that may stand alike, or null.</param>
    /// <param name="beside">Another sample of as many members and the same probabilities, never followed at the same time, whose room to work in this one shares; or null.</param>
    public QuantileTrack(double[] probabilities, int count, QuantileTrack? like = null, QuantileTrack? beside = null)
    {
        (this.probabilities, this.count) = (probabilities, count);
        (room, wanted) = beside is null ? (new(count), [.. probabilities.Select(Rank)]) : (beside.room, beside.wanted);
        (last, change, apart) = (new double[wanted.Length], new double[wanted.Length], new double[wanted.Length]);
        known = like is { known: true };
        if (!known)
            return;
        like!.last.CopyTo(last, 0);
        like.apart.CopyTo(apart, 0);
    }

    /// <summary>The quantiles of a sample.</summary>
    public void Of(ReadOnlySpan<double> values, Span<double> found)
    {
        values = values[..count];
        if (!InOrder(values, found) && !(known && AreNumbers(values) && Follow(values, found)))
            Anew(values, found);
        for (var i = 0; i < found.Length; i++)
            (change[i], last[i]) = (known && isOwn ? found[i] - last[i] : 0, found[i]);
        isOwn = true;
        known = !double.IsNaN(found[0]);
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
            var value = values[rising ? rank : count - 1 - rank];
            found[i] = beyond > 0 ? Between(value, values[rising ? rank + 1 : count - 2 - rank], beyond) : value;
            apart[i] = Math.Abs(values[^1] - values[0]) / count;
        }

        return true;
    }

    private bool Follow(ReadOnlySpan<double> values, Span<double> found)
    {
        isSampled = false;
        for (var i = 0; i < wanted.Length; i++)
        {
            if (!Follow(values, i, out found[i]))
                return false;
        }

        return true;
    }

    /// <summary>Looks where the quantile is going, beside that, and then wherever a few of the members point; false where it is nowhere there.</summary>
    private bool Follow(ReadOnlySpan<double> values, int i, out double quantile)
    {
        var (from, to) = (last[i], last[i] + change[i]);
        var (low, high) = (Math.Min(from, to) - (Ranks * apart[i]), Math.Max(from, to) + (Ranks * apart[i]));
        if (Find(values, i, low, high, out quantile, out var off))
            return true;
        var span = Wider * (Math.Abs(off) + Ranks) * apart[i];
        if (off < 0 ? Find(values, i, low - span, low, out quantile, out _) : Find(values, i, high, high + span, out quantile, out _))
            return true;
        var (least, most) = Elsewhere(values, i);
        return Find(values, i, least, most, out quantile, out _);
    }

    private void Anew(ReadOnlySpan<double> values, Span<double> found)
    {
        var sorted = room.Sorted.AsSpan(0, count);
        values.CopyTo(sorted);
        known = AreNumbers(values);
        if (!known)
        {
            Quantile.Of(sorted, probabilities, found);
            return;
        }

        sorted.Sort();
        for (var i = 0; i < wanted.Length; i++)
        {
            var (rank, beyond) = wanted[i];
            found[i] = beyond > 0 ? Between(sorted[rank], sorted[rank + 1], beyond) : sorted[rank];
            var (below, above) = (Math.Max(0, rank - Ranks), Math.Min(count - 1, rank + Ranks));
            apart[i] = (sorted[above] - sorted[below]) / Math.Max(1, above - below);
        }

        known = false; // where it was says nothing of where it goes
    }

    /// <summary>The rank at or below a quantile, and how far beyond it the quantile stands.</summary>
    private (int Rank, double Beyond) Rank(double probability)
    {
        var h = (count - 1) * probability;
        var whole = Math.Min((int)h, count - 1);
        return (whole, h - whole);
    }

    private static double Between(double value, double next, double beyond) => value + (beyond * (next - value));

    /// <summary>False where the quantile does not stand between two values; <paramref name="off"/> then tells by how many ranks, negative below.</summary>
    private bool Find(ReadOnlySpan<double> values, int i, double low, double high, out double quantile, out int off)
    {
        var (rank, beyond) = wanted[i];
        rank -= Part(values, low, high);
        var among = 0;
        foreach (var word in room.Between)
            among += BitOperations.PopCount(word);
        quantile = 0;
        var above = rank + (beyond > 0 ? 1 : 0) - among + 1;
        off = rank < 0 ? rank : Math.Max(0, above);
        if (off != 0)
            return false;
        var (picked, at) = (room.Sorted, 0);
        for (var word = 0; word < room.Between.Length; word++)
        {
            for (var bits = room.Between[word]; bits != 0; bits &= bits - 1)
                picked[at++] = values[(word * Word) + BitOperations.TrailingZeroCount(bits)];
        }

        var (value, next) = Pick(among, rank, beyond > 0);
        quantile = beyond > 0 ? Between(value, next, beyond) : value;
        var density = (high - low) / (among + 1);
        if (double.IsFinite(density))
            apart[i] = density;
        return true;
    }

    /// <summary>Values between which a quantile should stand by a few of the members, evenly picked.</summary>
    private (double Low, double High) Elsewhere(ReadOnlySpan<double> values, int i)
    {
        var sample = room.Sample;
        if (!isSampled)
        {
            for (var k = 0; k < Sampled; k++)
                sample[k] = values[(int)((long)k * count / Sampled)];
            sample.AsSpan().Sort();
            isSampled = true;
        }

        var place = (wanted[i].Rank + wanted[i].Beyond) / Math.Max(1, count - 1) * (Sampled - 1);
        var (below, above) = ((int)place - SampledApart, (int)Math.Ceiling(place) + SampledApart);
        return (below < 0 ? double.NegativeInfinity : sample[below], above >= Sampled ? double.PositiveInfinity : sample[above]);
    }

    /// <summary>One of a few by rank, and the next: by how many are less than each, which needs no guesses of the processor.</summary>
    private (double Value, double Next) Pick(int among, int rank, bool withNext)
    {
        var picked = room.Sorted;
        var (value, next) = (double.NaN, double.NaN);
        if (Vector256.IsHardwareAccelerated && among <= Word)
        {
            for (var i = 0; i < among; i += Vector256<double>.Count)
            {
                var (each, less) = (At(picked, i), Vector256<long>.Zero);
                for (var k = 0; k < among; k++)
                    less -= Vector256.LessThan(Vector256.Create(picked[k]), each).AsInt64();
                less.CopyTo(room.Standing, i);
            }

            for (var i = 0; i < among; i++)
            {
                value = room.Standing[i] == rank ? picked[i] : value;
                next = room.Standing[i] == rank + 1 ? picked[i] : next;
            }

            if (!double.IsNaN(value) && (!withNext || !double.IsNaN(next)))
                return (value, next);
        }

        // Many, or some that are equal.
        picked.AsSpan(0, among).Sort();
        return (picked[rank], withNext ? picked[rank + 1] : next);
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

    /// <summary>Marks the members from the one value to the other, and counts those below.</summary>
    private int Part(ReadOnlySpan<double> values, double low, double high)
    {
        var (below, place) = (0, 0);
        for (var word = 0; word < room.Between.Length; word++)
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

            room.Between[word] = bits;
        }

        return below;
    }

    /// <summary>Room to work in, which tracks that are followed one after the other share.</summary>
    private sealed class Room(int count)
    {
        public ulong[] Between { get; } = new ulong[(count + Word - 1) / Word];

        public double[] Sorted { get; } = new double[count + Vector256<double>.Count];

        public double[] Sample { get; } = new double[Sampled];

        public long[] Standing { get; } = new long[Word + Vector256<double>.Count];
    }
}
