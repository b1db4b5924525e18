namespace Undercroft.Physics.Solving;

/// <summary>Exact quantiles of a sample that changes little from one time to the next: each is looked for between two members that stood about it the last time.</summary>
/// <remarks>
/// <para><b>Equation</b> the members below the lower guard are counted, those between the guards picked out and sorted; the order statistics wanted stand among
/// them where the counts say so. Elsewhere the guards are moved, by what the counts say, until few enough stand between them. A sample that stands in order already is only read.</para>
/// <para><b>Source</b> elementary; [HyndmanFan1996], definition 7, for what is meant.</para>
/// <para><b>Valid</b> any sample of the same members; one that holds a not-a-number is sorted anew.</para>
/// <para><b>Error</b> none but that of the sample: the same bits as <see cref="Quantile"/>, held in the tests.</para>
/// </remarks>
internal sealed class QuantileTrack
{
    private const int LeastApart = 2;
    private const int WidestShare = 16; // of the sample, on either side
    private const float Wider = 1.5f;
    private const int MostTries = 12; // then as many are sorted as stand there

    private readonly double[] probabilities;
    private readonly int count;
    private readonly int[] lower;
    private readonly int[] upper;
    private readonly int[] apart;
    private readonly (int Rank, double Beyond)[] wanted;
    private readonly FewOfMany few;
    private bool known;

    /// <summary>Quantiles to follow.</summary>
    /// <param name="probabilities">Rising, each from 0 to 1.</param>
    /// <param name="count">Members of the sample.</param>
    /// <param name="like">Another sample of the same members that may stand alike, or null.</param>
    /// <param name="beside">Another sample of as many members and the same probabilities, never followed at the same time, whose room to work in this one shares; or null.</param>
    public QuantileTrack(double[] probabilities, int count, QuantileTrack? like = null, QuantileTrack? beside = null)
    {
        (this.probabilities, this.count) = (probabilities, count);
        (lower, upper, apart) = (new int[probabilities.Length], new int[probabilities.Length], new int[probabilities.Length]);
        (few, wanted) = beside is null ? (new(count), Array.ConvertAll(probabilities, Rank)) : (beside.few, beside.wanted);
        Array.Fill(apart, LeastApart);
        known = like is { known: true };
        if (!known)
            return;
        like!.lower.CopyTo(lower, 0);
        like.upper.CopyTo(upper, 0);
        like.apart.CopyTo(apart, 0);
    }

    private int Widest => Math.Max(LeastApart, count / WidestShare);

    /// <summary>The quantiles of a sample, whose members stand where they stood before.</summary>
    /// <param name="values">The members, filled up to whole vectors with whatever.</param>
    /// <param name="found">Filled.</param>
    public void Of<T>(float[] values, Span<double> found)
        where T : struct, ISingleLane<T>
    {
        if (Rises<T>(values))
        {
            ReadOff(values, found);
            return;
        }

        for (var i = 0; i < probabilities.Length; i++)
        {
            if (Follow<T>(values, i, out found[i]))
                continue;
            known = false;
            Quantile.Of(Array.ConvertAll(values[..count], value => (double)value), probabilities, found);
            return;
        }

        known = true;
    }

    /// <summary>True where the members stand in order, rising or falling.</summary>
    private bool Rises<T>(float[] values)
        where T : struct, ISingleLane<T>
    {
        var rising = values[0] <= values[count - 1];
        var place = 0;
        for (; place + T.Count < count; place += T.Count)
        {
            var (each, next) = (T.At(values, place), T.At(values, place + 1));
            if (T.Less(rising ? next : each, rising ? each : next) != 0)
                return false;
        }

        for (; place + 1 < count; place++)
        {
            if (rising ? values[place] > values[place + 1] : values[place] < values[place + 1])
                return false;
        }

        return !values.AsSpan(0, count).Contains(float.NaN);
    }

    /// <summary>Draws that stand in the order of what makes them differ need no looking for.</summary>
    private void ReadOff(float[] values, Span<double> found)
    {
        var rising = values[0] <= values[count - 1];
        int Member(int place) => rising ? place : count - 1 - place;
        for (var i = 0; i < wanted.Length; i++)
        {
            var (rank, beyond) = wanted[i];
            double value = values[Member(rank)];
            found[i] = beyond > 0 ? value + (beyond * (values[Member(rank + 1)] - value)) : value;
            (lower[i], upper[i]) = (Member(Math.Max(0, rank - apart[i])), Member(Math.Min(count - 1, rank + 1 + apart[i])));
        }

        known = true;
    }

    /// <summary>Looks between the guards, then to the side on which the counts say that it stands; false where a member is not a number.</summary>
    private bool Follow<T>(float[] values, int i, out double quantile)
        where T : struct, ISingleLane<T>
    {
        var (rank, beyond) = wanted[i];
        var last = rank + (beyond > 0 ? 1 : 0);
        var (least, most) = (float.NegativeInfinity, float.PositiveInfinity); // it stands from the one to the other
        var (low, high) = known ? (Math.Min(values[lower[i]], values[upper[i]]), Math.Max(values[lower[i]], values[upper[i]])) : (least, most);
        quantile = 0;
        if (float.IsNaN(low) || float.IsNaN(high))
            return false;
        for (var tries = 0; ; tries++)
        {
            var (below, among) = few.Between<T>(values, low, high);
            var (first, next) = (rank - below, last - below); // among those between
            if (first < 0)
            {
                most = next < 0 ? low : most;
                var aside = tries == 0 ? low - Span(-first, low, high, among) : least;
                (low, high) = (Math.Max(least, aside), next < 0 ? low : high);
            }
            else if (next >= among)
            {
                least = first >= among ? high : least;
                var aside = tries == 0 ? high + Span(next - among + 1, low, high, among) : most;
                (low, high) = (first >= among ? high : low, Math.Min(most, aside));
            }
            else if (among <= FewOfMany.Most || tries > MostTries || !few.Narrow<T>(values, among, first, next, ref low, ref high))
            {
                if (!few.Sort<T>(values, among))
                    return false;
                quantile = few.At(first, beyond);

                // As wide as it moved of late: half of those between the guards should stand on either side.
                var moved = tries == 0 ? Math.Abs((2 * first) + 2 - among) / 2 : 2 * apart[i];
                apart[i] = Math.Clamp(Math.Max(apart[i] / 2, LeastApart + moved), LeastApart, Widest);
                (lower[i], upper[i]) = (few.Member(Math.Max(0, first - apart[i])), few.Member(Math.Min(among - 1, first + 1 + apart[i])));
                return true;
            }
        }
    }

    /// <summary>How far beyond a guard so many members should reach, as they stand between the guards; without end where that cannot be told.</summary>
    private static float Span(int members, float low, float high, int among)
    {
        var span = Wider * (members + LeastApart) * (high - low) / Math.Max(1, among - 1);
        return span > 0 ? span : float.PositiveInfinity;
    }

    /// <summary>The rank at or below a quantile, and how far beyond it the quantile stands.</summary>
    private (int Rank, double Beyond) Rank(double probability)
    {
        var h = (count - 1) * probability;
        var whole = Math.Min((int)h, count - 1);
        return (whole, h - whole);
    }
}
