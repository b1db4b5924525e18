using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>Watches a group of draws for their limits: the first day beyond each, and the longest time in which mould could grow.</summary>
/// <remarks>
/// Most steps pass no limit; that is seen for whole vectors from <see cref="Below"/> and <see cref="Above"/>, which are drawn so tight that no warmth of the place
/// makes a limit pass unseen. Only then are the draws looked at one by one, the course within the step by Hermite's cubic.
/// </remarks>
internal sealed class LimitBook
{
    /// <summary>Slots that are looked at together.</summary>
    public const int Block = 32;

    private const double PieceDays = 5;
    private const double Near = 1.0 / 16384; // of five days: half a minute
    private const int MostTries = 40;

    private readonly DrawGroup group;
    private readonly IReadOnlyList<Limit> limits;
    private readonly double[][] thresholds;
    private readonly double[] spells;
    private readonly bool counts;
    private readonly bool feelsWarmth; // limits of moisture do not
    private readonly double[] blockBelow;
    private readonly double[] blockAbove;
    private double[] leastShift;
    private double[] mostShift;
    private TemperatureBasis? basis;

    public LimitBook(DrawGroup group, Course course, CourseLeaf leaf)
    {
        (this.group, limits, counts) = (group, course.Limits, course.CountsMouldDays);
        feelsWarmth = counts || limits.Any(limit => limit.IsOfActivity);
        (Below, Above, spells, LongestSpell) = (new float[group.Slots], new float[group.Slots], new double[group.Slots], new double[group.Slots]);
        (leastShift, mostShift) = (new double[group.Slots], new double[group.Slots]);
        (blockBelow, blockAbove) = (new double[(group.Slots + Block - 1) / Block], new double[(group.Slots + Block - 1) / Block]);
        thresholds = [.. limits.Select(limit => Thresholds(limit, leaf))];
        FirstDay = [.. limits.Select(_ => Enumerable.Repeat(double.NaN, group.Slots).ToArray())];
    }

    private double[] Thresholds(Limit limit, CourseLeaf leaf)
    {
        var each = new double[group.Slots];
        for (var slot = 0; slot < each.Length; slot++)
            each[slot] = slot > 0 && ReferenceEquals(leaf[group.DrawOf(slot)], leaf[group.DrawOf(slot - 1)]) ? each[slot - 1] : limit.ThresholdOf(leaf[group.DrawOf(slot)]);
        return each;
    }

    /// <summary>Activities at 22 °C at or under which a draw must be looked at.</summary>
    public float[] Below { get; }

    /// <summary>Activities at 22 °C at or over which a draw must be looked at.</summary>
    public float[] Above { get; }

    /// <summary>For each limit and slot; NaN where it was never passed.</summary>
    public double[][] FirstDay { get; }

    /// <summary>For each slot, days on end above <see cref="Course.MouldActivity"/>.</summary>
    public double[] LongestSpell { get; }

    /// <summary>True while any draw is above the activity of mould.</summary>
    public bool AnySpell => spells.Any(days => days > 0);

    /// <summary>True where draws of a block that come between two activities must be looked at.</summary>
    public bool Concerns(int block, double lowest, double highest) => !(lowest > blockBelow[block] && highest < blockAbove[block]);

    /// <summary>True where no draw of a block has a limit left to pass.</summary>
    public bool IsIdle(int block) => double.IsNegativeInfinity(blockBelow[block]) && double.IsPositiveInfinity(blockAbove[block]);

    /// <summary>True where any block must be looked at between two activities.</summary>
    public bool Concerns(double lowest, double highest)
    {
        for (var block = 0; block < blockBelow.Length; block++)
        {
            if (Concerns(block, lowest, highest))
                return true;
        }

        return false;
    }

    /// <summary>Another place.</summary>
    public void Enter(TemperatureBasis place)
    {
        basis = place;
        var (low, high) = (place.NodeKelvin[0] - 1, place.NodeKelvin[^1] + 1);
        for (var slot = 0; slot < group.Slots; slot++)
        {
            var heat = group.Heat[group.DrawOf(slot)];
            var (a, b) = (SorptionShift.FactorOf(heat, low + group.TemperatureOffset[slot]), SorptionShift.FactorOf(heat, high + group.TemperatureOffset[slot]));
            (leastShift[slot], mostShift[slot]) = (Math.Min(a, b), Math.Max(a, b));
        }

        Arm();
    }

    /// <summary>Looks at a point without a step: the start, or what an event made of the leaf.</summary>
    public void Look(int day, double at)
    {
        for (var slot = 0; slot < group.Slots; slot++)
        {
            var shift = Shift(slot, day);
            for (var limit = 0; limit < limits.Count; limit++)
            {
                if (double.IsNaN(FirstDay[limit][slot]) && Beyond(limit, slot, group.Activity[slot], shift) > 0)
                    FirstDay[limit][slot] = at;
            }
        }

        Arm();
    }

