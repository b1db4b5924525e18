using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>The leaf of a group in one stay, season by season, until it repeats itself.</summary>
/// <param name="group">Draws, or the nodes between which draws are read off.</param>
/// <param name="book">Watches the group's limits.</param>
/// <param name="plan">Seasons of the stay.</param>
/// <param name="stay">Which.</param>
/// <param name="weights">Of the group.</param>
/// <param name="nodes">Who reads draws off, or null where the group's are the draws.</param>
internal sealed class LeafStay<T>(DrawGroup group, LimitBook book, SeasonPlan plan, Stay stay, StayWeights weights, LeafNodes<T>? nodes = null)
    where T : struct, ISingleLane<T>
{
    private const double Same = 1e-6; // of activity, a year apart: 3e-5 over thirty years
    private const double Left = 5e-6; // of activity still to go, where that can be told
    private const double Winter = 0.5; // of the year's mean rate, to be sure

    private readonly double[]?[] orbit = new double[SeasonPlan.Seasons][];
    private readonly HashSet<int> told = [];
    private double yearLeft;
    private bool first = true;
    private bool quick; // follows the weather of weeks, which is never that of the year

    /// <summary>Steps in a season.</summary>
    public int Steps { get; private set; }

    /// <summary>True once each year is as the one before.</summary>
    public bool Repeats { get; private set; }

    /// <summary>Fits the steps to how fast the quickest draw follows.</summary>
    public void Pace(StayWeights[] all)
    {
        (Steps, var least, quick) = GroupSpeed.Water<T>(group, plan, stay, all);
        quick &= !plan.IsPeriodic;
        var kept = Math.Exp(-Winter * SeasonPlan.Seasons * least);
        yearLeft = kept < 1 ? kept / (1 - kept) : double.PositiveInfinity;
    }

    /// <summary>Nothing learnt of the years before holds any longer.</summary>
    public void Forget()
    {
        Repeats = false;
        told.Clear();
        Array.Clear(orbit);
    }

    /// <summary>Over one season, or the part of one that the stay has.</summary>
    /// <param name="from">First day.</param>
    /// <param name="to">Last day.</param>
    /// <param name="season">Which, −1 for a part of one.</param>
    /// <param name="rows">Days of the rows, rising.</param>
    /// <param name="buffers">One a row.</param>
    /// <param name="place">Of the group in the buffers.</param>
    public void Through(int from, int to, int season, ReadOnlySpan<int> rows, IReadOnlyList<RowBuffer> buffers, int place)
    {
        var returns = Repeats && season >= 0;
        if (returns)
        {
            orbit[season]!.CopyTo(group.Activity, 0);
            if (rows.Length > 0)
                LeafDispatch<T>.Begin(group);
        }

        var day = from;
        for (var row = 0; row < rows.Length; row++)
        {
            var buffer = buffers[row];
            if (returns && !told.Add(buffer.Date))
                continue;
            if (rows[row] > day)
                Over(plan.Part(day, rows[row], Steps, first ? Short.First : quick ? Short.Last : Short.Nowhere, Felt.ByLeaf), day);
            day = rows[row];
            Tell(day, buffer, place);
        }

        if (returns)
            orbit[(season + 1) % SeasonPlan.Seasons]!.CopyTo(group.Activity, 0);
        else if (to > day)
            Over(day == from && season >= 0 && !first ? plan.Whole(season, Steps, Felt.ByLeaf) : plan.Part(day, to, Steps, first ? Short.First : quick ? Short.Last : Short.Nowhere, Felt.ByLeaf), day);
        nodes?.Watch();
        first = false;
    }

    /// <summary>One step.</summary>
    public void Step(StepTable table, int step, int day)
    {
        var change = table.TrendsOf(step)[StepTable.WaterChange];
        if (LeafDispatch<T>.Advance(group, weights, table.Sums(step), change, Repeats ? null : book))
            book.Follow(day, table.Length(step), change, 0, group.Slots);
        if (!Repeats)
            nodes?.Follow(day, table.Length(step), change);
    }

    /// <summary>One row.</summary>
    public void Tell(int day, RowBuffer row, int place)
    {
        row.SameLeaf = false;
        var sums = plan.DayOf(day, out var ahead);
        if (nodes is not null)
        {
            nodes.Tell(sums, ahead, row);
            return;
        }

        LeafDispatch<T>.Tell(group, weights, sums, ahead, row, place);
        row.Warm<T>(group, place, sums[TemperatureBasis.Kelvin]);
    }

    /// <summary>Holds the leaf at the beginning of a season against what it was a year before.</summary>
    public void Compare(int season)
    {
        if (Repeats)
            return;
        if (orbit[season] is { } before)
        {
            var (same, apart) = (true, Math.Max(Same, Left / yearLeft));
            for (var slot = 0; slot < group.Slots && same; slot++)
                same = !(Math.Abs(group.Activity[slot] - before[slot]) > apart);
            Repeats = same && !(nodes?.AnySpell ?? book.AnySpell);
        }

        orbit[season] ??= new double[group.Slots];
        group.Activity.CopyTo(orbit[season]!, 0);
    }

    /// <summary>True where the leaf goes through a season as it did before, and every row of it is known.</summary>
    public bool IsAgain(ReadOnlySpan<RowBuffer> rows)
    {
        var known = Repeats;
        foreach (var row in rows)
            known = known && told.Contains(row.Date);
        return known;
    }

    /// <summary>Goes through a season as it did before.</summary>
    public void Again(int next) => orbit[next]!.CopyTo(group.Activity, 0);

    private void Over(StepTable table, int day)
    {
        for (var step = 0; step < table.Count; step++)
        {
            Step(table, step, day);
            day += table.Length(step);
        }
    }
}
