using Undercroft.Physics.Air;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>One draw of a course: the leaf by its clock, the gases by theirs, from event to event.</summary>
/// <remarks>
/// <para><b>Equation</b> with y = a22 and dθ = ΣG f s psat dt: dy/dθ = −(y − RH/s)/(m dX/da), one exponential step at a time, dX/da at mid-step.</para>
/// <para><b>Source</b> derived from the storage model's exchange.</para>
/// <para><b>Valid</b> activities from 1e-6 to 0.9999; a draw that leaves them is reported and its outputs are NaN.</para>
/// <para><b>Error</b> second order in the step; measured against the fine engine in the tests.</para>
/// </remarks>
internal sealed class CourseRun(Course course, IReadOnlyList<StayPlan> plans, Action<int, CourseRow> write)
{
    private const double Lowest = 1e-6;
    private const double Highest = 0.9999;

    private readonly double[] moles = new double[3];
    private readonly double[] cos = new double[3];
    private readonly double[] sin = new double[3];
    private LeafCurve leaf = null!;
    private double activity22;
    private double dryMass;

    /// <summary>Runs one draw; false where it left the range of the model.</summary>
    public bool Run(int draw, LeafCurve curve, LimitWatch watch)
    {
        leaf = curve;
        dryMass = course.DryMass[draw];
        Array.Clear(moles);
        activity22 = SetMoisture(course.StartMoisture[draw]);
        var inRange = InRange();
        for (var s = 0; s < plans.Count; s++)
        {
            var plan = plans[s];
            var next = 0;
            if (inRange)
            {
                var now = new StayDraw(plan, draw, leaf.Leaf.SorptionHeat);
                inRange = Begin(plan.Stay, now, draw, s == 0) && InRange();
                if (inRange)
                {
                    watch.Look(plan.Start[0], activity22, now.ShiftAtEdge(0));
                    WriteRows(plan, now, 0, ref next);
                }

                for (var step = 0; step < plan.Steps && inRange; step++)
                {
                    Advance(plan, now, step, watch);
                    inRange = InRange();
                    if (inRange)
                        WriteRows(plan, now, step + 1, ref next);
                }
            }

            for (; next < plan.Rows.Count; next++)
                write(plan.Rows[next].Row, CourseRow.Unknown);
        }

        return inRange;
    }

    private bool InRange() => activity22 is > Lowest and < Highest && double.IsFinite(moles[0] + moles[1] + moles[2]);

    private double SetMoisture(double dryBasis)
    {
        try
        {
            return leaf.Leaf.ActivityAt(new(dryBasis)).Fraction;
        }
        catch (ArgumentOutOfRangeException)
        {
            return double.NaN;
        }
    }

    private double UptakeMass(StayDraw now) => now.UptakeIsPerKilogram ? dryMass : 1;

    private void Advance(StayPlan plan, StayDraw now, int step, LimitWatch watch)
    {
        if (now.Simple && step > 0 && plan.Resolved[step] != plan.Resolved[step - 1])
            ChangeResolution(plan, now, step);
        now.ReadStep(step);
        if (now.LeafTakenPerDay > 0)
        {
            var moisture = leaf.Leaf.MoistureAt(new(activity22)).DryBasis;
            dryMass = Math.Max(dryMass - (now.LeafTakenPerDay * now.Length / (1 + moisture)), dryMass * 1e-3);
        }

        var before = activity22;
        var (from, to) = Move(plan.Stay, now);
        watch.Follow(
            plan.Start[step], now.Length, (before, from, now.ShiftAtEdge(step)), (activity22, to, now.ShiftAtEdge(step + 1)));
    }

