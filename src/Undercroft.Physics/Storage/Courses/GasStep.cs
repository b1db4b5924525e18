using Undercroft.Physics.Quantities;
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
internal static class GasStep
{
    private const double Omega = Math.Tau;

    /// <summary>Moves the three amounts on by the step that <paramref name="now"/> has read.</summary>
    public static void Advance(StayDraw now, double uptakeMass, Span<double> moles)
    {
        var perVolume = PhysicalConstants.GasConstant / now.Maximum;
        var taken = Taken(now, perVolume, uptakeMass);
        var given = 0.0;
        var givenChange = 0.0;
        for (var gas = 0; gas < 3; gas++)
        {
            ref readonly var sums = ref now.Gases[gas];
            var film = perVolume * sums.Rate;
            var (rate, rateCos, rateSin) = (film, perVolume * sums.RateCos, perVolume * sums.RateSin);
            if (gas == 0)
                (rate, rateCos, rateSin) = (rate + taken, rateCos + (now.Uptake == 0 ? 0 : taken * now.UptakeCos / now.Uptake), rateSin + (now.Uptake == 0 ? 0 : taken * now.UptakeSin / now.Uptake));
            var source = sums.Source;
            var h = now.Length;
            var mean = rate / h;
            var half = 0.5 / (((mean * mean) + (Omega * Omega)) * h);
            var filmSource = source - (half * ((((rateCos * sums.SourceCos) + (rateSin * sums.SourceSin)) * mean) + (((rateSin * sums.SourceCos) - (rateCos * sums.SourceSin)) * Omega)));
            var clock = rate - (half * ((rateCos * rateCos) + (rateSin * rateSin)) * mean);
            if (!(clock > 1e-300))
            {
                moles[gas] += filmSource + (gas == 1 ? given : 0);
                if (gas == 0)
                    given = 0;
                continue;
            }

            var step = Relaxation.Over(clock);
            var target = filmSource / clock;
            var trend = rate > 0 ? ((film * now.Trend[StayPlan.RateTrend + gas]) + ((rate - film) * now.Trend[StayPlan.UptakeTrend])) / rate : 0;
            var change = target * (now.Trend[StayPlan.SourceTrend + gas] - trend);
            if (gas == 1)
            {
                target += given / clock;
                change += (givenChange - (given * now.Trend[StayPlan.RateTrend + 1])) / clock;
            }

            var before = moles[gas];
            moles[gas] = step.End(before, target - (change / 2), change);
            if (gas == 0)
            {
                given = now.RespiratoryQuotient * taken * step.Mean(before, target - (change / 2), change);
                var moved = clock < 1 ? moles[0] - before : change;
                givenChange = now.RespiratoryQuotient * taken * moved + (given * now.Trend[StayPlan.UptakeTrend]);
            }
        }
    }

    /// <summary>The first harmonic of the amounts about their slow course, cosine and sine.</summary>
    public static void Ripple(StayDraw now, double uptakeMass, ReadOnlySpan<double> moles, Span<double> cos, Span<double> sin)
    {
        var perVolume = PhysicalConstants.GasConstant / now.Maximum;
        var taken = Taken(now, perVolume, uptakeMass);
        var per = 1 / now.Length;
        for (var gas = 0; gas < 3; gas++)
        {
            ref readonly var sums = ref now.Gases[gas];
            var mean = perVolume * sums.Rate * per;
            var (forceCos, forceSin) = (sums.SourceCos - (moles[gas] * perVolume * sums.RateCos), sums.SourceSin - (moles[gas] * perVolume * sums.RateSin));
            if (gas == 0 && now.Uptake > 0)
            {
                mean += taken * per;
                forceCos -= moles[0] * taken * now.UptakeCos / now.Uptake;
                forceSin -= moles[0] * taken * now.UptakeSin / now.Uptake;
            }
            else if (gas == 1 && now.Uptake > 0)
            {
                forceCos += now.RespiratoryQuotient * taken * ((moles[0] * now.UptakeCos / now.Uptake) + cos[0]);
                forceSin += now.RespiratoryQuotient * taken * ((moles[0] * now.UptakeSin / now.Uptake) + sin[0]);
            }

            var size = per / ((mean * mean) + (Omega * Omega));
            cos[gas] = ((forceCos * mean) - (forceSin * Omega)) * size;
            sin[gas] = ((forceCos * Omega) + (forceSin * mean)) * size;
        }
    }

    /// <summary>The clock of the uptake: share of the oxygen taken up per unit of clock, over the step.</summary>
    private static double Taken(StayDraw now, double perVolume, double uptakeMass) => now.UptakeIsPerPascal
        ? now.Uptake * uptakeMass * perVolume
        : now.Uptake * uptakeMass;
}
