using System.Runtime.CompilerServices;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>The leaf of a group of draws over the steps of a table.</summary>
/// <remarks>
/// <para><b>Equation</b> with y = a22 and θ the clock ∫ΣG f s psat dt: dy/dθ = −(y − r)/(m dX/da), r = RH/s as felt through the paths. Over a step, with
/// φ(z) = (1 − e^(−z))/z: y₁ = y₀ + z (r̄ − y₀) φ + Δr (1 − φ − z φ/2), z = θ/(m dX/da) with dX/da at the middle of the step, r̄ its mean and Δr its change.</para>
/// <para><b>Source</b> derived from the storage model's exchange; exponential step, exact for an even change of r.</para>
/// <para><b>Valid</b> activities from 1e-6 to 0.9999; a draw that leaves them becomes NaN.</para>
/// <para><b>Error</b> second order in the step; measured against the fine engine in the tests.</para>
/// </remarks>
internal static class WaterSteps<T, TLeaf>
    where T : struct, ISingleLane<T>
    where TLeaf : struct, ILeafLanes<T>
{
    private const double Lowest = CourseRun<T>.Lowest;
    private const double Highest = CourseRun<T>.Highest;
    private const float LeastClock = 1e-30f;

    /// <summary>1/(dX/da) where the leaf stands.</summary>
    public static void Begin(DrawGroup group, TLeaf leaf)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
            leaf.PerSlope(Inside(T.At(group.Activity, at)), at).Put(group.PerSlope, at);
    }

    /// <summary>Moves the activities on by one step; true where the watch must look, because a draw may have passed a limit.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static bool Advance(DrawGroup group, TLeaf leaf, StayWeights weights, ReadOnlySpan<float> sums, double change, LimitBook? book)
    {
        var passed = false;
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            var before = T.At(group.Activity, at);
            var moved = Step(group, leaf, weights, sums, change, at, before, out var z, out var pull);
            moved.AddTo(group.Activity, at);
            if (book is not null)
            {
                before.Put(group.Before, at);
                z.Put(group.Clock, at);
                pull.Put(group.Pull, at);
                var after = before + moved;
                passed |= !T.AllLess(T.At(book.Below, at), after) || !T.AllLess(T.Max(before, after), T.At(book.Above, at));
            }
        }

        return passed;
    }

    /// <summary>The middle of a day's way, moisture and all, leaving the group as it is.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Tell(DrawGroup group, TLeaf leaf, StayWeights weights, ReadOnlySpan<float> day, bool ahead, RowBuffer row, int place)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            var activity = T.At(group.Activity, at);
            if (ahead)
            {
                // Half of the day's way, the implicit rule: a day is short, and nothing rests on it.
                Drive(group, weights, day, at, activity, out var clock, out var pull);
                var half = T.Of(0.5) * leaf.PerSlope(Inside(activity), at);
                activity += half * pull / T.MulAdd(half, clock, T.Of(1f));
            }

            var vapour = T.Of(0f);
            for (var k = 0; k < TemperatureBasis.Nodes; k++)
                vapour = T.MulAdd(T.At(weights.Values, ((StayWeights.Vapour + k) * weights.Slots) + at), T.Of(day[TemperatureBasis.Water + k]), vapour);
            activity.Put(row.Activity, place + at);
            Write(leaf, activity, vapour, at, row, place);
        }
    }

    /// <summary>What follows from the activities that a row holds already, where all draws make the same of the room's vapour.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Complete(DrawGroup group, TLeaf leaf, double vapour, RowBuffer row, int place)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
            Write(leaf, T.At(row.Activity, place + at), T.Of(vapour), at, row, place);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Write(TLeaf leaf, T activity, T vapour, int at, RowBuffer row, int place)
    {
        leaf.Moisture(Inside(activity), at, out var above, out var below);
        (above / (above + below)).Put(row.WetBasis, place + at);
        (activity * vapour).Put(row.Vapour, place + at);
    }

    /// <summary>By how much the activity moves: not a number where it leaves the range.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Step(DrawGroup group, TLeaf leaf, StayWeights weights, ReadOnlySpan<float> sums, double change, int at, T before, out T z, out T pull)
    {
        Drive(group, weights, sums, at, before, out var perMass, out pull);
        var half = T.Of(0.5) * T.At(group.PerSlope, at);
        var middle = Inside(before + (half * pull / T.MulAdd(half, perMass, T.Of(1f))));
        var slope = leaf.PerSlope(middle, at);
        slope.Put(group.PerSlope, at);
        pull *= slope;
        z = T.Max(slope * perMass, T.Of(LeastClock));
        var fraction = LaneExp.OneMinusOf(z);
        var first = fraction / z;
        var moved = T.MulAdd(pull, first, T.Of(change) * T.MulFrom(T.Of(0.5), fraction, T.Of(1f) - first));
        var (after, lost) = (before + moved, T.Of(float.NaN));
        return T.WhereLess(after, T.Of(Highest), T.WhereLess(T.Of(Lowest), after, moved, lost), lost);
    }

    /// <summary>Clock per mass, and that times the distance to the room.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Drive(DrawGroup group, StayWeights weights, ReadOnlySpan<float> sums, int at, T activity, out T perMass, out T pull)
    {
        var (clock, source) = (T.Of(0f), T.Of(0f));
        var values = weights.Values;
        var row = at;
        if (weights.IsShared)
        {
            row += SharedWeather.Pivot * weights.Slots;
            clock = T.At(values, row) * T.Of(sums[SharedWeather.Clock]);
            source = T.At(values, row + ((weights.IsPlain ? StayWeights.Clock : StayWeights.Source) * weights.Slots)) * T.Of(sums[SharedWeather.Source]);
        }
        else if (weights.IsPlain)
        {
            for (var k = 0; k < TemperatureBasis.Nodes; k++)
            {
                var weight = T.At(values, row);
                clock = T.MulAdd(weight, T.Of(sums[TemperatureBasis.Water + k]), clock);
                source = T.MulAdd(weight, T.Of(sums[TemperatureBasis.WaterHumid + k]), source);
                row += weights.Slots;
            }
        }
        else
        {
            var outer = T.Of(0f);
            for (var k = 0; k < TemperatureBasis.Nodes; k++)
            {
                var dry = T.At(values, row + (StayWeights.Source * weights.Slots));
                clock = T.MulAdd(T.At(values, row), T.Of(sums[TemperatureBasis.Water + k]), clock);
                source = T.MulAdd(dry, T.Of(sums[TemperatureBasis.WaterHumid + k]), source);
                outer = T.MulAdd(dry, T.Of(sums[TemperatureBasis.Water + k]), outer);
                row += weights.Slots;
            }

            source = T.MulAdd(outer, T.At(group.HumidityOffset, at), source);
        }

        var perDry = T.At(group.PerDry, at);
        perMass = perDry * clock;
        pull = perDry * T.MulFrom(clock, activity, source);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Inside(T activity) => T.Max(T.Min(activity, T.Of(Highest)), T.Of(Lowest));
}
