using System.Runtime.CompilerServices;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>One step of the gas of rigid packages without viscous flow, as a map of the amounts, so that steps of a season can be joined to one.</summary>
/// <remarks>
/// <para><b>Equation</b> dn/dt = S(t) − λ(t) n, with λ and S averaged over the step and their even change over it. Where the day's swing is averaged away its first
/// harmonic enters twice: as the ripple n̂ = (Ŝ − n λ̂)/(λ + iω), and in the averages, λ − ½|λ̂|² λ/(λ² + ω²) and S − ½ Re(λ̂* Ŝ/(λ + iω)). Carbon dioxide is fed with
/// the exact mean of oxygen over the step.</para>
/// <para><b>Source</b> derived: variation of constants; averaging over two time scales, second order in the swing.</para>
/// <para><b>Valid</b> a swing of the day that is small against the whole, up to 40 % of the rate.</para>
/// <para><b>Error</b> third order in the swing; measured against the fine engine in the tests.</para>
/// </remarks>
[SkipLocalsInit]
internal static class QuietGasStep<T>
    where T : struct, ISingleLane<T>
{
    private const double Small = 0.1;

    /// <summary>The map of one step.</summary>
    /// <remarks>The parts are kept from being woven into one: beyond a certain size the compiler gives up weaving at all.</remarks>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Over(DrawGroup group, StayWeights weights, ReadOnlySpan<float> sums, ReadOnlySpan<float> trends, int length, int at, out GasMap<T> map)
    {
        GasesOfStep<T>.Of(group, weights, sums, at, out var gases);
        Over(gases, group, trends, length, at, out map);
    }

    private static void Over(in GasesOfStep<T> gases, DrawGroup group, ReadOnlySpan<float> trends, int length, int at, out GasMap<T> map)
    {
        var uptake = gases.Uptake;
        Step(gases.Oxygen, length, trends[StepTable.RateTrend], trends[StepTable.SourceTrend], trends[StepTable.UptakeTrend], uptake.Rate, out var oxygen);
        Step(gases.Carbon, length, trends[StepTable.RateTrend + 1], trends[StepTable.SourceTrend + 1], 0, T.Of(0f), out var carbon);
        Step(gases.Nitrogen, length, trends[StepTable.RateTrend + 2], trends[StepTable.SourceTrend + 2], 0, T.Of(0f), out var nitrogen);
        Feed(T.At(group.Quotient, at) * uptake.Rate, trends[StepTable.UptakeTrend] - trends[StepTable.RateTrend + 1], oxygen, carbon, nitrogen, out map);
    }

    /// <summary>From the beginning of a day to its middle, and from there to the partial pressures of its mean.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void OfDay(DrawGroup group, StayWeights weights, ReadOnlySpan<float> day, bool ahead, int at, out GasMap<T> middle, out GasPressures<T> told)
    {
        middle = default;
        GasesOfStep<T>.Of(group, weights, day, at, out var gases);
        if (ahead)
        {
            // Half of the day's way, the implicit rule: a day is short, and nothing rests on it.
            HalfOf(gases.Oxygen, out middle.OxygenLost, out middle.OxygenAdd, out _);
            HalfOf(gases.Carbon, out middle.CarbonLost, out middle.CarbonAdd, out var fed);
            HalfOf(gases.Nitrogen, out middle.NitrogenLost, out middle.NitrogenAdd, out _);
            fed *= T.At(group.Quotient, at) * gases.Uptake.Rate;
            middle.CarbonAdd = T.MulAdd(fed, middle.OxygenAdd, middle.CarbonAdd);
            middle.Fed = T.MulFrom(fed, middle.OxygenLost, fed);
        }

        GasRipple<T>.Of(gases, T.At(group.Quotient, at), out var ripple);
        ripple.Told(group, day, at, out told);
    }

    /// <summary>What half a day takes and adds, and what a unit of source more would add.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void HalfOf(in GasSums<T> day, out T lost, out T add, out T perSource)
    {
        day.Average(1, out var clock, out var source);
        perSource = T.Of(0.5) / T.MulAdd(T.Of(0.5), clock, T.Of(1f));
        (lost, add) = (clock * perSource, source * perSource);
    }

    /// <summary>Carbon dioxide gets the mean of what is given off, and by how much that changes over the step.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Feed(in T perOxygen, float faster, in GasOfStep<T> oxygen, in GasOfStep<T> carbon, in GasOfStep<T> nitrogen, out GasMap<T> map)
    {
        var (meanKeep, meanAdd) = (perOxygen * oxygen.MeanKeep, perOxygen * oxygen.MeanAdd);
        var slow = T.WhereLess(oxygen.Clock, T.Of(1f), T.Of(1f), T.Of(0f));
        var changeKeep = T.MulFrom(perOxygen * slow, oxygen.Lost, meanKeep * T.Of(faster));
        var changeAdd = T.MulAdd(perOxygen, T.MulAdd(slow, oxygen.Add, (T.Of(1f) - slow) * oxygen.Change), meanAdd * T.Of(faster));
        map.OxygenLost = oxygen.Lost;
        map.OxygenAdd = oxygen.Add;
        map.CarbonLost = carbon.Lost;
        map.CarbonAdd = T.MulAdd(changeAdd, carbon.MeanLate, T.MulAdd(meanAdd, carbon.MeanKeep, carbon.Add));
        map.Fed = T.MulAdd(changeKeep, carbon.MeanLate, meanKeep * carbon.MeanKeep);
        map.NitrogenLost = nitrogen.Lost;
        map.NitrogenAdd = nitrogen.Add;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Step(in GasSums<T> sums, int length, float rateTrend, float sourceTrend, float uptakeTrend, in T taken, out GasOfStep<T> step)
    {
        sums.Average(length, out var clock, out var source);
        var small = T.Of(Small);
        var perZ = T.Of(1f) / T.Max(clock, small);
        var changed = source * T.MulFrom(T.Of(uptakeTrend - rateTrend), taken * perZ, T.Of(sourceTrend - rateTrend));

        // φ = u/z, (1 − φ)/z and (1 − φ)/z − φ/2 over z: by their series where z is small.
        T first, second, late;
        if (T.AllLess(clock, small))
        {
            Series(clock, out first, out second, out late);
        }
        else
        {
            first = LaneExp.OneMinusOf(clock) * perZ;
            second = (T.Of(1f) - first) * perZ;
            late = T.MulFrom(T.Of(0.5), first, second) * perZ;
            if (!T.AllLess(small, clock))
            {
                Series(clock, out var one, out var two, out var three);
                (first, second, late) = (T.WhereLess(clock, small, one, first), T.WhereLess(clock, small, two, second), T.WhereLess(clock, small, three, late));
            }
        }

        step.Clock = clock;
        step.Lost = clock * first;
        step.MeanLate = clock * late;
        step.Add = T.MulAdd(source, first, changed * step.MeanLate);
        step.MeanKeep = first;
        step.MeanAdd = T.MulFrom(changed, late, source * second);
        step.Change = changed * perZ;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Series(T z, out T first, out T second, out T late)
    {
        first = Series(z, 1, -1.0 / 2, 1.0 / 6, -1.0 / 24, 1.0 / 120);
        second = Series(z, 1.0 / 2, -1.0 / 6, 1.0 / 24, -1.0 / 120, 1.0 / 720);
        late = Series(z, 1.0 / 12, -1.0 / 24, 1.0 / 80, -1.0 / 360, 1.0 / 2016);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Series(T z, double constant, double first, double second, double third, double fourth) =>
        T.MulAdd(z, T.MulAdd(z, T.MulAdd(z, T.MulAdd(z, T.Of(fourth), T.Of(third)), T.Of(second)), T.Of(first)), T.Of(constant));
}

/// <summary>One gas after one step: what is lost and added, its mean as of its beginning and of its source, how the source moves it where it follows at once, and how much weight its mean gives to what comes late.</summary>
internal struct GasOfStep<T>
    where T : struct, ISingleLane<T>
{
    public T Clock, Lost, Add, MeanKeep, MeanAdd, Change, MeanLate;
}