    /// <summary>Leaf and gas over the span that <paramref name="now"/> has read; returns the rates of activity at both ends, per day.</summary>
    private (double From, double To) Move(Stay stay, StayDraw now)
    {
        var before = activity22;
        var (from, to) = (0.0, 0.0);
        if (now.WaterClock > 0)
        {
            var mean = now.WaterSource / now.WaterClock;
            var change = mean * now.Trend[StayPlan.WaterTrend];
            var slope = leaf.Slope(activity22);
            var half = 0.5 * now.WaterClock / (dryMass * slope);
            var middle = activity22 + ((mean - activity22) * half / (1 + half));
            if (!(middle is > Lowest and < Highest))
                middle = Math.Clamp(middle, Lowest, Highest);
            var clock = now.WaterClock / (dryMass * leaf.Slope(middle));
            activity22 = Relaxation.Over(clock).End(before, mean - (change / 2), change);
            from = clock / now.Length * (mean - (change / 2) - before);
            to = clock / now.Length * (mean + (change / 2) - activity22);
        }

        if (now.Simple)
        {
            GasStep.Advance(now, UptakeMass(now), moles);
        }
        else
        {
            var carried = VentedGasStep.Advance(now, before, UptakeMass(now), stay.Air, moles);
            if (carried != 0 && activity22 is > Lowest and < Highest)
                activity22 -= carried / (dryMass * leaf.Slope(activity22));
        }

        return (from, to);
    }

    /// <summary>From the slow course to the true one before resolved steps, and back after them.</summary>
    private void ChangeResolution(StayPlan plan, StayDraw now, int step)
    {
        now.ReadStep(plan.Resolved[step] ? step - 1 : step);
        GasStep.Ripple(now, UptakeMass(now), moles, cos, sin);
        var time = plan.Start[step];
        var (s, c) = Math.SinCos(Math.Tau * (time - Math.Floor(time)));
        var sign = plan.Resolved[step] ? 1 : -1;
        for (var gas = 0; gas < 3; gas++)
            moles[gas] += sign * ((cos[gas] * c) + (sin[gas] * s));
    }

    /// <summary>Writes the rows that stand after so many steps; <paramref name="next"/> is the first not yet written of the stay.</summary>
    private void WriteRows(StayPlan plan, StayDraw now, int after, ref int next)
    {
        for (; next < plan.Rows.Count && plan.Rows[next].AfterStep == after; next++)
            write(plan.Rows[next].Row, plan.Rows[next].Cell < 0 ? Instant(plan, now, after) : DailyMean(plan, now, next));
    }

    private CourseRow Instant(StayPlan plan, StayDraw now, int after)
    {
        var kelvin = plan.RoomAt(plan.Start[after]).Kelvin + now.TemperatureOffset;
        var activity = activity22 * SorptionShift.FactorOf(now.Heat, kelvin);
        var perMole = PhysicalConstants.GasConstant * kelvin / now.Maximum;
        var vapour = activity * SaturationPressure.PascalOverWater(kelvin);
        return new(
            leaf.Leaf.MoistureAt(new(activity22)).DryBasis, dryMass, activity, moles[0] * perMole, moles[1] * perMole, moles[2] * perMole,
            ((moles[0] + moles[1] + moles[2]) * perMole) + vapour);
    }

    /// <summary>The mean of the day that begins now: the state half-way through it, with the day's own swing.</summary>
    private CourseRow DailyMean(StayPlan plan, StayDraw now, int row)
    {
        now.ReadRow(row);
        var (activityNow, oxygen, carbonDioxide, nitrogen) = (activity22, moles[0], moles[1], moles[2]);
        if (plan.Rows[row].DayLiesAhead)
        {
            Move(plan.Stay, now);
            activity22 = (activityNow + activity22) / 2;
            (moles[0], moles[1], moles[2]) = ((oxygen + moles[0]) / 2, (carbonDioxide + moles[1]) / 2, (nitrogen + moles[2]) / 2);
        }

        var mean = MeanNow(now);
        (activity22, moles[0], moles[1], moles[2]) = (activityNow, oxygen, carbonDioxide, nitrogen);
        return mean;
    }

