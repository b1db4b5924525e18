using System.Runtime.CompilerServices;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>The gas of packages whose walls give way over one step, tight, free or bulging: films, uptake and flow act together on shares of an amount that grows evenly.</summary>
/// <remarks>
/// <para><b>Equation</b> with N = N₀ + Δ t and shares x_i = n_i/N: N dx_i/dt = S_i + F_in y_i − (k_i + F_out + Δ) x_i, solved exactly for each Δ; Δ is the one for which Σx stays 1. k_i = ∫f (p − a·psat) where the
/// pressure is the room's but for some hours, ∫f R T N/V where the volume is fixed all day; flow by the hours of the day below or above the room's pressure; all at the middle N.</para>
/// <para><b>Source</b> derived from the storage model's exchange.</para>
/// <para><b>Valid</b> steps over which N moves evenly and shares little; how far they do not is told.</para>
/// <para><b>Error</b> measured against the fine engine in the tests.</para>
/// </remarks>
internal static class SoftWallStep<T>
    where T : struct, ILane<T>
{
    private const double R = PhysicalConstants.GasConstant;
    private const int MostRounds = 12;
    private const double Met = 1e-10; // of the sum of shares
    private const double Evenly = 0.01; // of the gas held
    private const double MostShift = 0.02; // of a share
    private const double MostGrowth = 0.02;

    /// <summary>Moves the amounts on, and tells their means.</summary>
    /// <returns>The water that the flow carried off, kg, and how unevenly the amount moves: above 1 the step is too long.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static (T Water, T Doubt) Advance(in VentedMoment<T> at, T uptakeMass, RoomAir air, Span<T> moles, Span<T> means)
    {
        var now = at.Now;
        var (nought, one, half) = (T.Of(0), T.Of(1), T.Of(0.5));
        var held = moles[0] + moles[1] + moles[2];
        var perHeld = one / held;
        Span<T> before = [moles[0] * perHeld, moles[1] * perHeld, moles[2] * perHeld];
        Span<T> after = [before[0], before[1], before[2]];
        var whole = air.Oxygen + air.CarbonDioxide + air.Nitrogen;
        Span<double> fresh = [air.Oxygen / whole, air.CarbonDioxide / whole, air.Nitrogen / whole];
        var perPascal = at.LetsFlow ? now.Viscous * T.Of(now.Length) : nought;
        var (dryRoom, dryInside) = (one - (now.RoomVapour / now.RoomPressure), at.Slack / now.RoomPressure);
        var (growth, firstGrowth, fastest, missed, shifted, inward, outward) = (nought, nought, nought, one, nought, nought, nought);
        for (var round = 0; round < MostRounds; round++)
        {
            var middle = held * (one + (half * growth));
            var perMiddle = one / middle;
            var (below, above) = (at.Below(middle), at.Above(middle));
            var (total, volume) = (now.RoomPressure - below.Pascals + above.Pascals, at.Volume(middle));
            var fixedAllDay = T.WhereLess(below.Share, one, T.WhereLess(above.Share, one, nought, one), one);
            var stiffer = (below.PerMole * below.Share) + (above.PerMole * above.Share);
            (inward, outward) = (perPascal * dryRoom * below.Pascals, perPascal * dryInside * above.Pascals);
            var flowSlope = perPascal * half * ((dryRoom * below.PerMole * below.Share) + (dryInside * above.PerMole * above.Share));
            shifted = nought;
            var taken = VentedGasStep<T>.UptakeClock(now, uptakeMass, volume);
            var (sum, slope, quickest, start, given) = (nought, nought, flowSlope, nought, nought);
            for (var gas = 0; gas < 3; gas++)
            {
                ref readonly var sums = ref now.Gases[gas];
                var pressed = sums.Pressure / now.RoomPressure;
                var film = T.WhereLess(half, fixedAllDay, sums.Rate * T.Of(R) / volume, ((pressed * total) - (at.VapourPerSaturation * sums.Saturation)) * perMiddle);
                var rate = film + (outward * perMiddle);
                var source = (sums.Source + (inward * T.Of(fresh[gas]))) * perMiddle;
                if (gas == 0)
                    rate += taken;
                else if (gas == 1)
                    source += given;
                var clock = rate + growth;
                var (reach, halfway) = Reach(clock);
                var push = source - (clock * before[gas]);
                var moved = push * reach;
                after[gas] = before[gas] + moved;
                means[gas] = before[gas] + (push * halfway);
                if (gas == 0)
                    given = now.RespiratoryQuotient * taken * means[0];
                shifted = T.Max(shifted, T.Max(moved, nought - moved));
                sum += moved;
                start += source - (rate * before[gas]);
                quickest = T.Max(quickest, clock);
                slope += reach * ((after[gas] * (one + (half * pressed * stiffer))) + (flowSlope * T.Of(fresh[gas])));
            }

            if (round == 0)
                (firstGrowth, fastest) = (start, quickest);
            var open = T.WhereLess(T.Of(Met), T.Max(sum, nought - sum), one, nought);
            missed = open;
            if (T.AllLess(open, half))
                break;
            var next = T.Max(T.Min(growth + (sum / slope), one), T.Of(-0.5));
            growth = T.WhereLess(half, open, next, growth);
        }

        var then = held * (one + growth);
        for (var gas = 0; gas < 3; gas++)
            (moles[gas], means[gas]) = (after[gas] * then, means[gas] * held * (one + (half * growth)));
        var uneven = T.Max(firstGrowth - growth, growth - firstGrowth) / T.Max(fastest, one) * T.Of(1 / Evenly);
        var far = T.Max(T.Max(growth, nought - growth) * T.Of(1 / MostGrowth), shifted * T.Of(1 / MostShift));
        var water = ((outward * at.Vapour / at.Slack) - (inward * now.RoomVapour / (now.RoomPressure - now.RoomVapour))) * T.Of(PhysicalConstants.MolarMassOfWater);
        return (water, T.Max(T.Max(uneven, far), missed * T.Of(2)));
    }

    /// <summary>(1 − e^(−z))/z and [1 − (1 − e^(−z))/z]/z, also below zero: how far a push goes by the end, and on the mean.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (T End, T Mean) Reach(T clock)
    {
        var nought = T.Of(0);
        var size = T.Max(clock, nought - clock);
        var (_, first, _, second) = Relaxation<T>.Over(T.Max(size, T.Of(1e-300)));
        if (T.AllLess(T.Of(-1e-300), clock))
            return (first, second);
        var grown = first * LaneExp.Of(size);
        return (T.WhereLess(clock, nought, grown, first), T.WhereLess(clock, nought, grown - second, second));
    }
}
