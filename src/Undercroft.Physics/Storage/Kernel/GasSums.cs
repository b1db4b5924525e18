using System.Runtime.CompilerServices;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>One gas over one step: rate and source, integrated, with their harmonics of the day.</summary>
[SkipLocalsInit]
internal struct GasSums<T>
    where T : struct, ISingleLane<T>
{
    /// <summary>Cycles of the day, 1/d.</summary>
    public const double Omega = Math.Tau;

    private const int Nodes = TemperatureBasis.Nodes;

    public T Rate, RateCos, RateSin, Source, SourceCos, SourceSin;

    /// <summary>The uptake of oxygen.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Taken(StayWeights weights, ReadOnlySpan<float> sums, int at, out GasSums<T> taken)
    {
        taken = default;
        var (values, from) = (weights.Values, (StayWeights.Uptake * weights.Slots) + at);
        var (rate, cos, sin) = (T.Of(0f), T.Of(0f), T.Of(0f));
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

    /// <summary>A gas as it comes and goes through the paths.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Of(DrawGroup group, StayWeights weights, ReadOnlySpan<float> sums, int gas, int at, out GasSums<T> gathered)
    {
        if (weights.IsShared)
        {
            Share(weights, sums, gas, at, out gathered);
            return;
        }

        var humidity = T.At(group.HumidityOffset, at);
        var slots = weights.Slots;
        var (values, from) = (weights.Values, ((StayWeights.Gas + (gas * StayWeights.GasWidth)) * slots) + at);
        var (rate, rateCos, rateSin) = (T.Of(0f), T.Of(0f), T.Of(0f));
        var (source, sourceCos, sourceSin) = (T.Of(0f), T.Of(0f), T.Of(0f));
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
            source = T.MulAdd(each, T.MulAdd(humidity, plain, T.Of(sums[TemperatureBasis.Humid + k])), source);
            sourceCos = T.MulAdd(each, T.MulAdd(humidity, cos, T.Of(sums[TemperatureBasis.HumidCos + k])), sourceCos);
            sourceSin = T.MulAdd(each, T.MulAdd(humidity, sin, T.Of(sums[TemperatureBasis.HumidSin + k])), sourceSin);
        }

        (gathered.Rate, gathered.RateCos, gathered.RateSin) = (rate, rateCos, rateSin);
        (gathered.Source, gathered.SourceCos, gathered.SourceSin) = (source, sourceCos, sourceSin);
    }

    /// <summary>Rate and source with what the day's swing makes of them.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Average(int length, out T clock, out T source)
    {
        var mean = Rate * T.Of(1f / length);
        var lag = T.Of(0.5f / length) / T.MulAdd(mean, mean, T.Of(Omega * Omega));
        var along = T.MulAdd(RateCos, SourceCos, RateSin * SourceSin) * mean;
        var across = T.MulFrom(RateCos, SourceSin, RateSin * SourceCos);
        source = T.MulFrom(lag, T.MulAdd(across, T.Of(Omega), along), Source);
        clock = T.Max(T.MulFrom(lag * mean, T.MulAdd(RateCos, RateCos, RateSin * RateSin), Rate), T.Of(0f));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Share(StayWeights weights, ReadOnlySpan<float> sums, int gas, int at, out GasSums<T> gathered)
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

/// <summary>All gases over one step: oxygen with what leaf takes up, and that by itself.</summary>
[SkipLocalsInit]
internal struct GasesOfStep<T>
    where T : struct, ISingleLane<T>
{
    public GasSums<T> Uptake, Oxygen, Carbon, Nitrogen;

    /// <summary>Of the draws from a slot on.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Of(DrawGroup group, StayWeights weights, ReadOnlySpan<float> sums, int at, out GasesOfStep<T> gases)
    {
        GasSums<T>.Taken(weights, sums, at, out gases.Uptake);
        GasSums<T>.Of(group, weights, sums, 0, at, out gases.Oxygen);
        gases.Oxygen.Rate += gases.Uptake.Rate;
        gases.Oxygen.RateCos += gases.Uptake.RateCos;
        gases.Oxygen.RateSin += gases.Uptake.RateSin;
        GasSums<T>.Of(group, weights, sums, 1, at, out gases.Carbon);
        GasSums<T>.Of(group, weights, sums, 2, at, out gases.Nitrogen);
    }
}
