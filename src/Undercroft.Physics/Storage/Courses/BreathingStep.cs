using System.Runtime.CompilerServices;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>The gas of packages at the room's pressure over a sub-step: Σn first follows the room, then films and flow act together.</summary>
/// <remarks>
/// <para><b>Equation</b> dn_i/dt = S_i − k_i n_i + F_in x_i − F_out n_i/N with Σn = N and F_out − F_in what the films bring in excess; F_in the mean of max(0, −F + A sin φ), A from the
/// day's swing, see <see cref="DailyFlow{T}"/>.</para>
/// <para><b>Source</b> derived from the storage model's exchange.</para>
/// <para><b>Valid</b> swings of pressure small against the whole.</para>
/// <para><b>Error</b> measured against the fine engine in the tests.</para>
/// </remarks>
internal static class BreathingStep<T>
    where T : struct, ILane<T>
{
    private const int MostRounds = 8;
    private const double Met = 1e-12; // of the gas held

    /// <summary>Moves the amounts on and returns the water that the flow carried off, kg.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static T Advance(in VentedMoment<T> at, T taken, RoomAir air, T part, Span<T> moles)
    {
        var now = at.Now;
        var (nought, one) = (T.Of(0), T.Of(1));
        var held = moles[0] + moles[1] + moles[2];
        var wanted = at.Slack * now.Maximum / at.Energy;
        var whole = air.Oxygen + air.CarbonDioxide + air.Nitrogen;
        Span<double> shares = [air.Oxygen / whole, air.CarbonDioxide / whole, air.Nitrogen / whole];
        Span<T> start = [default, default, default];
        for (var gas = 0; gas < 3; gas++)
            start[gas] = T.WhereLess(wanted, held, moles[gas] * wanted / held, moles[gas] + ((wanted - held) * T.Of(shares[gas])));
        var days = T.Of(now.Length) * part;
        var day = DailyFlow<T>.Of(at, taken / days, wanted, moles);
        var amplitude = day.Amplitude(T.Of(Math.PI) * wanted * part * at.Breath, days);

        // What the films bring in excess flows out again and takes some of each gas with it, which lets the films bring more: where they are far quicker than
        // the flow, the one hangs on the other so closely that only a secant finds the excess that keeps Σn. A draw that has found it stands still.
        var near = T.Of(Met) * wanted;
        var perHeld = one / wanted;
        var (excess, lastExcess, lastMissed, inward, outward) = (nought, nought, nought, nought, nought);
        for (var round = 0; round < MostRounds; round++)
        {
            inward = Turn<T>.MeanAboveZero(nought - excess, amplitude);
            outward = inward + excess;
            var (found, given) = (nought, nought);
            for (var gas = 0; gas < 3; gas++)
            {
                ref readonly var sums = ref now.Gases[gas];
                var film = (sums.Pressure - (at.VapourPerSaturation * sums.Saturation)) * perHeld * part;
                var source = sums.Source * part;
                var clock = film + (outward * perHeld);
                var brought = source + (inward * T.Of(shares[gas]));
                if (gas == 0)
                    clock += taken;
                else if (gas == 1)
                    brought += given;
                clock = T.Max(clock, T.Of(1e-300));
                var target = brought / clock;
                var step = Relaxation<T>.Over(clock);
                moles[gas] = step.End(start[gas], target, nought);
                var mean = step.Mean(start[gas], target, nought);
                found += source - (film * mean);
                if (gas == 0)
                {
                    given = now.RespiratoryQuotient * taken * mean;
                    found -= taken * mean;
                }
                else if (gas == 1)
                {
                    found += given;
                }
            }

            var missed = found - excess;
            var open = T.WhereLess(near, T.Max(missed, nought - missed), one, nought);
            if (T.AllLess(open, one))
                break;
            var apart = missed - lastMissed;
            var secant = excess - (missed * (excess - lastExcess) / apart);
            var next = round == 0 ? found : T.WhereLess(nought, T.Max(apart, nought - apart), secant, found);
            (lastExcess, lastMissed) = (T.WhereLess(nought, open, excess, lastExcess), T.WhereLess(nought, open, missed, lastMissed));
            excess = T.WhereLess(nought, open, next, excess);
        }

        var together = (day.WithInside * Turn<T>.SwingAboveZero(excess, amplitude)) + (day.WithRoom * Turn<T>.SwingAboveZero(nought - excess, amplitude));
        return ((outward * at.Vapour / at.Slack) - (inward * now.RoomVapour / (now.RoomPressure - now.RoomVapour)) + together) * T.Of(PhysicalConstants.MolarMassOfWater);
    }
}
