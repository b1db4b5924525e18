using System.Runtime.CompilerServices;
using Undercroft.Physics.Air;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>A lane of draws of one course: the leaf by its clock, the gases by theirs, from event to event.</summary>
/// <remarks>
/// <para><b>Equation</b> with y = a22 and dθ = ΣG f s psat dt: dy/dθ = −(y − RH/s)/(m dX/da), one exponential step at a time, dX/da at mid-step.</para>
/// <para><b>Source</b> derived from the storage model's exchange.</para>
/// <para><b>Valid</b> activities from 1e-6 to 0.9999; a draw that leaves them is reported and its outputs are NaN.</para>
/// <para><b>Error</b> second order in the step; measured against the fine engine in the tests.</para>
/// </remarks>
internal sealed partial class CourseRun<T>
    where T : struct, ILane<T>
{
    /// <summary>Activities between which the model holds.</summary>
    public const double Lowest = 1e-6, Highest = 0.9999;

    private readonly Course course;
    private readonly IReadOnlyList<StayPlan> plans;
    private readonly PerDraw heat;
    private readonly int firstDraw;
    private readonly Isotherm[] leaves;
    private readonly LineTable slopes;
    private readonly T beginnings;
    private readonly Action<int, int, CourseRow> write;
    private readonly T[] moles = new T[3];
    private readonly T[] means = new T[3];
    private readonly T[] cos = new T[3];
    private readonly T[] sin = new T[3];
    private readonly T[] pressures = new T[3];
    private readonly CourseRow[] kept;
    private readonly bool[] repeats = new bool[T.Count];
    private readonly bool[] retired = new bool[T.Count];
    private YearlyOrbit<T>? orbit;
    private int yearBefore;
    private T activity22;
    private T dryMass;
    private T slope;

    /// <summary>Prepares the draws from <paramref name="firstDraw"/> on.</summary>
    /// <param name="course">The package.</param>
    /// <param name="plans">Its stays, cut into steps.</param>
    /// <param name="heat">Heat of sorption of each draw.</param>
    /// <param name="shared">The table of the one leaf that all draws share, or null.</param>
    /// <param name="firstDraw">First of the lane.</param>
    /// <param name="kept">Room for the rows of one lane, used again by the next.</param>
    /// <param name="write">Takes rows: number, draw, values.</param>
    public CourseRun(Course course, IReadOnlyList<StayPlan> plans, PerDraw heat, LineTable? shared, int firstDraw, CourseRow[] kept, Action<int, int, CourseRow> write)
    {
        (this.course, this.plans, this.heat, this.firstDraw, this.write) = (course, plans, heat, firstDraw, write);
        leaves = [.. Enumerable.Range(0, T.Count).Select(i => course.Leaf[course.Leaf.Count == 1 ? 0 : Math.Min(firstDraw + i, course.Draws - 1)])];
        slopes = shared ?? TableOf(leaves);
        beginnings = LineTable.Beginnings<T>(shared is not null);
        Watch = new(course.Limits, leaves);
        this.kept = kept;
    }

    /// <summary>What became of the limits.</summary>
    public LimitWatch<T> Watch { get; }

    /// <summary>For each draw of the lane, whether it has left the range of the model.</summary>
    public bool[] LeftRange { get; } = new bool[T.Count];

    /// <summary>(1 − a)² dX/da, which stays tame where dX/da grows without bound.</summary>
    public static LineTable TableOf(IReadOnlyList<Isotherm> leaves) =>
        new([.. leaves.Select(leaf => (Func<double, double>)(a => (1 - a) * (1 - a) * leaf.Slope(new(a))))]);

    /// <summary>Runs the lane from the first day to the last.</summary>
    public void Run()
    {
        dryMass = LaneOf<T>.Draws(course.DryMass, firstDraw, course.Draws);
        Array.Clear(moles);
        var start = LaneOf<T>.Draws(course.StartMoisture, firstDraw, course.Draws);
        Change((lane, _) => ActivityOf(lane, Of(start, lane)));
        for (var s = 0; s < plans.Count; s++)
        {
            var plan = plans[s];
            StayDraw<T> now = new(plan, firstDraw, course.Draws, heat);
            Begin(plan.Stay, now, s == 0);
            if (!plan.Simple && (s == 0 || plan.Stay.Events.Any(each => each is CourseEvent.Sealed or CourseEvent.Filled or CourseEvent.Opened)))
                VentedGasStep<T>.BeginOnSlowCourse(now, UptakeMass(now), moles);
            StayInRange();
            slope = Slope(activity22);
            Watch.Look(plan.Start[0], new(activity22, T.Of(0), now.ShiftAtEdge(0)));
            var next = 0;
            WriteRows(plan, now, 0, ref next);
            orbit = s == plans.Count - 1 && plan.Stay.Place.Periodic && now.CanRepeat ? new YearlyOrbit<T>(plan) : null;
            for (var step = 0; step < plan.Steps; step++)
            {
                Advance(plan, now, step);
                WriteRows(plan, now, step + 1, ref next);
                if (orbit is not null && orbit.Repeats(step + 1, activity22, moles, repeats) && Retire(now, orbit.Since))
                {
                    RepeatRows(plan, orbit, next);
                    break;
                }
            }
        }

        for (var i = 0; i < T.Count; i++)
            LeftRange[i] = !double.IsFinite(Of(activity22, i) + Of(moles[0], i) + Of(moles[1], i) + Of(moles[2], i));
    }

    /// <summary>Leaves to their year the draws that have come to repeat it; true once that holds of all. What they do is theirs alone, whoever stands beside them.</summary>
    private bool Retire(StayDraw<T> now, double since)
    {
        for (var i = 0; i < T.Count; i++)
        {
            if (retired[i] || !repeats[i] || !now.IsSettledSince(since, i) || Watch.IsInSpell(i))
                continue;
            retired[i] = true;
            Watch.Retire(i);
        }

        return !retired.Contains(false);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Of(T lane, int draw)
    {
        Span<double> each = stackalloc double[T.Count];
        lane.Store(each);
        return each[draw];
    }

    private double ActivityOf(int lane, double dryBasis)
    {
        try
        {
            return double.IsNaN(dryBasis) ? double.NaN : leaves[lane].ActivityAt(new(dryBasis)).Fraction;
        }
        catch (ArgumentOutOfRangeException)
        {
            return double.NaN;
        }
    }

    private double MoistureOf(int lane, double activity) => double.IsNaN(activity) ? double.NaN : leaves[lane].MoistureAt(new(activity)).DryBasis;

    /// <summary>Changes the activity of each draw of the lane by itself.</summary>
    private void Change(Func<int, double, double> changed)
    {
        Span<double> each = stackalloc double[T.Count];
        activity22.Store(each);
        for (var i = 0; i < each.Length; i++)
            each[i] = changed(i, each[i]);
        activity22 = T.Load(each);
    }

    private void StayInRange()
    {
        var lost = T.Of(double.NaN);
        activity22 = T.WhereLess(activity22, T.Of(Highest), T.WhereLess(T.Of(Lowest), activity22, activity22, lost), lost);
    }

    /// <summary>m (1 − a)² dX/da without the mass: the table's value.</summary>
    private T Slope(T activity) => slopes.At(activity, beginnings);

    private T UptakeMass(StayDraw<T> now) => now.UptakeIsPerKilogram ? dryMass : T.Of(1);

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Advance(StayPlan plan, StayDraw<T> now, int step)
    {
        if (plan.Simple && step > 0 && plan.Resolved[step] != plan.Resolved[step - 1])
            ChangeResolution(plan, now, step);
        now.ReadStep(step);
        if (now.TakesLeaf)
            TakeLeaf(now);
        var before = activity22;
        var (from, to) = Move(plan, now);
        Watch.Follow(plan.Start[step], now.Length, new(before, from, now.ShiftAtEdge(step)), new(activity22, to, now.ShiftAtEdge(step + 1)));
    }

    private void TakeLeaf(StayDraw<T> now)
    {
        Span<double> left = stackalloc double[T.Count];
        for (var i = 0; i < left.Length; i++)
        {
            var mass = Of(dryMass, i);
            left[i] = Math.Max(mass - (Of(now.LeafTakenPerDay, i) * now.Length / (1 + MoistureOf(i, Of(activity22, i)))), mass * 1e-3);
        }

        dryMass = T.Load(left);
    }

    /// <summary>Leaf and gas over the span that <paramref name="now"/> has read; returns the rates of activity at both ends, per day.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (T From, T To) Move(StayPlan plan, StayDraw<T> now)
    {
        var before = activity22;
        var one = T.Of(1);
        var least = T.Of(1e-300);
        var mean = now.WaterSource / T.Max(now.WaterClock, least);
        var change = mean * T.Of(now.Trend[StayPlan.WaterTrend]);
        var start = mean - (change * T.Of(0.5));
        var perMass = now.WaterClock / dryMass;
        var dryness = one - before;
        var half = T.Of(0.5) * perMass * dryness * dryness / slope;
        var middle = before + ((mean - before) * half / (one + half));
        middle = T.Max(T.Min(middle, T.Of(Highest)), T.Of(Lowest));
        slope = Slope(middle);
        dryness = one - middle;
        var clock = perMass * dryness * dryness / slope;
        activity22 = Relaxation<T>.Over(clock).End(before, start, change);
        var perDay = clock * T.Of(1 / now.Length);
        var (from, to) = (perDay * (start - before), perDay * (start + change - activity22));
        StayInRange();
        if (plan.Simple)
            GasStep<T>.Advance(now, UptakeMass(now), moles);
        else
            Vent(plan, now, before);
        return (from, to);
    }

    /// <summary>The gas of packages that give way or let air flow.</summary>
    private void Vent(StayPlan plan, StayDraw<T> now, T before)
    {
        var carried = VentedGasStep<T>.Advance(now, before, UptakeMass(now), plan.Stay.Air, moles, means);
        var dryness = T.Of(1) - activity22;
        activity22 -= carried * dryness * dryness / (dryMass * slope);
        StayInRange();
    }

    /// <summary>From the slow course to the true one before resolved steps, and back after them.</summary>
    private void ChangeResolution(StayPlan plan, StayDraw<T> now, int step)
    {
        now.ReadStep(plan.Resolved[step] ? step - 1 : step);
        GasStep<T>.Ripple(now, UptakeMass(now), moles, cos, sin);
        var time = plan.Start[step];
        var (s, c) = Math.SinCos(Math.Tau * (time - Math.Floor(time)));
        var sign = plan.Resolved[step] ? 1 : -1;
        for (var gas = 0; gas < 3; gas++)
            moles[gas] += (cos[gas] * T.Of(sign * c)) + (sin[gas] * T.Of(sign * s));
    }

    /// <summary>Writes the rows that stand after so many steps; <paramref name="next"/> is the first not yet written of the stay.</summary>
    private void WriteRows(StayPlan plan, StayDraw<T> now, int after, ref int next)
    {
        for (; next < plan.Rows.Count && plan.Rows[next].AfterStep == after; next++)
        {
            yearBefore = retired.Contains(true) ? plan.Rows[orbit!.SameDayBefore(next)].Row : -1;
            if (plan.Rows[next].Cell < 0)
                WriteInstant(plan, now, after, plan.Rows[next].Row);
            else
                WriteDailyMean(plan, now, next);
        }
    }

    /// <summary>The rows still to come are those of the year before, day by day.</summary>
    private void RepeatRows(StayPlan plan, YearlyOrbit<T> orbit, int next)
    {
        for (; next < plan.Rows.Count; next++)
        {
            var (row, from) = (plan.Rows[next].Row, plan.Rows[orbit.SameDayBefore(next)].Row);
            for (var i = 0; i < T.Count && firstDraw + i < course.Draws; i++)
            {
                kept[(row * T.Count) + i] = kept[(from * T.Count) + i];
                write(row, firstDraw + i, kept[(row * T.Count) + i]);
            }
        }
    }

    private void WriteInstant(StayPlan plan, StayDraw<T> now, int after, int row)
    {
        var kelvin = T.Of(plan.RoomAt(plan.Start[after]).Kelvin) + now.TemperatureOffset;
        var perMole = now.PerVolume * kelvin;
        var activity = activity22 * now.Shift(kelvin);
        Span<double> saturation = stackalloc double[T.Count];
        for (var i = 0; i < saturation.Length; i++)
            saturation[i] = SaturationPressure.PascalOverWater(Of(kelvin, i));
        Write(row, activity, moles[0] * perMole, moles[1] * perMole, moles[2] * perMole, activity * T.Load(saturation));
    }

    /// <summary>The mean of the day that begins now: the state half-way through it, with the day's own swing.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void WriteDailyMean(StayPlan plan, StayDraw<T> now, int row)
    {
        now.ReadRow(row);
        var (activityNow, slopeNow, oxygen, carbonDioxide, nitrogen) = (activity22, slope, moles[0], moles[1], moles[2]);
        if (plan.Rows[row].DayLiesAhead)
        {
            Move(plan, now);
            var half = T.Of(0.5);
            activity22 = (activityNow + activity22) * half;
            (moles[0], moles[1], moles[2]) = plan.Simple
                ? ((oxygen + moles[0]) * half, (carbonDioxide + moles[1]) * half, (nitrogen + moles[2]) * half)
                : (means[0], means[1], means[2]);
        }

        var vapour = activity22 * now.ShiftedSaturation;
        if (plan.Simple)
        {
            GasStep<T>.Ripple(now, UptakeMass(now), moles, cos, sin);
            for (var gas = 0; gas < 3; gas++)
                pressures[gas] = now.PerVolume * ((moles[gas] * now.Kelvin) + (T.Of(0.5) * ((cos[gas] * now.KelvinCos) + (sin[gas] * now.KelvinSin))));
        }
        else
        {
            var held = moles[0] + moles[1] + moles[2];
            var perMole = new VentedMoment<T>(now, vapour, held).PascalsPerMole(held);
            for (var gas = 0; gas < 3; gas++)
                pressures[gas] = moles[gas] * perMole;
        }

        Write(plan.Rows[row].Row, activity22 * now.Shift(now.Kelvin), pressures[0], pressures[1], pressures[2], vapour);
        (activity22, slope, moles[0], moles[1], moles[2]) = (activityNow, slopeNow, oxygen, carbonDioxide, nitrogen);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Write(int row, T activity, T oxygen, T carbonDioxide, T nitrogen, T vapour)
    {
        Span<double> each = stackalloc double[7 * T.Count];
        Span<T> fields = [activity22, activity, oxygen, carbonDioxide, nitrogen, oxygen + carbonDioxide + nitrogen + vapour, dryMass];
        for (var field = 0; field < fields.Length; field++)
            fields[field].Store(each[(field * T.Count)..]);
        for (var i = 0; i < T.Count && firstDraw + i < course.Draws; i++)
        {
            var moisture = MoistureOf(i, each[i]);
            double At(ReadOnlySpan<double> from, int field) => from[(field * T.Count) + i];
            var told = retired[i] ? kept[(yearBefore * T.Count) + i]
                : double.IsNaN(moisture) ? CourseRow.Unknown
                : new(moisture, At(each, 6), At(each, 1), At(each, 2), At(each, 3), At(each, 4), At(each, 5));
            kept[(row * T.Count) + i] = told;
            write(row, firstDraw + i, told);
        }
    }
}
