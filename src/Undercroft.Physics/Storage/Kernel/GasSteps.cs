using System.Runtime.CompilerServices;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>What a span of time makes of three amounts of gas: oxygen and nitrogen each by itself, carbon dioxide fed by the oxygen taken up.</summary>
internal struct GasMap<T>
    where T : struct, ILane<T>
{
    /// <summary>n ↦ keep n + add; carbon dioxide gets <see cref="Fed"/> times the oxygen besides.</summary>
    public T OxygenKeep, OxygenAdd, CarbonKeep, CarbonAdd, Fed, NitrogenKeep, NitrogenAdd;

    /// <summary>Numbers in a map.</summary>
    public const int Width = 7;

    /// <summary>The map that changes nothing.</summary>
    public static GasMap<T> Nothing => new() { OxygenKeep = T.Of(1), CarbonKeep = T.Of(1), NitrogenKeep = T.Of(1), OxygenAdd = T.Of(0), CarbonAdd = T.Of(0), Fed = T.Of(0), NitrogenAdd = T.Of(0) };

    /// <summary>First this, then <paramref name="next"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly GasMap<T> Then(in GasMap<T> next) => new()
    {
        OxygenKeep = next.OxygenKeep * OxygenKeep,
        OxygenAdd = (next.OxygenKeep * OxygenAdd) + next.OxygenAdd,
        CarbonKeep = next.CarbonKeep * CarbonKeep,
        CarbonAdd = (next.CarbonKeep * CarbonAdd) + (next.Fed * OxygenAdd) + next.CarbonAdd,
        Fed = (next.CarbonKeep * Fed) + (next.Fed * OxygenKeep),
        NitrogenKeep = next.NitrogenKeep * NitrogenKeep,
        NitrogenAdd = (next.NitrogenKeep * NitrogenAdd) + next.NitrogenAdd,
    };

    /// <summary>Applies it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly (T Oxygen, T CarbonDioxide, T Nitrogen) To(T oxygen, T carbonDioxide, T nitrogen) => (
        (OxygenKeep * oxygen) + OxygenAdd, (CarbonKeep * carbonDioxide) + (Fed * oxygen) + CarbonAdd, (NitrogenKeep * nitrogen) + NitrogenAdd);

    /// <summary>Writes it to rows of <paramref name="slots"/> doubles.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Store(Span<double> rows, int slots, int at)
    {
        OxygenKeep.Store(rows[at..]);
        OxygenAdd.Store(rows[(slots + at)..]);
        CarbonKeep.Store(rows[((2 * slots) + at)..]);
        CarbonAdd.Store(rows[((3 * slots) + at)..]);
        Fed.Store(rows[((4 * slots) + at)..]);
        NitrogenKeep.Store(rows[((5 * slots) + at)..]);
        NitrogenAdd.Store(rows[((6 * slots) + at)..]);
    }

    /// <summary>Reads it back.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static GasMap<T> Load(ReadOnlySpan<double> rows, int slots, int at) => new()
    {
        OxygenKeep = T.Load(rows[at..]),
        OxygenAdd = T.Load(rows[(slots + at)..]),
        CarbonKeep = T.Load(rows[((2 * slots) + at)..]),
        CarbonAdd = T.Load(rows[((3 * slots) + at)..]),
        Fed = T.Load(rows[((4 * slots) + at)..]),
        NitrogenKeep = T.Load(rows[((5 * slots) + at)..]),
        NitrogenAdd = T.Load(rows[((6 * slots) + at)..]),
    };
}

