using System.Runtime.CompilerServices;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>The gas of flexible packages, or of ones through which air flows, over one step.</summary>
/// <remarks>
/// <para><b>Equation</b> films first, at the volume or the pressure of the moment; then viscous flow lets Σn relax toward what the room's
/// pressure would hold, N = (P − a·psat) V/(R T), at the rate G_v R T/V, while the day's swing draws in B·N κ/√(κ² + ω²), with B the rises of
/// ln[(P − a·psat)/T] from the climate's table: air in has the room's composition, air out the inside's. Packages at the room's pressure: see <see cref="BreathingStep{T}"/>.
/// Soft walls that are settled take the step at once, see <see cref="SoftWallStep{T}"/>.</para>
/// <para><b>Source</b> derived from the storage model's exchange; splitting of films and flow is first order in the sub-step.</para>
/// <para><b>Valid</b> swings of pressure small against the whole.</para>
/// <para><b>Error</b> measured against the fine engine in the tests.</para>
/// </remarks>
internal static class VentedGasStep<T>
    where T : struct, ILane<T>
{
    private const double R = PhysicalConstants.GasConstant;
    private const int MostSubsteps = 32;
    private const int SubstepsOfSettled = 4;
    private const int SubstepsPerClock = 4;
    private const double Settled = 0.02;

    /// <summary>Moves the amounts on and returns the water that the flow carried off, kg. Every draw takes the sub-steps that it would take alone.</summary>
    /// <param name="now">The draws, and the step that they have read.</param>
    /// <param name="activity22">As the step begins.</param>
    /// <param name="uptakeMass">What the uptake is of.</param>
    /// <param name="air">Of the room.</param>
    /// <param name="moles">Of each gas.</param>
    /// <param name="means">Gets their means over the step.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static T Advance(StayDraw<T> now, T activity22, T uptakeMass, RoomAir air, Span<T> moles, Span<T> means)
    {
        VentedMoment<T> at = new(now, activity22 * now.ShiftedSaturation, moles[0] + moles[1] + moles[2]);
        var (nought, one) = (T.Of(0), T.Of(1));
        if (!now.Flexible)
            return InParts(at, uptakeMass, air, nought, moles, means);
        Span<T> start = [moles[0], moles[1], moles[2]];
        var (water, doubt) = SoftWallStep<T>.Advance(at, uptakeMass, air, moles, means);
        var settled = T.WhereLess(doubt, one, one, nought);
        if (T.AllLess(nought, settled))
            return water;
        Span<T> split = [default, default, default];
        var splitWater = InParts(at, uptakeMass, air, settled, start, split);
        for (var gas = 0; gas < 3; gas++)
            (moles[gas], means[gas]) = (T.WhereLess(nought, settled, moles[gas], start[gas]), T.WhereLess(nought, settled, means[gas], split[gas]));
        return T.WhereLess(nought, settled, water, splitWater);
    }

    /// <summary>Moves on in sub-steps the draws that are not settled.</summary>
    private static T InParts(in VentedMoment<T> at, T uptakeMass, RoomAir air, T settled, Span<T> moles, Span<T> means)
    {
        Span<double> counts = stackalloc double[T.Count];
        var most = Counts(at, uptakeMass, settled, moles, counts);
        var own = T.Load(counts);
        var part = T.Of(1) / T.Max(own, T.Of(1));
        Span<T> before = [default, default, default];
        var water = T.Of(0);
        var half = T.Of(0.5) * part;
        means.Clear();
        for (var i = 0; i < most; i++)
        {
            moles[..3].CopyTo(before);
            var carried = Substep(at, uptakeMass, air, part, moles);
            var step = T.Of(i);
            water += T.WhereLess(step, own, carried, T.Of(0));
            for (var gas = 0; gas < 3; gas++)
            {
                means[gas] += T.WhereLess(step, own, (before[gas] + moles[gas]) * half, T.Of(0));
                moles[gas] = T.WhereLess(step, own, moles[gas], before[gas]);
            }
        }

        return water;
    }

    /// <summary>From the true amounts as a day begins to their slow course, about which the day's swing plays: what passes early or late in a day counts from there.</summary>
    public static void BeginOnSlowCourse(StayDraw<T> now, T uptakeMass, Span<T> moles)
    {
        var held = moles[0] + moles[1] + moles[2];
        var volume = new VentedMoment<T>(now, T.Of(0), held).Volume(held);
        Span<T> cos = [default, default, default];
        Span<T> sin = [default, default, default];
        GasStep<T>.Ripple(now, T.Of(R) / volume, uptakeMass, moles, cos, sin);
        for (var gas = 0; gas < 3; gas++)
            moles[gas] = T.Max(moles[gas] - cos[gas], T.Of(0));
    }

    /// <summary>How many sub-steps each draw takes, settled ones none; returns the most.</summary>
    private static int Counts(in VentedMoment<T> at, T uptakeMass, T settled, ReadOnlySpan<T> moles, Span<double> counts)
    {
        var now = at.Now;
        var held = moles[0] + moles[1] + moles[2];
        var volume = at.Volume(held);
        var fastest = T.Max(
            T.Max(T.Max(now.Gases[0].Rate, now.Gases[1].Rate), now.Gases[2].Rate) * T.Of(R) / volume, UptakeClock(now, uptakeMass, volume));
        var most = T.Of(now.Flexible ? MostSubsteps : SubstepsOfSettled); // a settled rigid gas is where its target is, however fast it gets there
        if (at.LetsFlow)
        {
            var goal = at.Slack * volume / at.Energy;
            var away = T.Max(held - goal, goal - held) - (T.Of(Settled) * goal);
            var far = T.WhereLess(T.Of(0), T.Min(away, now.Viscous), T.Of(1) - at.Breathes, T.Of(0));
            fastest = T.WhereLess(T.Of(0), far, T.Max(fastest, now.Viscous * T.Of(now.Length) * at.Energy / volume), fastest);
            most = T.WhereLess(T.Of(0), far, T.Of(MostSubsteps), most);
        }

        if (now.Flexible)
            fastest *= T.Of(SubstepsPerClock);
        Span<double> limits = stackalloc double[T.Count];
        T.WhereLess(T.Of(0), settled, T.Of(0), most).Store(limits);
        fastest.Store(counts);
        var highest = 1.0;
        for (var i = 0; i < counts.Length; i++)
        {
            counts[i] = double.IsNaN(counts[i]) ? 1 : Math.Min(Math.Max(Math.Ceiling(counts[i]), 1), limits[i]);
            highest = Math.Max(highest, counts[i]);
        }

        return (int)highest;
    }

    /// <summary>Clock of the uptake of oxygen over the step.</summary>
    public static T UptakeClock(StayDraw<T> now, T uptakeMass, T volume) =>
        now.UptakeIsPerPascal ? now.Uptake * uptakeMass * T.Of(R) / volume : now.Uptake * uptakeMass;

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static T Substep(in VentedMoment<T> at, T uptakeMass, RoomAir air, T part, Span<T> moles)
    {
        var now = at.Now;
        if (!at.LetsFlow || now.Flexible)
            return FilmsAndFlow(at, uptakeMass, air, part, moles);
        var nought = T.Of(0);
        if (T.AllLess(nought, at.Breathes))
            return BreathingStep<T>.Advance(at, UptakeClock(now, uptakeMass, now.Maximum) * part, air, part, moles);
        if (T.AllLess(at.Breathes, T.Of(1)))
            return FilmsAndFlow(at, uptakeMass, air, part, moles);
        Span<T> other = [moles[0], moles[1], moles[2]];
        var breathed = BreathingStep<T>.Advance(at, UptakeClock(now, uptakeMass, now.Maximum) * part, air, part, other);
        var flowed = FilmsAndFlow(at, uptakeMass, air, part, moles);
        for (var gas = 0; gas < 3; gas++)
            moles[gas] = T.WhereLess(nought, at.Breathes, other[gas], moles[gas]);
        return T.WhereLess(nought, at.Breathes, breathed, flowed);
    }

    private static T FilmsAndFlow(in VentedMoment<T> at, T uptakeMass, RoomAir air, T part, Span<T> moles)
    {
        var now = at.Now;
        var nought = T.Of(0);
        Span<T> start = [moles[0], moles[1], moles[2]];
        var held = start[0] + start[1] + start[2];
        var total = now.Flexible ? at.PressureOfFilms(held) : nought;
        Films(at, uptakeMass, part, total, held, default, start, moles);
        if (now.Flexible && !T.AllLess(total, T.Of(double.Epsilon)))
        {
            // Σn enters the rates: once more with its middle value.
            held = T.WhereLess(nought, total, (held + moles[0] + moles[1] + moles[2]) * T.Of(0.5), held);
            total = T.WhereLess(nought, total, at.PressureOfFilms(held), total);
            Films(at, uptakeMass, part, total, held, default, start, moles);
        }

        if (!at.LetsFlow)
            return nought;
        var flow = now.Flexible ? ThroughSoftWalls(at, part, moles[0] + moles[1] + moles[2]) : ThroughGap(at, part, moles[0] + moles[1] + moles[2]);
        if (T.AllLess(flow.Inward + flow.Outward, T.Of(double.Epsilon)))
            return nought;

        // What flows in passes the films and is taken up too, and what flows out does neither: films once more, with the flow.
        flow = flow with { Air = air };
        Films(at, uptakeMass, part, total, held, flow, start, moles);
        return ((flow.Outward * at.Vapour / at.Slack) - (flow.Inward * now.RoomVapour / (now.RoomPressure - now.RoomVapour))) * T.Of(PhysicalConstants.MolarMassOfWater);
    }

    /// <summary>Dry gas that flows over a sub-step, mol; out as a share of what is held.</summary>
    private readonly record struct GasFlow(T Inward, T Outward, T OutwardClock, RoomAir Air);

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Films(in VentedMoment<T> at, T uptakeMass, T part, T total, T held, in GasFlow flow, ReadOnlySpan<T> start, Span<T> moles)
    {
        var now = at.Now;
        var volume = at.Volume(held);
        var whole = flow.Air.Oxygen + flow.Air.CarbonDioxide + flow.Air.Nitrogen;
        var fresh = whole > 0 ? flow.Inward * T.Of(1 / whole) : T.Of(0);
        var taken = UptakeClock(now, uptakeMass, volume) * part;
        var given = T.Of(0);
        var perVolume = T.Of(R) / volume;
        var (perHeld, share) = (T.Of(1) / held, total / now.RoomPressure);
        for (var gas = 0; gas < 3; gas++)
        {
            ref readonly var sums = ref now.Gases[gas];
            var film = perVolume * sums.Rate;
            if (now.Flexible)
                film = T.WhereLess(T.Of(0), total, ((sums.Pressure * share) - (at.VapourPerSaturation * sums.Saturation)) * perHeld, film);
            var clock = (film * part) + flow.OutwardClock;
            var source = (sums.Source * part) + (fresh * T.Of(gas == 0 ? flow.Air.Oxygen : gas == 1 ? flow.Air.CarbonDioxide : flow.Air.Nitrogen));
            if (gas == 0)
                clock += taken;
            else if (gas == 1)
                source += given;
            clock = T.Max(clock, T.Of(1e-300));
            var target = source / clock;
            var step = Relaxation<T>.Over(clock);
            moles[gas] = step.End(start[gas], target, T.Of(0));
            if (gas == 0)
                given = now.RespiratoryQuotient * taken * step.Mean(start[0], target, T.Of(0));
        }
    }

    /// <summary>A rigid package that holds a pressure of its own: it relaxes toward the room's, with what of the day's swing gets through.</summary>
    private static GasFlow ThroughGap(in VentedMoment<T> at, T part, T held)
    {
        var now = at.Now;
        var wanted = at.Slack * now.Maximum / at.Energy;
        var dryPart = T.Of(1) - (T.WhereLess(held, wanted, now.RoomVapour, at.Vapour) / now.RoomPressure);
        var perDay = now.Viscous * at.Energy / now.Maximum;
        var clock = perDay * T.Of(now.Length) * part * dryPart;
        var net = (wanted - held) * Relaxation<T>.Over(clock).Fraction;
        var follows = perDay / T.Sqrt((perDay * perDay) + T.Of(Math.Tau * Math.Tau));
        var inward = Turn<T>.MeanAboveZero(net, T.Of(Math.PI) * held * part * follows * at.Breath);
        var outward = inward - net;
        return new(inward, outward, outward / held, default);
    }

    /// <summary>Air flows in while a package is tight, out while it bulges, in the hours of the day in which it does; one step of the mean's own rate, linear about its beginning.</summary>
    private static GasFlow ThroughSoftWalls(in VentedMoment<T> at, T part, T held)
    {
        var now = at.Now;
        var (below, above) = (at.Below(held), at.Above(held));
        var perPascal = now.Viscous * T.Of(now.Length) * part;
        var (dryRoom, dryInside) = (T.Of(1) - (now.RoomVapour / now.RoomPressure), at.Slack / now.RoomPressure);
        var inward = perPascal * dryRoom * below.Pascals * Relaxation<T>.Over(perPascal * dryRoom * below.PerMole * below.Share).First;
        var outward = perPascal * dryInside * above.Pascals * Relaxation<T>.Over(perPascal * dryInside * above.PerMole * above.Share).First;
        return new(inward, outward, outward / held, default);
    }
}
