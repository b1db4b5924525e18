using System.Numerics;

namespace Undercroft.Physics.Solving;

/// <summary>Picks the few members of a sample that stand between two values, and sorts them.</summary>
/// <param name="count">Members of the sample.</param>
internal sealed class FewOfMany(int count)
{
    /// <summary>So many are sorted by counting; of more, fewer are looked for.</summary>
    public const int Most = 64;

    private const int Word = 64;
    private const int Sampled = 16;
    private const int SampledApart = 2;

    private readonly ulong[] between = new ulong[(count + Word - 1) / Word];
    private readonly float[] sorted = new float[count];
    private readonly int[] order = new int[count];
    private readonly float[] unsorted = new float[Most];
    private readonly int[] unordered = new int[Most];

    /// <summary>How many members are less than the one value, and how many stand from there to the other; what is not a number counts among these.</summary>
    public (int Below, int Among) Between<T>(float[] values, float low, float high)
        where T : struct, ISingleLane<T>
    {
        var (least, most) = (T.Of(low), T.Of(high));
        var (below, among, place) = (0, 0, 0);
        for (var word = 0; word < between.Length; word++)
        {
            var (less, more) = (0UL, 0UL);
            var within = Math.Min(Word, count - place);
            for (var at = 0; at < within; at += T.Count)
            {
                var each = T.At(values, place + at);
                less |= (ulong)T.Less(each, least) << at;
                more |= (ulong)T.Less(most, each) << at;
            }

            var all = ulong.MaxValue >> (Word - within);
            between[word] = ~(less | more) & all;
            below += BitOperations.PopCount(less & all);
            among += BitOperations.PopCount(between[word]);
            place += Word;
        }

        return (below, among);
    }

    /// <summary>Closer values between which the ranks wanted should stand, by a few of those between, evenly picked; false where there are none closer.</summary>
    public bool Narrow<T>(float[] values, int among, int rank, int last, ref float low, ref float high)
        where T : struct, ISingleLane<T>
    {
        var taken = 0;
        for (var place = 0; place < count && taken < Most; place += among / Sampled)
        {
            if ((between[place / Word] >> (place % Word) & 1) != 0)
                (unsorted[taken], unordered[taken++]) = (values[place], place);
        }

        Order<T>(taken);
        var below = (int)((long)rank * taken / among) - SampledApart;
        var above = (int)((long)last * taken / among) + SampledApart;
        var (least, most) = (below < 0 ? low : sorted[below], above >= taken ? high : sorted[above]);
        if (!(least > low) && !(most < high))
            return false;
        (low, high) = (least, most);
        return true;
    }

    /// <summary>Sorts those between; false where one is not a number.</summary>
    public bool Sort<T>(float[] values, int among)
        where T : struct, ISingleLane<T>
    {
        var (into, members) = among > Most ? (sorted, order) : (unsorted, unordered);
        var taken = 0;
        for (var word = 0; word < between.Length; word++)
        {
            for (var bits = between[word]; bits != 0; bits &= bits - 1)
            {
                var member = (word * Word) + BitOperations.TrailingZeroCount(bits);
                (into[taken], members[taken++]) = (values[member], member);
            }
        }

        if (among <= Most)
            return Order<T>(among);
        Array.Sort(sorted, order, 0, among);
        return !float.IsNaN(sorted[0]); // they come first
    }

    /// <summary>The order statistic of a rank, or beyond it toward the next.</summary>
    public double At(int rank, double beyond)
    {
        double value = sorted[rank];
        return beyond > 0 ? value + (beyond * (sorted[rank + 1] - value)) : value;
    }

    /// <summary>Which member of the sample stands at a rank.</summary>
    public int Member(int rank) => order[rank];

    /// <summary>Sorts by how many are less than each, which needs no guesses of the processor; false where one is not a number.</summary>
    private bool Order<T>(int among)
        where T : struct, ISingleLane<T>
    {
        unsorted.AsSpan(among, Math.Min(Most, among + Most / 4) - among).Fill(float.NaN); // nothing is less
        var (taken, real, first) = (0UL, true, T.At(unsorted, 0));
        for (var i = 0; i < among; i++)
        {
            var each = T.Of(unsorted[i]);
            var place = BitOperations.PopCount(T.Less(first, each));
            for (var at = T.Count; at < among; at += T.Count)
                place += BitOperations.PopCount(T.Less(T.At(unsorted, at), each));
            while ((taken >> place & 1) != 0)
                place++; // its equals stand there
            taken |= 1UL << place;
            (sorted[place], order[place]) = (unsorted[i], unordered[i]);
            real &= !float.IsNaN(unsorted[i]);
        }

        return real;
    }
}
