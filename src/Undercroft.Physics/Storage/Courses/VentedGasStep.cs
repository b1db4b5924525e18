using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>The gas of a flexible package, or of one through which air flows, over one step.</summary>
/// <remarks>
/// <para><b>Equation</b> films first, at the volume or the pressure of the moment; then viscous flow lets Σn relax toward what the room's
/// pressure would hold, N = (P − a·psat) V/(R T), at the rate G_v R T/V, while the day's swing draws in B·N κ/√(κ² + ω²), with B the rises of
/// ln[(P − a·psat)/T] from the climate's table: air in has the room's composition, air out the inside's. Where a package breathes, its films swing with
/// the day too, see <see cref="DailyFlow"/>: they change how much is drawn in, and let most flow out while its vapour is highest.</para>
/// <para><b>Source</b> derived from the storage model's exchange; splitting of films and flow is first order in the sub-step.</para>
/// <para><b>Valid</b> swings of pressure small against the whole.</para>
/// <para><b>Error</b> measured against the fine engine in the tests.</para>
/// </remarks>
internal static class VentedGasStep
{
    private const double R = PhysicalConstants.GasConstant;
    private const int MostSubsteps = 32;
    private const int SubstepsOfSettled = 4;
    private const int MostRounds = 8;
    private const double Met = 1e-12; // of the gas held

    /// <summary>True where air flows so freely that the pressure inside is the room's.</summary>
    public static bool Breathes(StayDraw<Lane1> now) => !now.Flexible && now.Viscous > 0 && now.Maximum / (now.Viscous * R * Conductance.ReferenceKelvin) < 1;

    /// <summary>Moves the amounts on and returns the water that the flow carried off, kg.</summary>
    public static double Advance(StayDraw<Lane1> now, double activity22, double uptakeMass, RoomAir air, Span<double> moles)
    {
        var vapour = Math.Min(activity22 * now.ShiftedSaturation, 0.9 * now.RoomPressure);
        var slack = now.RoomPressure - vapour;
        var energy = R * now.Kelvin;
        var fastest = 0.0;
        var volume = Volume(now, moles, slack, energy, out _);
        for (var gas = 0; gas < 3; gas++)
            fastest = Math.Max(fastest, now.Gases[gas].Rate * R / volume);
        fastest = Math.Max(fastest, UptakeClock(now, uptakeMass, volume));
        var settled = slack * now.Maximum / energy;
        var far = now.Viscous > 0 && !Breathes(now) && Math.Abs(moles[0] + moles[1] + moles[2] - settled) > 0.02 * settled;
        if (far)
            fastest = Math.Max(fastest, now.Viscous * now.Length * energy / volume);
        var most = now.Flexible || far ? MostSubsteps : SubstepsOfSettled; // a settled rigid gas is where its target is, however fast it gets there
        var count = (int)Math.Clamp(Math.Ceiling(fastest * (now.Flexible ? 4 : 1)), 1, most);
        var water = 0.0;
        for (var i = 0; i < count; i++)
            water += Substep(now, activity22, vapour, uptakeMass, air, 1.0 / count, moles);
        return water;
    }

    /// <summary>Gas volume, m³, and whether the walls hang free so that the pressure is the room's.</summary>
    public static double Volume(StayDraw<Lane1> now, ReadOnlySpan<double> moles, double slack, double energy, out bool free)
    {
        free = false;
        if (!now.Flexible)
            return now.Maximum;
        var wanted = (moles[0] + moles[1] + moles[2]) * energy / slack;
        free = wanted > now.Minimum && wanted < now.Maximum;
        return Math.Clamp(wanted, now.Minimum, now.Maximum);
    }

    /// <summary>What one mole of dry gas adds to the pressure inside, on the mean of the day.</summary>
    public static double PascalsPerMole(StayDraw<Lane1> now, double held, double vapour) =>
        now.Flexible ? (FlexiblePressure(now, held, vapour) - vapour) / held
        : Breathes(now) ? (now.RoomPressure - vapour) / held
        : R * now.Kelvin / now.Maximum;

    /// <summary>Mean total pressure of a flexible package over the day: the room's but for the hours in which it is tight or bulging.</summary>
    public static double FlexiblePressure(StayDraw<Lane1> now, double held, double vapour)
    {
        var swing = Math.Sqrt((now.KelvinCos * now.KelvinCos) + (now.KelvinSin * now.KelvinSin));
        var rise = vapour * SaturationPressure.LogSlopeOverWater(now.Kelvin);
        var (tight, taut) = ((held * R / now.Minimum) + rise, (held * R / now.Maximum) + rise); // per kelvin
        var deficit = MeanAboveZero(now.RoomPressure - vapour - (held * R * now.Kelvin / now.Minimum), tight * swing);
        var excess = MeanAboveZero((held * R * now.Kelvin / now.Maximum) + vapour - now.RoomPressure, taut * swing);
        return now.RoomPressure - deficit + excess;
    }

