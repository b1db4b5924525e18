using System.Runtime.InteropServices;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>A course whose packages are rigid and without viscous flow: leaf and gas go their ways apart, each by its own clock.</summary>
internal sealed class QuietRun<T>
    where T : struct, ISingleLane<T>
{
    private readonly Course course;
    private readonly CourseLeaf leaf;
    private readonly IRowTaker taker;
    private readonly DrawGroup[] groups;
    private readonly List<RowBuffer> buffers = []; // of the season
    private readonly Dictionary<int, RowBuffer> bufferOf = []; // of a date where years repeat, so that what was told there need not be told again; of a row in its season elsewhere
    private readonly Dictionary<int, int> lastOf = [];
    private readonly int slots;
    private readonly bool suits;

    /// <summary>Prepares a course.</summary>
    /// <param name="course">Which.</param>
    /// <param name="taker">Gets the rows.</param>
    /// <param name="mayReadOff">False to step the leaf of every draw.</param>
    public QuietRun(Course course, IRowTaker taker, bool mayReadOff)
    {
        (this.course, this.taker) = (course, taker);
        leaf = new(course.Leaf);
        var heat = course.Leaf.All(each => each.SorptionHeat == course.Leaf[0].SorptionHeat)
            ? PerDraw.Same(course.Leaf[0].SorptionHeat)
            : PerDraw.Each([.. course.Leaf.Select(each => each.SorptionHeat)]);
        suits = mayReadOff && LeafNodes<T>.Suits(course, leaf, heat);
        groups = [.. ByspeedOf(course).Chunk(suits ? DrawGroup.WideSize : DrawGroup.Size).Select(draws => new DrawGroup(draws, course.DryMass, heat, leaf, course.WithGas))];
        slots = groups.Sum(group => group.Slots);
        Books = [.. groups.Select(group => new LimitBook(group, course, leaf))];
    }

    /// <summary>The draws, group by group.</summary>
    public IReadOnlyList<DrawGroup> Groups => groups;

    /// <summary>True once leaf was read off between nodes.</summary>
    public bool ReadsOff { get; private set; }

    /// <summary>What became of the limits, group by group.</summary>
    public LimitBook[] Books { get; }

    /// <summary>True for a stay that this run can take.</summary>
    public static bool Takes(Stay stay) => stay.Headspace is HeadspaceDraws.Rigid && stay.LeafTakenPerDay.Range.Highest == 0 && stay.Paths.All(path => path.Median.Viscous == 0);

    /// <summary>Runs the course from the first day to the last; false where its leaf could not be read off between nodes, and nothing told is worth anything.</summary>
    public bool Run()
    {
        foreach (var group in groups)
        {
            for (var slot = 0; slot < group.Slots; slot++)
                group.Activity[slot] = StayEvents.ActivityOf(leaf[group.DrawOf(slot)], course.StartMoisture[group.DrawOf(slot)]);
        }

        var next = 0;
        for (var s = 0; s < course.Stays.Count; s++)
        {
            if (!RunStay(course.Stays[s], s == 0, s == course.Stays.Count - 1, ref next))
                return false;
        }

        return true;
    }

    private bool RunStay(Stay stay, bool first, bool last, ref int next)
    {
        var prepared = Array.ConvertAll(groups, group => Enter(group, stay));
        for (var g = 0; g < groups.Length; g++)
        {
            Begin(groups[g], stay, first, prepared[g].Weights);
            if (stay.Events.Any(each => each is CourseEvent.TakenOut))
                prepared[g] = Enter(groups[g], stay); // what is left takes up less oxygen
        }

        var middle = Middle(prepared[0].Weights);
        var shared = SharedWeather.Of(stay, groups[0].Heat, middle, prepared[0].Weights.IsPlain);
        foreach (var (weights, _) in prepared)
            weights.IsShared = shared is not null;
        SeasonPlan plan = new(stay, middle, shared, course.OutputDays);
        var nodes = suits && shared is not null
            ? LeafNodes<T>.Of(course, stay, leaf, groups, Books, [.. prepared.Select(each => each.Weights)], group => Enter(group, stay).Weights)
            : null;
        LeafStay<T>? leafOfAll = null;
        if (nodes is not null)
        {
            ReadsOff = true;
            LeafDispatch<T>.Begin(nodes.Group);
            leafOfAll = new(nodes.Group, nodes.Book, plan, stay, nodes.Weights, nodes);
            leafOfAll.Pace([nodes.Weights]);
        }

        var runs = new GroupStay<T>[groups.Length];
        for (var g = 0; g < groups.Length; g++)
        {
            Books[g].Enter(plan.Basis);
            Books[g].Look(stay.FromDay, stay.FromDay);
            LeafDispatch<T>.Begin(groups[g]);
            runs[g] = new(groups[g], nodes is null ? Books[g] : null, plan, stay, prepared[g].Weights, prepared[g].Later);
        }

        for (var season = 0; season + 1 < plan.Edges.Length; season++)
        {
            var (from, to) = (plan.Edges[season], plan.Edges[season + 1]);
            var count = 0;
            while (next + count < course.OutputDays.Count && course.OutputDays[next + count] < to)
                count++;
            Season(plan, leafOfAll, runs, from, to, next, count);
            if (nodes is { Failed: true })
                return false;
            next += count;
        }

        if (last && next < course.OutputDays.Count)
            Season(plan, leafOfAll, runs, stay.ToDay, stay.ToDay, next++, 1);
        nodes?.Settle();
        foreach (var run in runs)
            run.Settle();
        return nodes is not { Failed: true };
    }

    private void Season(SeasonPlan plan, LeafStay<T>? leafOfAll, GroupStay<T>[] runs, int from, int to, int next, int count)
    {
        Span<int> days = stackalloc int[count];
        for (var row = 0; row < count; row++)
        {
            days[row] = course.OutputDays[next + row];
            var date = plan.DayOfYear(days[row]);
            if (!bufferOf.TryGetValue(plan.GoesRound ? date : row, out var buffer))
                buffer = bufferOf[plan.GoesRound ? date : row] = new(slots);
            if (buffers.Count <= row)
                buffers.Add(buffer);
            buffers[row] = buffer;
            (buffers[row].Row, buffers[row].Date, buffers[row].SameLeaf, buffers[row].SameGas) = (next + row, date, true, true);
        }

        if (Again(plan, leafOfAll, runs, from, to, CollectionsMarshal.AsSpan(buffers)[..count]))
        {
            for (var row = 0; row < count; row++)
                taker.Repeat(next + row, lastOf[buffers[row].Date]);
            return;
        }

        var (season, after) = (plan.SeasonAt(from), plan.SeasonAt(to));
        leafOfAll?.Through(from, to, after >= 0 ? season : -1, days, buffers, 0);
        if (after >= 0)
            leafOfAll?.Compare(after);
        var place = 0;
        foreach (var run in runs)
        {
            run.Through(from, to, days, buffers, place);
            place += run.Slots;
        }

        for (var row = 0; row < count; row++)
        {
            taker.Take(buffers[row], groups);
            lastOf[buffers[row].Date] = buffers[row].Row;
        }
    }

    /// <summary>True where all groups went through this season as they did the last time.</summary>
    private static bool Again(SeasonPlan plan, LeafStay<T>? leafOfAll, GroupStay<T>[] runs, int from, int to, ReadOnlySpan<RowBuffer> rows)
    {
        if (plan.SeasonAt(from) < 0 || plan.SeasonAt(to) is not (>= 0 and var next) || leafOfAll?.IsAgain(rows) == false)
            return false;
        foreach (var run in runs)
        {
            if (!run.IsAgain(to, rows))
                return false;
        }

        leafOfAll?.Again(next);
        foreach (var run in runs)
            run.Again(next);
        return true;
    }

    /// <summary>Brings what a stay says of its draws into a group.</summary>
    internal static (StayWeights Weights, List<(PathDraws Path, StayWeights Weights)> Later) Enter(DrawGroup group, Stay stay)
    {
        group.Weigh();
        var volume = ((HeadspaceDraws.Rigid)stay.Headspace).Volume;
        for (var slot = 0; slot < group.Slots; slot++)
            group.PerVolume[slot] = (float)(Quantities.PhysicalConstants.GasConstant / volume[group.DrawOf(slot)]);
        group.Fill(stay.HumidityOffset, group.HumidityOffset);
        group.Fill(stay.TemperatureOffset, group.TemperatureOffset);
        group.Fill(stay.Uptake.RespiratoryQuotient, group.Quotient);
        return StayWeights.Of<T>(group, stay);
    }

    private void Begin(DrawGroup group, Stay stay, bool first, StayWeights weights)
    {
        if (stay.Events.Count == 0 && !first)
            return;
        Span<double> day = stackalloc double[TemperatureBasis.Width];
        stay.Place.Basis.Between(stay.FromDay, stay.FromDay + 1, day);
        var (dry, all) = (new float[group.Slots], new float[group.Slots]);
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            weights.Of<T>(StayWeights.Vapour, day[TemperatureBasis.Water..], at).Put(all, at);
            weights.Of<T>(StayWeights.Vapour, day[TemperatureBasis.WaterHumid..], at).Put(dry, at);
        }

        for (var slot = 0; slot < group.Slots; slot++)
        {
            double shifted = all[slot], vapour = dry[slot] + (group.HumidityOffset[slot] * shifted);
            var kelvin = day[TemperatureBasis.Kelvin] + group.TemperatureOffset[slot];
            var draw = group.DrawOf(slot);
            var heat = group.Heat[draw];
            vapour /= Leaf.SorptionShift.FactorOf(heat, kelvin); // the room's own vapour knows no heat of sorption
            var volume = ((HeadspaceDraws.Rigid)stay.Headspace).Volume[draw];
            DrawState state = new(group.Activity[slot], group.Dry[slot], group.Moles[0][slot], group.Moles[1][slot], group.Moles[2][slot]);
            StayEvents.Begin(stay, first, draw, leaf[draw], new(kelvin, day[TemperatureBasis.Pascals], vapour, shifted, volume, volume, heat), ref state);
            (group.Activity[slot], group.Dry[slot]) = (InRange(state.Activity22), state.Dry);
            (group.Moles[0][slot], group.Moles[1][slot], group.Moles[2][slot]) = ((float)state.Oxygen, (float)state.CarbonDioxide, (float)state.Nitrogen);
        }

        group.Weigh();
    }

    private static double InRange(double activity) => activity is > CourseRun<T>.Lowest and < CourseRun<T>.Highest ? activity : double.NaN;

    /// <summary>The weights of a usual draw: the mean of a group.</summary>
    internal static double[] Middle(StayWeights weights)
    {
        const int Parts = 16; // sums apart, the same for all widths of lanes
        var (middle, parts) = (new double[weights.Values.Length / weights.Slots], new float[Parts]);
        for (var row = 0; row < middle.Length; row++)
        {
            Array.Clear(parts);
            for (var at = 0; at < weights.Slots; at += T.Count)
                (T.At(parts, at % Parts) + T.At(weights.Values, (row * weights.Slots) + at)).Put(parts, at % Parts);
            foreach (var part in parts)
                middle[row] += (double)part / weights.Slots;
        }

        return middle;
    }

    /// <summary>The draws, slow ones first: those that step alike come together.</summary>
    private static int[] ByspeedOf(Course course)
    {
        var speed = new double[course.Draws];
        foreach (var stay in course.Stays)
        {
            foreach (var path in stay.Paths)
            {
                for (var draw = 0; draw < speed.Length; draw++)
                    speed[draw] += path.FromDay[draw] < stay.ToDay ? path.Median.Water.AtReference * path.Water[draw] * (stay.ToDay - stay.FromDay) : 0;
            }
        }

        int[] order = [.. Enumerable.Range(0, course.Draws)];
        for (var draw = 0; draw < speed.Length; draw++)
            speed[draw] /= course.DryMass[draw];
        Array.Sort(speed, order);
        return order;
    }
}
