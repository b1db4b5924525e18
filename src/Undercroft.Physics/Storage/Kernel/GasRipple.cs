using System.Runtime.CompilerServices;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>The first harmonic of one day: per mole of each gas, taken off; and what the sources add.</summary>
[SkipLocalsInit]
internal struct GasRipple<T>
    where T : struct, ISingleLane<T>
{
    private const double Omega = GasSums<T>.Omega;

    public T OxygenCos, OxygenSin, OxygenCosSource, OxygenSinSource, CarbonCos, CarbonSin, CarbonCosSource, CarbonSinSource, FedCos, FedSin;
    public T NitrogenCos, NitrogenSin, NitrogenCosSource, NitrogenSinSource;

    /// <summary>Of a day.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Of(in GasesOfStep<T> day, in T quotient, out GasRipple<T> ripple)
    {
        var uptake = day.Uptake;
        One(day.Oxygen, out ripple.OxygenCos, out ripple.OxygenSin, out ripple.OxygenCosSource, out ripple.OxygenSinSource);
        One(day.Nitrogen, out ripple.NitrogenCos, out ripple.NitrogenSin, out ripple.NitrogenCosSource, out ripple.NitrogenSinSource);
        One(day.Carbon, out ripple.CarbonCos, out ripple.CarbonSin, out ripple.CarbonCosSource, out ripple.CarbonSinSource);
        var mean = day.Carbon.Rate;
        var size = T.Of(1f) / T.MulAdd(mean, mean, T.Of(Omega * Omega));

        // What oxygen forces on carbon dioxide: its own swing of uptake, and that of oxygen.
        var (forceCos, forceSin) = (quotient * T.MulFrom(uptake.Rate, ripple.OxygenCos, uptake.RateCos), quotient * T.MulFrom(uptake.Rate, ripple.OxygenSin, uptake.RateSin));
        var (sourceCos, sourceSin) = (quotient * uptake.Rate * ripple.OxygenCosSource, quotient * uptake.Rate * ripple.OxygenSinSource);
        ripple.CarbonCosSource += ((sourceCos * mean) - (sourceSin * T.Of(Omega))) * size;
        ripple.CarbonSinSource += ((sourceCos * T.Of(Omega)) + (sourceSin * mean)) * size;
        ripple.FedCos = ((forceCos * mean) - (forceSin * T.Of(Omega))) * size;
        ripple.FedSin = ((forceCos * T.Of(Omega)) + (forceSin * mean)) * size;
    }

    /// <summary>What it makes of the pressures' mean, which follows the day's warmth.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public readonly void Told(DrawGroup group, ReadOnlySpan<float> day, int at, out GasPressures<T> told)
    {
        var per = T.At(group.PerVolume, at);
        var kelvin = per * (T.Of(day[TemperatureBasis.Kelvin]) + T.At(group.TemperatureOffset, at));
        var (cos, sin) = (per * T.Of(0.5f * day[TemperatureBasis.KelvinCos]), per * T.Of(0.5f * day[TemperatureBasis.KelvinSin]));
        told.OxygenPer = T.MulFrom(sin, OxygenSin, T.MulFrom(cos, OxygenCos, kelvin));
        told.OxygenAdd = T.MulAdd(cos, OxygenCosSource, sin * OxygenSinSource);
        told.CarbonPer = T.MulFrom(sin, CarbonSin, T.MulFrom(cos, CarbonCos, kelvin));
        told.CarbonAdd = T.MulAdd(cos, CarbonCosSource, sin * CarbonSinSource);
        told.Fed = T.MulAdd(cos, FedCos, sin * FedSin);
        told.NitrogenPer = T.MulFrom(sin, NitrogenSin, T.MulFrom(cos, NitrogenCos, kelvin));
        told.NitrogenAdd = T.MulAdd(cos, NitrogenCosSource, sin * NitrogenSinSource);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void One(in GasSums<T> sums, out T cos, out T sin, out T cosSource, out T sinSource)
    {
        var mean = sums.Rate;
        var size = T.Of(1f) / T.MulAdd(mean, mean, T.Of(Omega * Omega));
        var turn = T.Of(Omega) * size;
        mean *= size;
        cos = T.MulFrom(sums.RateSin, turn, sums.RateCos * mean);
        sin = T.MulAdd(sums.RateCos, turn, sums.RateSin * mean);
        cosSource = T.MulFrom(sums.SourceSin, turn, sums.SourceCos * mean);
        sinSource = T.MulAdd(sums.SourceCos, turn, sums.SourceSin * mean);
    }
}
