using System.Runtime.CompilerServices;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

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
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Advance(DrawGroup group, StayWeights weights, ReadOnlySpan<double> sums, ReadOnlySpan<double> trends, double length)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            Over(group, weights, sums, trends, length, at, false, out var map, out _);
            map.To(group.Moles, at, group.Moles[0], group.Moles[1], group.Moles[2], at);
        }
    }

    /// <summary>Joins one step more to the maps of a group.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Join(DrawGroup group, StayWeights weights, ReadOnlySpan<double> sums, ReadOnlySpan<double> trends, double length, double[] maps)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            Over(group, weights, sums, trends, length, at, false, out var map, out _);
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
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Apply(double[] maps, DrawGroup group)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            GasMap<T>.Load(maps, group.Slots, at).To(group.Moles, at, group.Moles[0], group.Moles[1], group.Moles[2], at);
        }
    }

    /// <summary>The amounts at the beginning of each season of the year that repeats: where the map of a whole year leads to itself.</summary>
    /// <param name="seasons">Maps of the seasons.</param>
    /// <param name="group">Whose.</param>
    /// <returns>By season, then by gas; not numbers where nothing is ever exchanged.</returns>
    public static double[][][] Orbit(double[]?[] seasons, DrawGroup group)
    {
        var orbit = new double[seasons.Length][][];
        for (var season = 0; season < orbit.Length; season++)
            orbit[season] = [new double[group.Slots], new double[group.Slots], new double[group.Slots]];
        var one = T.Of(1);
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            var year = GasMap<T>.Nothing;
            foreach (var season in seasons)
                year = year.Then(GasMap<T>.Load(season!, group.Slots, at));
            var oxygen = year.OxygenAdd / (one - year.OxygenKeep);
            oxygen.Put(orbit[0][0], at);
            ((year.CarbonAdd + (year.Fed * oxygen)) / (one - year.CarbonKeep)).Put(orbit[0][1], at);
            (year.NitrogenAdd / (one - year.NitrogenKeep)).Put(orbit[0][2], at);
            for (var season = 0; season + 1 < orbit.Length; season++)
                GasMap<T>.Load(seasons[season]!, group.Slots, at).To(orbit[season], at, orbit[season + 1][0], orbit[season + 1][1], orbit[season + 1][2], at);
        }

        return orbit;
    }

    /// <summary>True where no gas of a group is further from other amounts than a number of pascals for each kelvin.</summary>
    public static bool IsNear(DrawGroup group, double[][] amounts, double pascalsPerKelvin)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            var per = T.At(group.PerVolume, at);
            for (var gas = 0; gas < amounts.Length; gas++)
            {
                var apart = (T.At(group.Moles[gas], at) - T.At(amounts[gas], at)) * per;
                if (!T.AllLess(T.Max(apart, T.Of(0) - apart), T.Of(pascalsPerKelvin)))
                    return false;
            }
        }

        return true;
    }

    /// <summary>Partial pressures, mean of a day, from the amounts at its beginning.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Tell(double[] maps, DrawGroup group, RowBuffer row, int place)
    {
        for (var at = 0; at < group.Slots; at += T.Count)
            GasMap<T>.Load(maps, group.Slots, at).To(group.Moles, at, row.Oxygen, row.CarbonDioxide, row.Nitrogen, place + at);
        row.AddUp<T>(place, group.Slots);
    }

    /// <summary>From maps to the beginning of a day on to the partial pressures of its mean.</summary>
    /// <param name="group">Whose.</param>
    /// <param name="weights">Of the stay.</param>
    /// <param name="day">Integrals of the day.</param>
    /// <param name="ahead">False where the day lies before the amounts.</param>
    /// <param name="maps">Carried on.</param>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Pressures(DrawGroup group, StayWeights weights, ReadOnlySpan<double> day, bool ahead, double[] maps)
    {
        Span<double> still = stackalloc double[StepTable.Trends];
        still.Clear();
        var half = T.Of(0.5);
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            Over(group, weights, day, still, 1, at, true, out var map, out var ripple);
            var middle = GasMap<T>.Nothing;
            if (ahead)
            {
                middle = new()
                {
                    OxygenKeep = half * (T.Of(1) + map.OxygenKeep), OxygenAdd = half * map.OxygenAdd, CarbonKeep = half * (T.Of(1) + map.CarbonKeep),
                    CarbonAdd = half * map.CarbonAdd, Fed = half * map.Fed, NitrogenKeep = half * (T.Of(1) + map.NitrogenKeep), NitrogenAdd = half * map.NitrogenAdd,
                };
            }

            var per = T.At(group.PerVolume, at);
            var kelvin = T.Of(day[TemperatureBasis.Kelvin]) + T.At(group.TemperatureOffset, at);
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
            GasMap<T>.Load(maps, group.Slots, at).Then(middle).Then(told).Store(maps, group.Slots, at);
        }
    }

    /// <summary>The map of one step, and the ripple of the day about its end for who asks.</summary>
    /// <remarks>The parts are kept from being woven into one: beyond a certain size the compiler gives up weaving at all.</remarks>
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Over(
        DrawGroup group, StayWeights weights, ReadOnlySpan<double> sums, ReadOnlySpan<double> trends, double length, int at, bool withRipple, out GasMap<T> map, out GasRipple<T> ripple)
    {
        var humid = T.At(group.HumidityOffset, at);
        var quotient = T.At(group.Quotient, at);
        Taken(weights, sums, at, out var uptake);
        Gather(weights, sums, 0, humid, at, out var oxygen);
        (oxygen.Rate, oxygen.RateCos, oxygen.RateSin) = (oxygen.Rate + uptake.Rate, oxygen.RateCos + uptake.RateCos, oxygen.RateSin + uptake.RateSin);
        Step(oxygen, length, trends[StepTable.RateTrend], trends[StepTable.SourceTrend], trends[StepTable.UptakeTrend], uptake.Rate, out var first);
        Gather(weights, sums, 1, humid, at, out var carbon);
        Step(carbon, length, trends[StepTable.RateTrend + 1], trends[StepTable.SourceTrend + 1], 0, T.Of(0), out var second);
        Gather(weights, sums, 2, humid, at, out var nitrogen);
        Step(nitrogen, length, trends[StepTable.RateTrend + 2], trends[StepTable.SourceTrend + 2], 0, T.Of(0), out var third);
        Feed(quotient * uptake.Rate, trends[StepTable.UptakeTrend] - trends[StepTable.RateTrend + 1], first, second, third, out map);
        ripple = default;
        if (withRipple)
            Ripples(quotient, uptake, oxygen, carbon, nitrogen, length, out ripple);
    }

    /// <summary>Carbon dioxide gets the mean of what is given off, and by how much that changes over the step.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Feed(in T perOxygen, double faster, in GasOfStep<T> first, in GasOfStep<T> second, in GasOfStep<T> third, out GasMap<T> map)
    {
        var (meanKeep, meanAdd) = (perOxygen * first.MeanKeep, perOxygen * first.MeanAdd);
        var slow = T.WhereLess(first.Clock, T.Of(1), T.Of(1), T.Of(0));
        var changeKeep = (perOxygen * slow * (first.Keep - T.Of(1))) + (meanKeep * T.Of(faster));
        var changeAdd = (perOxygen * ((slow * first.Add) + ((T.Of(1) - slow) * first.Change))) + (meanAdd * T.Of(faster));
        map.OxygenKeep = first.Keep;
        map.OxygenAdd = first.Add;
        map.CarbonKeep = second.Keep;
        map.CarbonAdd = second.Add + (meanAdd * second.Given) + (changeAdd * second.GivenChange);
        map.Fed = (meanKeep * second.Given) + (changeKeep * second.GivenChange);
        map.NitrogenKeep = third.Keep;
        map.NitrogenAdd = third.Add;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Ripples(
        in T quotient, in GasSums<T> uptake, in GasSums<T> oxygen, in GasSums<T> carbon, in GasSums<T> nitrogen, double length, out GasRipple<T> ripple)
    {
        Ripple(oxygen, length, out ripple.OxygenCos, out ripple.OxygenSin, out ripple.OxygenCosSource, out ripple.OxygenSinSource);
        Ripple(carbon, length, out ripple.CarbonCos, out ripple.CarbonSin, out ripple.CarbonCosSource, out ripple.CarbonSinSource);
        Ripple(nitrogen, length, out ripple.NitrogenCos, out ripple.NitrogenSin, out ripple.NitrogenCosSource, out ripple.NitrogenSinSource);
        var per = T.Of(1 / length);
        var mean = carbon.Rate * per;
        var size = per / ((mean * mean) + T.Of(Omega * Omega));

        // What oxygen forces on carbon dioxide: its own swing of uptake, and that of oxygen.
        var (forceCos, forceSin) = (quotient * (uptake.RateCos - (uptake.Rate * ripple.OxygenCos)), quotient * (uptake.RateSin - (uptake.Rate * ripple.OxygenSin)));
        var (sourceCos, sourceSin) = (quotient * uptake.Rate * ripple.OxygenCosSource, quotient * uptake.Rate * ripple.OxygenSinSource);
        ripple.CarbonCosSource += ((sourceCos * mean) - (sourceSin * T.Of(Omega))) * size;
        ripple.CarbonSinSource += ((sourceCos * T.Of(Omega)) + (sourceSin * mean)) * size;
        ripple.FedCos = ((forceCos * mean) - (forceSin * T.Of(Omega))) * size;
        ripple.FedSin = ((forceCos * T.Of(Omega)) + (forceSin * mean)) * size;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Ripple(in GasSums<T> sums, double length, out T cos, out T sin, out T cosSource, out T sinSource)
    {
        var per = T.Of(1 / length);
        var mean = sums.Rate * per;
        var size = per / ((mean * mean) + T.Of(Omega * Omega));
        var turn = T.Of(Omega) * size;
        mean *= size;
        cos = (sums.RateCos * mean) - (sums.RateSin * turn);
        sin = (sums.RateCos * turn) + (sums.RateSin * mean);
        cosSource = (sums.SourceCos * mean) - (sums.SourceSin * turn);
        sinSource = (sums.SourceCos * turn) + (sums.SourceSin * mean);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Step(in GasSums<T> sums, double length, double rateTrend, double sourceTrend, double uptakeTrend, in T taken, out GasOfStep<T> step)
    {
        Averaged(sums, length, out var clock, out var source);
        var perZ = T.Of(1) / T.Max(clock, T.Of(Small));
        var fraction = LaneExp.OneMinusOf(clock);
        var changed = source * T.MulFrom(T.Of(uptakeTrend - rateTrend), taken * perZ, T.Of(sourceTrend - rateTrend));

        // φ = u/z, (1 − φ)/z, (1 − φ − u/2)/z and (φ/2 − (1 − φ)/z)/z, by their series where z is small.
        var first = fraction * perZ;
        var second = (T.Of(1) - first) * perZ;
        var third = T.MulFrom(T.Of(0.5), fraction, T.Of(1) - first) * perZ;
        var fourth = T.MulFrom(T.Of(-0.5), first, T.Of(0) - second) * perZ;
        if (!T.AllLess(T.Of(Small), clock))
            Series(clock, ref first, ref second, ref third, ref fourth);
        step.Clock = clock;
        step.Keep = T.Of(1) - fraction;
        step.Add = T.MulAdd(source, first, changed * third);
        step.MeanKeep = first;
        step.MeanAdd = T.MulAdd(source, second, changed * fourth);
        step.Change = changed * perZ;
        step.Given = first;
        step.GivenChange = third;
    }

    /// <summary>Rate and source with what the day's swing makes of them.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Averaged(in GasSums<T> sums, double length, out T clock, out T source)
    {
        var mean = sums.Rate * T.Of(1 / length);
        var lag = T.Of(0.5 / length) / T.MulAdd(mean, mean, T.Of(Omega * Omega));
        var along = T.MulAdd(sums.RateCos, sums.SourceCos, sums.RateSin * sums.SourceSin) * mean;
        var across = T.MulFrom(sums.RateCos, sums.SourceSin, sums.RateSin * sums.SourceCos);
        source = T.MulFrom(lag, T.MulAdd(across, T.Of(Omega), along), sums.Source);
        clock = T.Max(T.MulFrom(lag * mean, T.MulAdd(sums.RateCos, sums.RateCos, sums.RateSin * sums.RateSin), sums.Rate), T.Of(0));
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Series(in T clock, ref T first, ref T second, ref T third, ref T fourth)
    {
        var small = T.Of(Small);
        first = T.WhereLess(clock, small, T.MulFrom(clock, T.MulFrom(clock, T.Of(1.0 / 6), T.Of(0.5)), T.Of(1)), first);
        second = T.WhereLess(clock, small, T.MulFrom(clock, T.MulFrom(clock, T.Of(1.0 / 24), T.Of(1.0 / 6)), T.Of(0.5)), second);
        third = T.WhereLess(clock, small, clock * T.MulFrom(clock, T.Of(1.0 / 24), T.Of(1.0 / 12)), third);
        fourth = T.WhereLess(clock, small, T.MulAdd(clock, T.Of(1.0 / 24), T.Of(-1.0 / 12)), fourth);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Taken(StayWeights weights, ReadOnlySpan<double> sums, int at, out GasSums<T> taken)
    {
        taken = default;
        var (values, from) = (weights.Values, (StayWeights.Uptake * weights.Slots) + at);
        var (rate, cos, sin) = (T.Of(0), T.Of(0), T.Of(0));
        if (weights.IsShared)
        {
            var weight = T.At(values, from + (SharedWeather.Pivot * weights.Slots));
            taken.Rate = weight * T.Of(sums[SharedWeather.Uptake]);
            taken.RateCos = weight * T.Of(sums[SharedWeather.Uptake + 1]);
            taken.RateSin = weight * T.Of(sums[SharedWeather.Uptake + 2]);
            return;
        }

        for (var k = 0; k < Nodes; k++)
        {
            var weight = T.At(values, from + (k * weights.Slots));
            rate = T.MulAdd(weight, T.Of(sums[TemperatureBasis.Gas + k]), rate);
            cos = T.MulAdd(weight, T.Of(sums[TemperatureBasis.GasCos + k]), cos);
            sin = T.MulAdd(weight, T.Of(sums[TemperatureBasis.GasSin + k]), sin);
        }

        (taken.Rate, taken.RateCos, taken.RateSin) = (rate, cos, sin);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Gather(StayWeights weights, ReadOnlySpan<double> sums, int gas, in T humid, int at, out GasSums<T> gathered)
    {
        if (weights.IsShared)
        {
            Share(weights, sums, gas, at, out gathered);
            return;
        }

        var slots = weights.Slots;
        var (values, from) = (weights.Values, ((StayWeights.Gas + (gas * StayWeights.GasWidth)) * slots) + at);
        var (rate, rateCos, rateSin) = (T.Of(0), T.Of(0), T.Of(0));
        var (source, sourceCos, sourceSin) = (T.Of(0), T.Of(0), T.Of(0));
        for (var k = 0; k < Nodes; k++)
        {
            var (plain, cos, sin) = (T.Of(sums[TemperatureBasis.Gas + k]), T.Of(sums[TemperatureBasis.GasCos + k]), T.Of(sums[TemperatureBasis.GasSin + k]));
            var each = T.At(values, from + (k * slots));
            rate = T.MulAdd(each, plain, rate);
            rateCos = T.MulAdd(each, cos, rateCos);
            rateSin = T.MulAdd(each, sin, rateSin);
            each = T.At(values, from + ((k + Nodes) * slots));
            source = T.MulAdd(each, T.Of(sums[TemperatureBasis.Pressed + k]), source);
            sourceCos = T.MulAdd(each, T.Of(sums[TemperatureBasis.PressedCos + k]), sourceCos);
            sourceSin = T.MulAdd(each, T.Of(sums[TemperatureBasis.PressedSin + k]), sourceSin);
            each = T.At(values, from + ((k + (2 * Nodes)) * slots));
            source = T.MulAdd(each, T.MulAdd(humid, plain, T.Of(sums[TemperatureBasis.Humid + k])), source);
            sourceCos = T.MulAdd(each, T.MulAdd(humid, cos, T.Of(sums[TemperatureBasis.HumidCos + k])), sourceCos);
            sourceSin = T.MulAdd(each, T.MulAdd(humid, sin, T.Of(sums[TemperatureBasis.HumidSin + k])), sourceSin);
        }

        (gathered.Rate, gathered.RateCos, gathered.RateSin) = (rate, rateCos, rateSin);
        (gathered.Source, gathered.SourceCos, gathered.SourceSin) = (source, sourceCos, sourceSin);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Share(StayWeights weights, ReadOnlySpan<double> sums, int gas, int at, out GasSums<T> gathered)
    {
        var row = StayWeights.Gas + (gas * StayWeights.GasWidth) + SharedWeather.Pivot;
        var each = T.At(weights.Values, (row * weights.Slots) + at);
        var from = SharedWeather.Gas + (gas * SharedWeather.GasWidth);
        gathered.Rate = each * T.Of(sums[from]);
        gathered.RateCos = each * T.Of(sums[from + 1]);
        gathered.RateSin = each * T.Of(sums[from + 2]);
        each = T.At(weights.Values, ((row + Nodes) * weights.Slots) + at);
        gathered.Source = each * T.Of(sums[from + 3]);
        gathered.SourceCos = each * T.Of(sums[from + 4]);
        gathered.SourceSin = each * T.Of(sums[from + 5]);
    }
}

/// <summary>One gas over one step: rate and source with their harmonics.</summary>
internal struct GasSums<T>
    where T : struct, ILane<T>
{
    public T Rate, RateCos, RateSin, Source, SourceCos, SourceSin;
}

/// <summary>One gas after one step.</summary>
internal struct GasOfStep<T>
    where T : struct, ILane<T>
{
    public T Clock, Keep, Add, MeanKeep, MeanAdd, Change, Given, GivenChange;
}

/// <summary>The first harmonic of the day: per mole of each gas, taken off; and what the sources add.</summary>
internal struct GasRipple<T>
    where T : struct, ILane<T>
{
    public T OxygenCos, OxygenSin, OxygenCosSource, OxygenSinSource, CarbonCos, CarbonSin, CarbonCosSource, CarbonSinSource, FedCos, FedSin;
    public T NitrogenCos, NitrogenSin, NitrogenCosSource, NitrogenSinSource;
}
