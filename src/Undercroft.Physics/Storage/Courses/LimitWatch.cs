using System.Runtime.CompilerServices;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>Leaf at one end of a step.</summary>
/// <param name="Activity22">y.</param>
/// <param name="Rate">dy/dt, per day.</param>
/// <param name="Shift">s(T) of the mean temperature about then.</param>
internal readonly record struct LeafEdge<T>(T Activity22, T Rate, T Shift)
    where T : struct, ILane<T>;

/// <summary>Watches a lane of draws for their limits: the first day beyond each, and the longest time in which mould could grow.</summary>
/// <remarks>Most steps pass no limit; that is seen for all draws of the lane at once, and only the others are looked at one by one.</remarks>
internal sealed class LimitWatch<T>
    where T : struct, ILane<T>
{
    private readonly IReadOnlyList<Limit> limits;
    private readonly double[][] thresholds;
    private readonly T[] armed;
    private readonly double[] spells = new double[T.Count];
    private readonly bool[] retired = new bool[T.Count];
    private bool anySpell;

    public LimitWatch(IReadOnlyList<Limit> limits, IReadOnlyList<Isotherm> leaves)
    {
        this.limits = limits;
        thresholds = [.. limits.Select(limit => leaves.Select(limit.ThresholdOf).ToArray())];
        FirstDay = [.. limits.Select(_ => Enumerable.Repeat(double.NaN, T.Count).ToArray())];
        armed = [.. limits.Select((_, i) => Armed(i))];
    }

    /// <summary>For each limit and draw of the lane.</summary>
    public double[][] FirstDay { get; }

    /// <summary>For each draw of the lane, days.</summary>
    public double[] LongestSpell { get; } = new double[T.Count];

    /// <summary>True while a draw of the lane is above the activity of mould.</summary>
    public bool IsInSpell(int draw) => spells[draw] > 0;

    /// <summary>Watches a draw of the lane no longer: it does what it did the year before.</summary>
    public void Retire(int draw)
    {
        retired[draw] = true;
        for (var limit = 0; limit < limits.Count; limit++)
            armed[limit] = Armed(limit);
    }

    /// <summary>Looks at a point without a step: the start, or what an event made of the leaf.</summary>
    public void Look(double day, LeafEdge<T> at) => Pass(day, 0, at, at);

    /// <summary>Follows one step, with the rates of activity at its ends for the course in between.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Follow(double day, double length, in LeafEdge<T> from, in LeafEdge<T> to)
    {
        Pass(day, length, from, to);
        var mould = T.Of(Course.MouldActivity);
        var (before, after) = (from.Activity22 * from.Shift, to.Activity22 * to.Shift);
        if (anySpell || !T.AllLess(T.Max(before, after), mould))
            CountSpells(length, before - mould, after - mould);
    }

    /// <summary>The thresholds of draws that have not passed theirs; out of reach for those that have.</summary>
    private T Armed(int limit)
    {
        Span<double> each = stackalloc double[T.Count];
        for (var i = 0; i < each.Length; i++)
        {
            each[i] = !retired[i] && double.IsNaN(FirstDay[limit][i])
                ? thresholds[limit][Math.Min(i, thresholds[limit].Length - 1)]
                : limits[limit].IsBelow ? double.NegativeInfinity : double.PositiveInfinity;
        }

        return T.Load(each);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Pass(double day, double length, in LeafEdge<T> from, in LeafEdge<T> to)
    {
        for (var limit = 0; limit < limits.Count; limit++)
        {
            var value = limits[limit].IsOfActivity ? to.Activity22 * to.Shift : to.Activity22;
            if (limits[limit].IsBelow ? T.AllLess(armed[limit], value) : T.AllLess(value, armed[limit]))
                continue;
            for (var i = 0; i < T.Count; i++)
            {
                if (!retired[i] && double.IsNaN(FirstDay[limit][i]) && Beyond(limit, i, Of(to.Activity22, i), Of(to.Shift, i)) > 0)
                    FirstDay[limit][i] = day + (length == 0 ? 0 : length * Crossing(limit, i, length, from, to));
            }

            armed[limit] = Armed(limit);
        }
    }

    /// <summary>Above zero beyond the limit.</summary>
    private double Beyond(int limit, int draw, double activity22, double shift)
    {
        var value = limits[limit].IsOfActivity ? activity22 * shift : activity22;
        var excess = value - thresholds[limit][Math.Min(draw, thresholds[limit].Length - 1)];
        return limits[limit].IsBelow ? -excess : excess;
    }

    /// <summary>Where within the step the limit is passed, 0 to 1: bisection on Hermite's cubic.</summary>
    private double Crossing(int limit, int draw, double length, in LeafEdge<T> from, in LeafEdge<T> to)
    {
        var (a, b) = (Of(from.Activity22, draw), Of(to.Activity22, draw));
        var (rateA, rateB) = (Of(from.Rate, draw), Of(to.Rate, draw));
        var (shiftA, shiftB) = (Of(from.Shift, draw), Of(to.Shift, draw));
        var (low, high) = (0.0, 1.0);
        for (var i = 0; i < 24; i++)
        {
            var t = (low + high) / 2;
            var u = 1 - t;
            var activity = (a * u * u * (1 + (2 * t))) + (b * t * t * (3 - (2 * t))) + (length * t * u * ((rateA * u) - (rateB * t)));
            if (Beyond(limit, draw, activity, shiftA + ((shiftB - shiftA) * t)) > 0)
                high = t;
            else
                low = t;
        }

        return high;
    }

    private void CountSpells(double length, T before, T after)
    {
        anySpell = false;
        for (var i = 0; i < T.Count; i++)
        {
            if (retired[i])
                continue;
            var (a, b) = (Of(before, i), Of(after, i));
            if (a > 0 && b > 0)
            {
                spells[i] += length;
            }
            else if (a > 0)
            {
                LongestSpell[i] = Math.Max(LongestSpell[i], spells[i] + (length * a / (a - b)));
                spells[i] = 0;
            }
            else
            {
                spells[i] = b > 0 ? length * b / (b - a) : 0;
            }

            LongestSpell[i] = Math.Max(LongestSpell[i], spells[i]);
            anySpell |= spells[i] > 0;
        }
    }

    private static double Of(T lane, int draw)
    {
        Span<double> each = stackalloc double[T.Count];
        lane.Store(each);
        return each[draw];
    }
}
