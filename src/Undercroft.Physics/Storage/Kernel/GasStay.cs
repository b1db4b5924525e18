using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>The gas of a group in one stay: stepped where years differ, by the maps of whole seasons where they do not.</summary>
internal sealed class GasStay<T>
    where T : struct, ISingleLane<T>
{
    private const double Still = 1; // Pa from the year that repeats: what is left only shrinks
    private const double Winter = 0.5; // of the year's mean rate, to be sure
    private const double Forgotten = 17; // time constants after which single precision keeps nothing of what was before
    private const double UsualKelvin = 295;
    private const int FewestSeasons = 6; // fewer are sooner stepped than joined

    private readonly DrawGroup group;
    private readonly SeasonPlan plan;
    private readonly Stay stay;
    private readonly StayWeights weights;
    private readonly float[]?[] seasons = new float[SeasonPlan.Seasons][];
    private readonly Dictionary<int, float[]> maps = [];
    private readonly HashSet<int> told = [];
    private double least;
    private float[][][]? orbit;
    private bool joined;
    private bool quick; // follows the weather of days, which is never that of the year
    private bool repeats; // each year is as the one before
    private bool first = true;
    private int standsAt = -1; // a season of the year that repeats, to which the amounts have not been brought yet

    public GasStay(DrawGroup group, SeasonPlan plan, Stay stay, StayWeights weights) => (this.group, this.plan, this.stay, this.weights) = (group, plan, stay, weights);

    /// <summary>Steps in a season.</summary>
    public int Steps { get; private set; }

    /// <summary>Fits the steps to how fast the quickest gas follows.</summary>
    public void Pace(StayWeights[] all)
    {
        (Steps, least, quick) = GroupSpeed.Gas<T>(group, plan, stay, all);
        quick &= !plan.IsPeriodic;
        if (quick)
            Steps = 1; // and those before a row
    }

    /// <summary>Nothing learnt of the years before holds any longer.</summary>
    public void Forget()
    {
        Settle();
        joined = repeats = false;
        orbit = null;
        maps.Clear();
        told.Clear();
    }

    /// <summary>Over one season, or the part of one that the stay has.</summary>
    /// <param name="from">First day.</param>
    /// <param name="to">Last day.</param>
    /// <param name="season">Which, −1 for a part of one.</param>
    /// <param name="rows">Days of the rows, rising.</param>
    /// <param name="buffers">One a row.</param>
    /// <param name="place">Of the group in the buffers.</param>
    /// <param name="until">The day until which nothing happens.</param>
    public void Through(int from, int to, int season, ReadOnlySpan<int> rows, IReadOnlyList<RowBuffer> buffers, int place, double until)
    {
        if (season >= 0 && !joined && to + ((FewestSeasons - 1) * (to - from)) <= until)
            Join();
        if (joined && season >= 0)
        {
            for (var row = 0; row < rows.Length; row++)
                Tell(from, rows[row], buffers[row], place);
            if (repeats)
                Again((season + 1) % SeasonPlan.Seasons);
            else
                GasSteps<T>.Apply(seasons[season]!, group);
        }
        else
        {
            Settle();
            var (day, where) = (from, quick ? Short.Last : first ? Short.First : Short.Nowhere);
            for (var row = 0; row < rows.Length; row++)
            {
                if (rows[row] > day)
                    Over(plan.Part(day, rows[row], Steps, where, Felt.ByGas));
                day = rows[row];
                Tell(day, buffers[row], place);
            }

            if (to > day)
                Over(day == from && season >= 0 && !first ? plan.Whole(season, Steps, Felt.ByGas) : plan.Part(day, to, Steps, where, Felt.ByGas));
        }

        first = false;
    }

    /// <summary>One step.</summary>
    public void Step(StepTable table, int step) => GasSteps<T>.Advance(group, weights, table, step);

    /// <summary>One row of gas as it is.</summary>
    public void Tell(int day, RowBuffer row, int place)
    {
        row.SameGas = false;
        var integrals = plan.DayOf(day, out var ahead);
        GasSteps<T>.Tell(GasSteps<T>.Pressures(group, weights, integrals, ahead, before: null), group, row, place);
    }

    /// <summary>Gas that has come to the year that repeats stays with it.</summary>
    public void Compare(int season)
    {
        if (!joined || repeats)
            return;
        orbit ??= GasSteps<T>.Orbit(seasons, group);
        if (!GasSteps<T>.IsNear(group, orbit[season], Still / UsualKelvin))
            return;
        repeats = true;
        Again(season);
    }

    /// <summary>True where the gas goes through a season as it did before, and every row of it is known.</summary>
    public bool IsAgain(ReadOnlySpan<RowBuffer> rows)
    {
        var known = repeats;
        foreach (var row in rows)
            known = known && told.Contains(row.Date);
        return known;
    }

    /// <summary>Goes through a season as it did before; the amounts follow where they are asked for.</summary>
    public void Again(int next) => standsAt = next;

    /// <summary>Brings the amounts to where they stand.</summary>
    public void Settle()
    {
        for (var gas = 0; gas < group.Moles.Length && standsAt >= 0; gas++)
            orbit![standsAt][gas].CopyTo(group.Moles[gas], 0);
        standsAt = -1;
    }

    /// <summary>One row of gas that stands at the beginning of a season.</summary>
    private void Tell(int from, int day, RowBuffer row, int place)
    {
        if (repeats && !told.Add(row.Date))
        {
            row.AddUp<T>(place, group.Slots);
            return;
        }

        row.SameGas = false;
        if (!maps.TryGetValue(row.Date, out var map))
        {
            var before = day > from ? Join(plan.Part(from, day, Steps, Short.Nowhere, Felt.ByGas)) : null;
            map = maps[row.Date] = GasSteps<T>.Pressures(group, weights, plan.DayOf(day, out _), ahead: true, before);
        }

        Settle();
        GasSteps<T>.Tell(map, group, row, place);
    }

    private void Over(StepTable table)
    {
        for (var step = Leading(table); step < table.Count; step++)
            Step(table, step);
    }

    private void Join()
    {
        for (var season = 0; season < SeasonPlan.Seasons; season++)
            seasons[season] = Join(plan.Whole(season, Steps, Felt.ByGas));

        joined = true;
    }

    private float[] Join(StepTable table) => GasSteps<T>.Join(group, weights, table, Leading(table));

    /// <summary>Steps at the beginning of a table of which quick gas remembers nothing at its end.</summary>
    private int Leading(StepTable table)
    {
        var (step, passed) = (table.Count, 0.0);
        while (step > 0 && passed < Forgotten)
            passed += Winter * least * table.Length(--step) / GroupSpeed.SeasonDays;
        return step;
    }
}