    private static double UptakeClock(StayDraw<Lane1> now, double uptakeMass, double volume) =>
        now.Uptake * uptakeMass * (now.UptakeIsPerPascal ? R / volume : 1);

    private static double Substep(StayDraw<Lane1> now, double activity22, double vapour, double uptakeMass, RoomAir air, double part, Span<double> moles)
    {
        var slack = now.RoomPressure - vapour;
        var energy = R * now.Kelvin;
        Span<double> start = [moles[0], moles[1], moles[2]];
        var held = start[0] + start[1] + start[2];
        var volume = Volume(now, start, slack, energy, out var free);
        if (Breathes(now))
            return Breathe(now, activity22, vapour, uptakeMass, air, part, volume, energy, moles);
        var total = PressureOfFilms(now, held, vapour);
        Films(now, vapour, uptakeMass, part, volume, total, held, start, moles);
        if (now.Flexible && total > 0)
        {
            // Σn enters the rates: once more with its middle value.
            var middle = (held + moles[0] + moles[1] + moles[2]) / 2;
            Span<double> half = [(start[0] + moles[0]) / 2, (start[1] + moles[1]) / 2, (start[2] + moles[2]) / 2];
            volume = Volume(now, half, slack, energy, out free);
            Films(now, vapour, uptakeMass, part, volume, PressureOfFilms(now, middle, vapour), middle, start, moles);
        }

        if (free)
            return 0;
        return now.Viscous > 0 ? Flow(now, activity22, vapour, air, part, volume, energy, moles) : 0;
    }

    /// <summary>Total pressure where it does not follow the temperature at a fixed volume; 0 where it does.</summary>
    private static double PressureOfFilms(StayDraw<Lane1> now, double held, double vapour)
    {
        if (Breathes(now))
            return now.RoomPressure;
        if (!now.Flexible)
            return 0;
        var total = FlexiblePressure(now, held, vapour);
        var tight = vapour + (held * R * now.Kelvin / now.Minimum);
        var taut = vapour + (held * R * now.Kelvin / now.Maximum);
        var near = 1e-9 * now.RoomPressure;
        return Math.Abs(total - tight) < near || Math.Abs(total - taut) < near ? 0 : total;
    }

    private static void Films(
        StayDraw<Lane1> now, double vapour, double uptakeMass, double part, double volume, double total, double held, ReadOnlySpan<double> start, Span<double> moles)
    {
        var taken = UptakeClock(now, uptakeMass, volume) * part;
        var given = 0.0;
        for (var gas = 0; gas < 3; gas++)
        {
            ref readonly var sums = ref now.Gases[gas];
            var film = total > 0
                ? ((sums.Pressure * (total / now.RoomPressure)) - (vapour / now.Saturation * sums.Saturation)) / held
                : R / volume * sums.Rate;
            var clock = (film * part) + (gas == 0 ? taken : 0);
            var source = (sums.Source * part) + (gas == 1 ? given : 0);
            if (!(clock > 1e-300))
            {
                moles[gas] = start[gas] + source;
                continue;
            }

            var step = Relaxation<Lane1>.Over(clock);
            moles[gas] = step.End(start[gas], source / clock, 0);
            if (gas == 0)
                given = now.RespiratoryQuotient * taken * step.Mean(start[0], source / clock, 0);
        }
    }