    private CourseRow MeanNow(StayDraw now)
    {
        var vapour = activity22 * now.ShiftedSaturation;
        Span<double> pressures = stackalloc double[3];
        if (now.Simple)
        {
            GasStep.Ripple(now, UptakeMass(now), moles, cos, sin);
            for (var gas = 0; gas < 3; gas++)
            {
                pressures[gas] = PhysicalConstants.GasConstant / now.Maximum
                    * ((moles[gas] * now.Kelvin) + (0.5 * ((cos[gas] * now.KelvinCos) + (sin[gas] * now.KelvinSin))));
            }
        }
        else
        {
            var held = moles[0] + moles[1] + moles[2];
            var perMole = now.Flexible ? (VentedGasStep.FlexiblePressure(now, held, vapour) - vapour) / held
                : now.Breathes ? (now.RoomPressure - vapour) / held
                : PhysicalConstants.GasConstant * now.Kelvin / now.Maximum;
            for (var gas = 0; gas < 3; gas++)
                pressures[gas] = moles[gas] * perMole;
        }

        var activity = activity22 * SorptionShift.FactorOf(now.Heat, now.Kelvin);
        return new(
            leaf.Leaf.MoistureAt(new(activity22)).DryBasis, dryMass, activity, pressures[0], pressures[1], pressures[2],
            pressures[0] + pressures[1] + pressures[2] + vapour);
    }

    private bool Begin(Stay stay, StayDraw now, int draw, bool first)
    {
        now.ReadStep(0);
        if (first && stay.Events.Count == 0)
            Seal(stay, now, double.NaN, double.NaN, double.NaN);
        foreach (var each in stay.Events)
        {
            switch (each)
            {
                case CourseEvent.Sealed sealing:
                    Seal(stay, now, sealing.Pressure[draw], sealing.Volume[draw], sealing.Kelvin[draw]);
                    break;
                case CourseEvent.Filled filled:
                    (moles[0], moles[1], moles[2]) = (filled.Oxygen[draw], filled.CarbonDioxide[draw], filled.Nitrogen[draw]);
                    break;
                case CourseEvent.Opened opened:
                    if (!Open(stay, now, opened.Fraction[draw]))
                        return false;
                    break;
                case CourseEvent.TakenOut taken:
                    dryMass *= 1 - taken.Fraction[draw];
                    break;
                case CourseEvent.WaterAdded added:
                    activity22 = SetMoisture(leaf.Leaf.MoistureAt(new(activity22)).DryBasis + (added.Kilograms[draw] / dryMass));
                    break;
                default:
                    throw new InvalidOperationException($"No event {each}.");
            }

            if (!InRange())
                return false;
        }

        return true;
    }

    private void Seal(Stay stay, StayDraw now, double pressure, double volume, double kelvin)
    {
        var total = double.IsNaN(pressure) ? now.RoomPressure : pressure;
        var cubic = double.IsNaN(volume) ? now.Minimum : volume;
        var warm = double.IsNaN(kelvin) ? now.Kelvin : kelvin;
        var vapour = activity22 * SorptionShift.FactorOf(now.Heat, warm) * SaturationPressure.PascalOverWater(warm);
        Fill(stay.Air, Math.Max(0, total - (stay.Air.Moist ? vapour : 0)) * cubic / (PhysicalConstants.GasConstant * warm), moles);
    }

    private bool Open(Stay stay, StayDraw now, double fraction)
    {
        var vapour = activity22 * now.ShiftedSaturation;
        var energy = PhysicalConstants.GasConstant * now.Kelvin;
        var slack = now.RoomPressure - vapour;
        var volume = VentedGasStep.Volume(now, moles, slack, energy, out _);
        Span<double> fresh = stackalloc double[3];
        Fill(stay.Air, (stay.Air.Moist ? slack : now.RoomPressure) * volume / energy, fresh);
        for (var gas = 0; gas < 3; gas++)
            moles[gas] += fraction * (fresh[gas] - moles[gas]);
        var lost = fraction * volume * (vapour - now.RoomVapour) * PhysicalConstants.MolarMassOfWater / energy;
        activity22 = SetMoisture(leaf.Leaf.MoistureAt(new(activity22)).DryBasis - (lost / dryMass));
        return InRange();
    }

    private static void Fill(RoomAir air, double amount, Span<double> moles)
    {
        // Fractions of dry air need not add up to exactly one; the amounts keep the fractions.
        (moles[0], moles[1], moles[2]) = (amount * air.Oxygen, amount * air.CarbonDioxide, amount * air.Nitrogen);
    }
}