    /// <summary>Follows the last step of the group.</summary>
    /// <param name="day">Its first day, cells of the place.</param>
    /// <param name="length">Days.</param>
    /// <param name="change">Of the room's humidity as leaf feels it.</param>
    /// <param name="first">First slot to look at.</param>
    /// <param name="end">The slot after the last.</param>
    public void Follow(int day, int length, double change, int first, int end)
    {
        var pieces = (int)Math.Ceiling(length / PieceDays);
        Span<double> edges = stackalloc double[pieces + 1];
        for (var piece = 0; piece <= pieces; piece++)
            edges[piece] = (double)length * piece / pieces;
        for (var slot = first; slot < end; slot++)
        {
            var (from, to) = (group.Before[slot], group.Activity[slot]);
            if (to > Below[slot] && Math.Max(from, to) < Above[slot])
                continue;
            var startRate = group.Pull[slot] - (group.Clock[slot] * change / 2);
            var endRate = group.Pull[slot] + (group.Clock[slot] * (from + (change / 2) - to));
            Way way = new(from, to, startRate, endRate, length);
            for (var piece = 0; piece < pieces; piece++)
                Piece(slot, day, edges[piece], edges[piece + 1], way);
        }

        Arm(first, end);
    }

    private void Arm() => Arm(0, group.Slots);

    /// <summary>Draws the lines anew, for whole blocks.</summary>
    private void Arm(int first, int end)
    {
        for (var slot = first; slot < end; slot++)
        {
            var block = slot / Block;
            if (slot % Block == 0)
                (blockBelow[block], blockAbove[block]) = (double.NegativeInfinity, double.PositiveInfinity);
            var (below, above) = (double.NegativeInfinity, counts ? Course.MouldActivity / mostShift[slot] : double.PositiveInfinity);
            for (var limit = 0; limit < limits.Count; limit++)
            {
                if (!double.IsNaN(FirstDay[limit][slot]))
                    continue;
                var line = thresholds[limit][slot];
                if (limits[limit].IsBelow)
                    below = Math.Max(below, limits[limit].IsOfActivity ? line / leastShift[slot] : line);
                else
                    above = Math.Min(above, limits[limit].IsOfActivity ? line / mostShift[slot] : line);
            }

            (Below[slot], Above[slot]) = ((float)below, (float)above);
            (blockBelow[block], blockAbove[block]) = (Math.Max(blockBelow[block], below), Math.Min(blockAbove[block], above));
        }
    }

    private void Piece(int slot, int day, double from, double to, in Way way)
    {
        var (before, after) = (way.At(from), way.At(to));
        var (shiftBefore, shiftAfter) = (Shift(slot, day + from), Shift(slot, day + to));
        for (var limit = 0; limit < limits.Count; limit++)
        {
            if (!double.IsNaN(FirstDay[limit][slot]) || !(Beyond(limit, slot, after, shiftAfter) > 0))
                continue;
            FirstDay[limit][slot] = day + from + ((to - from) * Passing(limit, slot, from, to, shiftBefore, shiftAfter, way));
        }

        if (!counts)
            return;
        var (a, b) = ((before * shiftBefore) - Course.MouldActivity, (after * shiftAfter) - Course.MouldActivity);
        var length = to - from;
        if (a > 0 && b > 0)
        {
            spells[slot] += length;
        }
        else if (a > 0)
        {
            LongestSpell[slot] = Math.Max(LongestSpell[slot], spells[slot] + (length * a / (a - b)));
            spells[slot] = 0;
        }
        else
        {
            spells[slot] = b > 0 ? length * b / (b - a) : 0;
        }

        LongestSpell[slot] = Math.Max(LongestSpell[slot], spells[slot]);
    }

    /// <summary>Where between two times a limit is passed, as a share of the way: false position, halving a side that stays (Illinois).</summary>
    private double Passing(int limit, int slot, double from, double to, double shiftBefore, double shiftAfter, in Way way)
    {
        var (low, high) = (0.0, 1.0);
        var (under, over) = (Beyond(limit, slot, way.At(from), shiftBefore), Beyond(limit, slot, way.At(to), shiftAfter));
        var (found, side) = (under > 0 ? 0.0 : 1.0, 0);
        for (var tries = 0; under <= 0 && high - low > Near && tries < MostTries; tries++)
        {
            var before = found;
            found = high - (over * (high - low) / (over - under));
            var beyond = Beyond(limit, slot, way.At(from + ((to - from) * found)), shiftBefore + ((shiftAfter - shiftBefore) * found));
            if (beyond > 0)
                (high, over, under, side) = (found, beyond, side > 0 ? under / 2 : under, 1);
            else
                (low, under, over, side) = (found, beyond, side < 0 ? over / 2 : over, -1);
            if (Math.Abs(found - before) < Near)
                break;
        }

        return found;
    }

    /// <summary>Above zero beyond the limit.</summary>
    private double Beyond(int limit, int slot, double activity22, double shift)
    {
        var excess = (limits[limit].IsOfActivity ? activity22 * shift : activity22) - thresholds[limit][slot];
        return limits[limit].IsBelow ? -excess : excess;
    }

    /// <summary>s(T) at the mean temperature of the two days about a time.</summary>
    private double Shift(int slot, double day)
    {
        var heat = group.Heat[group.DrawOf(slot)];
        return heat == 0 || basis is null || !feelsWarmth ? 1 : SorptionShift.FactorOf(heat, basis.MeanKelvinAbout(day) + group.TemperatureOffset[slot]);
    }

    /// <summary>The way of one draw over a step: Hermite's cubic.</summary>
    private readonly record struct Way(double From, double To, double StartRise, double EndRise, double Length)
    {
        public double At(double days)
        {
            var t = days / Length;
            var u = 1 - t;
            return (From * u * u * (1 + (2 * t))) + (To * t * t * (3 - (2 * t))) + (t * u * ((StartRise * u) - (EndRise * t)));
        }
    }
}