    /// <summary>
    /// A package at the room's pressure: Σn first follows the room, then films and flow act together, the flow carrying off what the films
    /// bring in excess.
    /// </summary>
    private static double Breathe(
        StayDraw<Lane1> now, double activity22, double vapour, double uptakeMass, RoomAir air, double part, double volume, double energy, Span<double> moles)
    {
        var held = moles[0] + moles[1] + moles[2];
        double wanted = (now.RoomPressure - vapour) * volume / energy;
        var whole = air.Oxygen + air.CarbonDioxide + air.Nitrogen;
        Span<double> shares = [air.Oxygen / whole, air.CarbonDioxide / whole, air.Nitrogen / whole];
        Span<double> start = stackalloc double[3];
        for (var gas = 0; gas < 3; gas++)
            start[gas] = wanted < held ? moles[gas] * wanted / held : moles[gas] + ((wanted - held) * shares[gas]);
        double swing = now.Breath + (activity22 * now.ShiftedSaturation / now.Saturation * now.BreathPerActivity);
        var taken = UptakeClock(now, uptakeMass, volume) * part;
        var day = DailyFlow.Of(now, vapour, taken / (now.Length * part), volume, wanted, moles);
        var amplitude = day.Amplitude(Math.PI * wanted * part * swing, now.Length * part);
        // What the films bring in excess flows out again and takes some of each gas with it, which lets the films bring more: where they are far quicker than
        // the flow, the one hangs on the other so closely that only a secant finds the excess that keeps Σn.
        var (excess, lastExcess, lastMissed, inward, outward) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (var round = 0; round < MostRounds; round++)
        {
            inward = MeanAboveZero(-excess, amplitude);
            outward = inward + excess;
            var (found, given) = (0.0, 0.0);
            for (var gas = 0; gas < 3; gas++)
            {
                ref readonly var sums = ref now.Gases[gas];
                double film = (sums.Pressure - (vapour / now.Saturation * sums.Saturation)) / wanted * part;
                double source = sums.Source * part;
                var clock = Math.Max(film + (gas == 0 ? taken : 0) + (outward / wanted), 1e-300);
                var target = (source + (inward * shares[gas]) + (gas == 1 ? given : 0)) / clock;
                var step = Relaxation<Lane1>.Over(clock);
                moles[gas] = step.End(start[gas], target, 0);
                double mean = step.Mean(start[gas], target, 0);
                found += source - (film * mean) + (gas == 0 ? -taken * mean : gas == 1 ? given : 0);
                if (gas == 0)
                    given = now.RespiratoryQuotient * taken * mean;
            }

            var missed = found - excess;
            if (Math.Abs(missed) < Met * wanted)
                break;
            var next = round == 0 || missed == lastMissed ? found : excess - (missed * (excess - lastExcess) / (missed - lastMissed));
            (lastExcess, lastMissed) = (excess, missed);
            excess = next;
        }

        var together = (day.WithInside * SwingAboveZero(excess, amplitude)) + (day.WithRoom * SwingAboveZero(-excess, amplitude));
        return ((outward * vapour / (now.RoomPressure - vapour)) - (inward * now.RoomVapour / (now.RoomPressure - now.RoomVapour)) + together)
            * PhysicalConstants.MolarMassOfWater;
    }

    private static double Flow(StayDraw<Lane1> now, double activity22, double vapour, RoomAir air, double part, double volume, double energy, Span<double> moles)
    {
        var held = moles[0] + moles[1] + moles[2];
        double wanted = (now.RoomPressure - vapour) * volume / energy;
        double dryPart = 1 - ((wanted > held ? now.RoomVapour : vapour) / now.RoomPressure);
        double clock = now.Viscous * now.Length * part * energy / volume * dryPart;
        double perDay = now.Viscous * energy / volume;
        double then = Breathes(now) ? wanted : held + ((wanted - held) * (double)Relaxation<Lane1>.Over(clock).Fraction);
        var net = then - held;
        var follows = Breathes(now) ? 1 : perDay / Math.Sqrt((perDay * perDay) + (Math.Tau * Math.Tau));
        double swing = now.Breath + (activity22 * now.ShiftedSaturation / now.Saturation * now.BreathPerActivity);
        var drawn = now.Flexible ? 0 : held * part * follows * swing;
        var inward = MeanAboveZero(net, Math.PI * drawn);
        var outward = inward - net;
        var kept = Math.Exp(-outward / held);
        var fresh = then - (held * kept);
        var whole = air.Oxygen + air.CarbonDioxide + air.Nitrogen;
        moles[0] = (moles[0] * kept) + (fresh * air.Oxygen / whole);
        moles[1] = (moles[1] * kept) + (fresh * air.CarbonDioxide / whole);
        moles[2] = (moles[2] * kept) + (fresh * air.Nitrogen / whole);
        return ((outward * vapour / (now.RoomPressure - vapour)) - (inward * now.RoomVapour / (now.RoomPressure - now.RoomVapour)))
            * PhysicalConstants.MolarMassOfWater;
    }

    /// <summary>The mean of max(0, F + A sin) over a turn: what flows one way when a swing rides on a steady flow.</summary>
    private static double MeanAboveZero(double steady, double amplitude) => Math.Abs(steady) >= amplitude
        ? Math.Max(0, steady)
        : (Math.Sqrt((amplitude * amplitude) - (steady * steady)) + (steady * ((Math.PI / 2) + Math.Asin(steady / amplitude)))) / Math.PI;

    /// <summary>The mean of cos·max(0, F + A cos) over a turn: how much of what flows one way goes with the swing.</summary>
    private static double SwingAboveZero(double steady, double amplitude)
    {
        if (Math.Abs(steady) >= amplitude)
            return steady > 0 ? amplitude / 2 : 0;
        var turn = Math.Acos(-steady / amplitude);
        return ((steady * Math.Sin(turn)) + (amplitude * ((turn / 2) + (Math.Sin(2 * turn) / 4)))) / Math.PI;
    }
}