/// <summary>The gas of rigid packages without viscous flow: each step as a map of the amounts, so that steps of a season can be joined to one.</summary>
/// <remarks>
/// <para><b>Equation</b> dn/dt = S(t) − λ(t) n, with λ and S averaged over the step and their even change over it. Where the day's swing is averaged away its first
/// harmonic enters twice: as the ripple n̂ = (Ŝ − n λ̂)/(λ + iω), and in the averages, λ − ½|λ̂|² λ/(λ² + ω²) and S − ½ Re(λ̂* Ŝ/(λ + iω)). Carbon dioxide is fed with
/// the exact mean of oxygen over the step.</para>
/// <para><b>Source</b> derived: variation of constants; averaging over two time scales, second order in the swing.</para>
/// <para><b>Valid</b> a swing of the day that is small against the whole, up to 40 % of the rate.</para>
/// <para><b>Error</b> third order in the swing; measured against the fine engine in the tests.</para>
/// </remarks>
internal static class GasSteps<T>
    where T : struct, ILane<T>
{
    private const double Omega = Math.Tau;
    private const double Small = 1e-3;
    private const int Nodes = TemperatureBasis.Nodes;

    /// <summary>Moves the amounts of a group on by one step.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Advance(DrawGroup group, StayWeights weights, ReadOnlySpan<double> sums, ReadOnlySpan<double> trends, double length)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            Over(group, weights, sums, trends, length, at, out var map, out _);
            var (oxygen, carbonDioxide, nitrogen) = map.To(T.Load(group.Moles[0].AsSpan(at)), T.Load(group.Moles[1].AsSpan(at)), T.Load(group.Moles[2].AsSpan(at)));
            oxygen.Store(group.Moles[0].AsSpan(at));
            carbonDioxide.Store(group.Moles[1].AsSpan(at));
            nitrogen.Store(group.Moles[2].AsSpan(at));
        }
    }

    /// <summary>Joins one step more to the maps of a group.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Join(DrawGroup group, StayWeights weights, ReadOnlySpan<double> sums, ReadOnlySpan<double> trends, double length, Span<double> maps)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            Over(group, weights, sums, trends, length, at, out var map, out _);
            GasMap<T>.Load(maps, group.Slots, at).Then(map).Store(maps, group.Slots, at);
        }
    }

    /// <summary>Maps that change nothing.</summary>
    public static double[] NoMaps(DrawGroup group)
    {
        var maps = new double[GasMap<T>.Width * group.Slots];
        for (var at = 0; at < group.Slots; at += T.Count)
            GasMap<T>.Nothing.Store(maps, group.Slots, at);
        return maps;
    }

    /// <summary>Applies maps to the amounts of a group.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Apply(ReadOnlySpan<double> maps, DrawGroup group)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            var (oxygen, carbonDioxide, nitrogen) = GasMap<T>.Load(maps, group.Slots, at)
                .To(T.Load(group.Moles[0].AsSpan(at)), T.Load(group.Moles[1].AsSpan(at)), T.Load(group.Moles[2].AsSpan(at)));
            oxygen.Store(group.Moles[0].AsSpan(at));
            carbonDioxide.Store(group.Moles[1].AsSpan(at));
            nitrogen.Store(group.Moles[2].AsSpan(at));
        }
    }

    /// <summary>Partial pressures, mean of a day, from the amounts at its beginning.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Tell(ReadOnlySpan<double> maps, DrawGroup group, RowBuffer row, int place)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            var (oxygen, carbonDioxide, nitrogen) = GasMap<T>.Load(maps, group.Slots, at)
                .To(T.Load(group.Moles[0].AsSpan(at)), T.Load(group.Moles[1].AsSpan(at)), T.Load(group.Moles[2].AsSpan(at)));
            oxygen.Store(row.Oxygen.AsSpan(place + at));
            carbonDioxide.Store(row.CarbonDioxide.AsSpan(place + at));
            nitrogen.Store(row.Nitrogen.AsSpan(place + at));
        }
    }

    /// <summary>Maps from the amounts at the beginning of a day to the partial pressures of its mean.</summary>
    /// <param name="group">Whose.</param>
    /// <param name="weights">Of the stay.</param>
    /// <param name="day">Integrals of the day.</param>
    /// <param name="ahead">False where the day lies before the amounts.</param>
    /// <param name="maps">Filled.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Pressures(DrawGroup group, StayWeights weights, ReadOnlySpan<double> day, bool ahead, Span<double> maps)
    {
        Span<double> still = stackalloc double[StepTable.Trends];
        still.Clear();
        var half = T.Of(0.5);
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            Over(group, weights, day, still, 1, at, out var map, out var ripple);
            var middle = GasMap<T>.Nothing;
            if (ahead)
            {
                middle = new()
                {
                    OxygenKeep = half * (T.Of(1) + map.OxygenKeep), OxygenAdd = half * map.OxygenAdd, CarbonKeep = half * (T.Of(1) + map.CarbonKeep),
                    CarbonAdd = half * map.CarbonAdd, Fed = half * map.Fed, NitrogenKeep = half * (T.Of(1) + map.NitrogenKeep), NitrogenAdd = half * map.NitrogenAdd,
                };
            }

            var per = T.Load(group.PerVolume.AsSpan(at));
            var kelvin = T.Of(day[TemperatureBasis.Kelvin]) + T.Load(group.TemperatureOffset.AsSpan(at));
            var (swingCos, swingSin) = (half * T.Of(day[TemperatureBasis.KelvinCos]), half * T.Of(day[TemperatureBasis.KelvinSin]));
            GasMap<T> told = new()
            {
                OxygenKeep = per * (kelvin - (swingCos * ripple.OxygenCos) - (swingSin * ripple.OxygenSin)),
                OxygenAdd = per * ((swingCos * ripple.OxygenCosSource) + (swingSin * ripple.OxygenSinSource)),
                CarbonKeep = per * (kelvin - (swingCos * ripple.CarbonCos) - (swingSin * ripple.CarbonSin)),
                CarbonAdd = per * ((swingCos * ripple.CarbonCosSource) + (swingSin * ripple.CarbonSinSource)),
                Fed = per * ((swingCos * ripple.FedCos) + (swingSin * ripple.FedSin)),
                NitrogenKeep = per * (kelvin - (swingCos * ripple.NitrogenCos) - (swingSin * ripple.NitrogenSin)),
                NitrogenAdd = per * ((swingCos * ripple.NitrogenCosSource) + (swingSin * ripple.NitrogenSinSource)),
            };
            middle.Then(told).Store(maps, group.Slots, at);
        }
    }

    /// <summary>The map of one step, and the ripple of the day about its end for who asks.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Over(
        DrawGroup group, StayWeights weights, ReadOnlySpan<double> sums, ReadOnlySpan<double> trends, double length, int at, out GasMap<T> map, out GasRipple<T> ripple)
    {
        var humid = T.Load(group.HumidityOffset.AsSpan(at));
        var quotient = T.Load(group.Quotient.AsSpan(at));
        var (taken, takenCos, takenSin) = Three(weights, sums, StayWeights.Uptake, TemperatureBasis.Gas, at);
        GasSums<T> oxygen = Gather(weights, sums, 0, humid, at);
        (oxygen.Rate, oxygen.RateCos, oxygen.RateSin) = (oxygen.Rate + taken, oxygen.RateCos + takenCos, oxygen.RateSin + takenSin);
        var first = Step(oxygen, length, T.Of(trends[StepTable.RateTrend]), T.Of(trends[StepTable.SourceTrend]), T.Of(trends[StepTable.UptakeTrend]), taken);
        var carbon = Gather(weights, sums, 1, humid, at);
        var second = Step(carbon, length, T.Of(trends[StepTable.RateTrend + 1]), T.Of(trends[StepTable.SourceTrend + 1]), T.Of(0), T.Of(0));
        var nitrogen = Gather(weights, sums, 2, humid, at);
        var third = Step(nitrogen, length, T.Of(trends[StepTable.RateTrend + 2]), T.Of(trends[StepTable.SourceTrend + 2]), T.Of(0), T.Of(0));

        // Carbon dioxide: the mean of what is given off, and by how much that changes over the step.
        var perOxygen = quotient * taken;
        var (meanKeep, meanAdd) = (perOxygen * first.MeanKeep, perOxygen * first.MeanAdd);
        var slow = T.WhereLess(first.Clock, T.Of(1), T.Of(1), T.Of(0));
        var faster = T.Of(trends[StepTable.UptakeTrend]) - T.Of(trends[StepTable.RateTrend + 1]);
        var changeKeep = (perOxygen * slow * (first.Keep - T.Of(1))) + (meanKeep * faster);
        var changeAdd = (perOxygen * ((slow * first.Add) + ((T.Of(1) - slow) * first.Change))) + (meanAdd * faster);
        map = new()
        {
            OxygenKeep = first.Keep, OxygenAdd = first.Add, CarbonKeep = second.Keep, NitrogenKeep = third.Keep, NitrogenAdd = third.Add,
            CarbonAdd = second.Add + (meanAdd * second.Given) + (changeAdd * second.GivenChange),
            Fed = (meanKeep * second.Given) + (changeKeep * second.GivenChange),
        };

        var (cosO, sinO, cosOSource, sinOSource) = Ripple(oxygen, length);
        var (cosC, sinC, cosCSource, sinCSource) = Ripple(carbon, length);
        var (cosN, sinN, cosNSource, sinNSource) = Ripple(nitrogen, length);
        var (mean, size) = Size(carbon, length);

        // What oxygen forces on carbon dioxide: its own swing of uptake, and that of oxygen.
        var (forceCos, forceSin) = (quotient * (takenCos - (taken * cosO)), quotient * (takenSin - (taken * sinO)));
        var (sourceCos, sourceSin) = (perOxygen * cosOSource, perOxygen * sinOSource);
        ripple = new()
        {
            OxygenCos = cosO, OxygenSin = sinO, OxygenCosSource = cosOSource, OxygenSinSource = sinOSource, CarbonCos = cosC, CarbonSin = sinC,
            CarbonCosSource = cosCSource + (((sourceCos * mean) - (sourceSin * T.Of(Omega))) * size),
            CarbonSinSource = sinCSource + (((sourceCos * T.Of(Omega)) + (sourceSin * mean)) * size),
            FedCos = ((forceCos * mean) - (forceSin * T.Of(Omega))) * size, FedSin = ((forceCos * T.Of(Omega)) + (forceSin * mean)) * size,
            NitrogenCos = cosN, NitrogenSin = sinN, NitrogenCosSource = cosNSource, NitrogenSinSource = sinNSource,
        };
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (T Mean, T Size) Size(in GasSums<T> sums, double length)
    {
        var per = T.Of(1 / length);
        var mean = sums.Rate * per;
        return (mean, per / ((mean * mean) + T.Of(Omega * Omega)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (T Cos, T Sin, T CosSource, T SinSource) Ripple(in GasSums<T> sums, double length)
    {
        var (mean, size) = Size(sums, length);
        return (
            ((sums.RateCos * mean) - (sums.RateSin * T.Of(Omega))) * size, ((sums.RateCos * T.Of(Omega)) + (sums.RateSin * mean)) * size,
            ((sums.SourceCos * mean) - (sums.SourceSin * T.Of(Omega))) * size, ((sums.SourceCos * T.Of(Omega)) + (sums.SourceSin * mean)) * size);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static GasOfStep<T> Step(in GasSums<T> sums, double length, T rateTrend, T sourceTrend, T uptakeTrend, T taken)
    {
        var per = T.Of(1 / length);
        var mean = sums.Rate * per;
        var lag = T.Of(0.5) * per / ((mean * mean) + T.Of(Omega * Omega));
        var source = sums.Source - (lag * ((((sums.RateCos * sums.SourceCos) + (sums.RateSin * sums.SourceSin)) * mean)
            + (((sums.RateSin * sums.SourceCos) - (sums.RateCos * sums.SourceSin)) * T.Of(Omega))));
        var clock = T.Max(sums.Rate - (lag * ((sums.RateCos * sums.RateCos) + (sums.RateSin * sums.RateSin)) * mean), T.Of(0));
        var z = T.Max(clock, T.Of(Small));
        var perZ = T.Of(1) / z;
        var fraction = LaneExp.OneMinusOf(clock);
        var trend = sourceTrend - rateTrend - ((uptakeTrend - rateTrend) * taken * perZ);

        // φ = u/z, (1 − φ)/z, (1 − φ − u/2)/z and (φ/2 − (1 − φ)/z)/z, by their series where z is small.
        var first = fraction * perZ;
        var second = (T.Of(1) - first) * perZ;
        var third = (T.Of(1) - first - (T.Of(0.5) * fraction)) * perZ;
        var fourth = ((T.Of(0.5) * first) - second) * perZ;
        first = T.WhereLess(clock, T.Of(Small), T.Of(1) - (clock * (T.Of(0.5) - (clock * T.Of(1.0 / 6)))), first);
        second = T.WhereLess(clock, T.Of(Small), T.Of(0.5) - (clock * (T.Of(1.0 / 6) - (clock * T.Of(1.0 / 24)))), second);
        third = T.WhereLess(clock, T.Of(Small), clock * (T.Of(1.0 / 12) - (clock * T.Of(1.0 / 24))), third);
        fourth = T.WhereLess(clock, T.Of(Small), T.Of(-1.0 / 12) + (clock * T.Of(1.0 / 24)), fourth);
        var changed = source * trend;
        return new()
        {
            Clock = clock, Keep = T.Of(1) - fraction, Add = (source * first) + (changed * third), MeanKeep = first, MeanAdd = (source * second) + (changed * fourth),
            Change = changed * perZ, Given = first, GivenChange = third,
        };
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static GasSums<T> Gather(StayWeights weights, ReadOnlySpan<double> sums, int gas, T humid, int at)
    {
        var family = StayWeights.Gas + (gas * StayWeights.GasWidth);
        var (rate, rateCos, rateSin) = Three(weights, sums, family, TemperatureBasis.Gas, at);
        var (source, sourceCos, sourceSin) = Three(weights, sums, family + Nodes, TemperatureBasis.Pressed, at);
        var (vapour, vapourCos, vapourSin) = Three(weights, sums, family + (2 * Nodes), TemperatureBasis.Humid, at);
        var (more, moreCos, moreSin) = Three(weights, sums, family + (2 * Nodes), TemperatureBasis.Gas, at);
        return new()
        {
            Rate = rate, RateCos = rateCos, RateSin = rateSin, Source = source + vapour + (humid * more), SourceCos = sourceCos + vapourCos + (humid * moreCos),
            SourceSin = sourceSin + vapourSin + (humid * moreSin),
        };
    }

    /// <summary>One function of temperature against three families of integrals that follow each other.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (T Mean, T Cos, T Sin) Three(StayWeights weights, ReadOnlySpan<double> sums, int row, int family, int at)
    {
        var (mean, cos, sin) = (T.Of(0), T.Of(0), T.Of(0));
        var values = weights.Values.AsSpan((row * weights.Slots) + at);
        for (var k = 0; k < Nodes; k++)
        {
            var weight = T.Load(values[(k * weights.Slots)..]);
            mean += weight * T.Of(sums[family + k]);
            cos += weight * T.Of(sums[family + Nodes + k]);
            sin += weight * T.Of(sums[family + (2 * Nodes) + k]);
        }

        return (mean, cos, sin);
    }

    private struct GasSums<TLane>
        where TLane : struct, ILane<TLane>
    {
        public TLane Rate, RateCos, RateSin, Source, SourceCos, SourceSin;
    }

    private struct GasOfStep<TLane>
        where TLane : struct, ILane<TLane>
    {
        public TLane Clock, Keep, Add, MeanKeep, MeanAdd, Change, Given, GivenChange;
    }

    private struct GasRipple<TLane>
        where TLane : struct, ILane<TLane>
    {
        public TLane OxygenCos, OxygenSin, OxygenCosSource, OxygenSinSource, CarbonCos, CarbonSin, CarbonCosSource, CarbonSinSource, FedCos, FedSin;
        public TLane NitrogenCos, NitrogenSin, NitrogenCosSource, NitrogenSinSource;
    }
}
