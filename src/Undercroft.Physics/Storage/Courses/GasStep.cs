using System.Runtime.CompilerServices;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>The gas of a rigid package without viscous flow over one step.</summary>
/// <remarks>
/// <para><b>Equation</b> dn/dt = S(t) − λ(t) n, with λ and S averaged over the step. Where the day's swing is averaged away its first harmonic
/// enters twice: as the ripple n̂ = (Ŝ − n λ̂)/(λ + iω), and in the averages, λ − ½|λ̂|² λ/(λ² + ω²) and S − ½ Re(λ̂* Ŝ/(λ + iω)).</para>
/// <para><b>Source</b> derived: averaging over two time scales, second order in the swing.</para>
/// <para><b>Valid</b> a swing of the day that is small against the whole, up to 40 % of the rate.</para>
/// <para><b>Error</b> third order in the swing; measured against the fine engine in the tests.</para>
/// </remarks>
internal static class GasStep<T>
    where T : struct, ILane<T>
{
    private const double Omega = Math.Tau;
    private const double Nothing = 1e-300;

    /// <summary>Moves the three amounts on by the step that <paramref name="now"/> has read.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Advance(StayDraw<T> now, T uptakeMass, Span<T> moles)
    {
        var per = T.Of(1 / now.Length);
        var half = T.Of(0.5 / now.Length);
        var trends = now.Trend;
        var uptake = UptakeMass(now, uptakeMass);
        var taken = now.Uptake * uptake;
        var given = T.Of(0);
        var givenChange = T.Of(0);
        for (var gas = 0; gas < 3; gas++)
        {
            ref readonly var sums = ref now.Gases[gas];
            var film = now.PerVolume * sums.Rate;
            var (rate, rateCos, rateSin) = (film, now.PerVolume * sums.RateCos, now.PerVolume * sums.RateSin);
            if (gas == 0)
                (rate, rateCos, rateSin) = (rate + taken, rateCos + (now.UptakeCos * uptake), rateSin + (now.UptakeSin * uptake));
            var mean = rate * per;
            var lag = half / ((mean * mean) + T.Of(Omega * Omega));
            var source = sums.Source - (lag * ((((rateCos * sums.SourceCos) + (rateSin * sums.SourceSin)) * mean)
                + (((rateSin * sums.SourceCos) - (rateCos * sums.SourceSin)) * T.Of(Omega))));
            var clock = T.Max(rate - (lag * ((rateCos * rateCos) + (rateSin * rateSin)) * mean), T.Of(Nothing));
            var step = Relaxation<T>.Over(clock);
            var target = source / clock;
            var trend = T.Of(trends[StayPlan.RateTrend + gas]);
            if (gas == 0)
                trend += (T.Of(trends[StayPlan.UptakeTrend]) - trend) * taken / T.Max(rate, T.Of(Nothing));
            var change = target * (T.Of(trends[StayPlan.SourceTrend + gas]) - trend);
            if (gas == 1)
            {
                target += given / clock;
                change += (givenChange - (given * trend)) / clock;
            }

            var before = moles[gas];
            var start = target - (change * T.Of(0.5));
            moles[gas] = step.End(before, start, change);
            if (gas == 0)
            {
                var per0 = now.RespiratoryQuotient * taken;
                given = per0 * step.Mean(before, start, change);
                givenChange = (per0 * T.WhereLess(clock, T.Of(1), moles[0] - before, change)) + (given * T.Of(trends[StayPlan.UptakeTrend]));
            }
        }
    }

    /// <summary>The first harmonic of the amounts about their slow course, cosine and sine.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Ripple(StayDraw<T> now, T uptakeMass, ReadOnlySpan<T> moles, Span<T> cos, Span<T> sin) => Ripple(now, now.PerVolume, uptakeMass, moles, cos, sin);

    /// <summary>The same at R/V of another volume.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Ripple(StayDraw<T> now, T perVolume, T uptakeMass, ReadOnlySpan<T> moles, Span<T> cos, Span<T> sin)
    {
        var per = T.Of(1 / now.Length);
        var uptake = now.UptakeIsPerPascal ? uptakeMass * perVolume : uptakeMass;
        var taken = now.Uptake * uptake;
        for (var gas = 0; gas < 3; gas++)
        {
            ref readonly var sums = ref now.Gases[gas];
            var inside = moles[gas] * perVolume;
            var mean = perVolume * sums.Rate * per;
            var (forceCos, forceSin) = (sums.SourceCos - (inside * sums.RateCos), sums.SourceSin - (inside * sums.RateSin));
            if (gas == 0)
            {
                mean += taken * per;
                forceCos -= moles[0] * uptake * now.UptakeCos;
                forceSin -= moles[0] * uptake * now.UptakeSin;
            }
            else if (gas == 1)
            {
                forceCos += now.RespiratoryQuotient * ((moles[0] * uptake * now.UptakeCos) + (taken * cos[0]));
                forceSin += now.RespiratoryQuotient * ((moles[0] * uptake * now.UptakeSin) + (taken * sin[0]));
            }

            var size = per / ((mean * mean) + T.Of(Omega * Omega));
            cos[gas] = ((forceCos * mean) - (forceSin * T.Of(Omega))) * size;
            sin[gas] = ((forceCos * T.Of(Omega)) + (forceSin * mean)) * size;
        }
    }

    /// <summary>What the uptake's integral is multiplied with to give its clock.</summary>
    private static T UptakeMass(StayDraw<T> now, T uptakeMass) => now.UptakeIsPerPascal ? uptakeMass * now.PerVolume : uptakeMass;
}
