using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>A group of draws in one stay: season by season, until it repeats itself.</summary>
internal sealed class GroupStay<T>
    where T : struct, ILane<T>
{
    private const double Same = 1e-6; // of activity, a year apart: 3e-5 over thirty years
    private const double Left = 5e-6; // of activity still to go, where that can be told
    private const double Still = 1; // Pa from the year that repeats: what is left only shrinks
    private const double Winter = 0.5; // of the year's mean rate, to be sure
    private const double Forgotten = 40; // time constants after which nothing is left of what was before
    private const double UsualKelvin = 295;
    private const int FewestSeasons = 6; // fewer are sooner stepped than joined

    private readonly DrawGroup group;
    private readonly LimitBook book;
    private readonly SeasonPlan plan;
    private readonly StayWeights weights;
    private readonly List<Coming> coming;
    private readonly Stay stay;
    private int waterSteps;
    private int gasSteps;
    private double yearLeft;
    private double leastGas;
    private readonly double[]?[] orbit = new double[SeasonPlan.Seasons][];
    private readonly double[]?[] seasons = new double[SeasonPlan.Seasons][];
    private readonly Dictionary<int, double[]> told = [];
    private readonly Dictionary<int, double[][]> leafRows = [];
    private readonly Dictionary<int, double[][]> gasRows = [];
    private readonly double[][] kept;
    private double[][][]? still;
    private bool isStill;
    private bool repeats;
    private bool joined;
    private bool first = true;

    public GroupStay(DrawGroup group, LimitBook book, SeasonPlan plan, Stay stay, StayWeights weights, List<(PathDraws Path, StayWeights Weights)> later)
    {
        (this.group, this.book, this.plan, this.stay, this.weights) = (group, book, plan, stay, weights);
        coming = [.. later.SelectMany(path => Enumerable.Range(0, group.Slots)
            .Select(slot => new Coming(path.Path.FromDay[group.DrawOf(slot)], slot, path.Weights)))
            .Where(each => each.Day > stay.FromDay && each.Day < stay.ToDay).OrderBy(each => each.Day)];
        kept = [new double[group.Slots], new double[group.Slots], new double[group.Slots]];
        Pace([weights]);
    }

    /// <summary>Slots of the group.</summary>
    public int Slots => group.Slots;

    /// <summary>Over one season, or the part of one that the stay has, telling the rows that fall into it.</summary>
    /// <param name="from">First day.</param>
    /// <param name="to">Last day.</param>
    /// <param name="rows">Days of the rows, rising; in the season, its last day excluded unless the course ends there.</param>
    /// <param name="buffers">One a row.</param>
    /// <param name="place">Of the group in the buffers.</param>
    public void Through(int from, int to, ReadOnlySpan<int> rows, IReadOnlyList<RowBuffer> buffers, int place)
    {
        var season = plan.SeasonAt(from);
        var whole = season >= 0 && plan.SeasonAt(to) >= 0;
        if (coming.Count > 0 && coming[0].Day < to)
        {
            // Nothing learnt of the years before holds any longer.
            repeats = joined = isStill = false;
            still = null;
            told.Clear();
            leafRows.Clear();
            gasRows.Clear();
            Array.Clear(orbit);
            Pace([weights, .. coming.Select(each => each.Weights).Distinct()]);
            Together(from, to, rows, buffers, place);
            Pace([weights]);
        }
        else
        {
            Water(from, to, whole ? season : -1, rows, buffers, place);
            if (group.WithGas)
                Gas(from, to, whole ? season : -1, rows, buffers, place);
        }

        if (plan.SeasonAt(to) is >= 0 and var next)
            Compare(next);
        first = false;
    }

    /// <summary>True where leaf and gas go through a season as they did before, and every row of it is known.</summary>
    public bool IsAgain(int from, int to, ReadOnlySpan<int> rows)
    {
        if (!repeats || (group.WithGas && !isStill) || plan.SeasonAt(from) < 0 || plan.SeasonAt(to) < 0 || (coming.Count > 0 && coming[0].Day < to))
            return false;
        foreach (var row in rows)
        {
            if (!(group.WithGas ? gasRows : leafRows).ContainsKey(plan.DayOfYear(row)))
                return false;
        }

        return true;
    }

    /// <summary>Goes through such a season.</summary>
    public void Again(int from)
    {
        var next = (plan.SeasonAt(from) + 1) % SeasonPlan.Seasons;
        orbit[next]!.CopyTo(group.Activity, 0);
        if (group.WithGas)
            Keep(still![next], group.Moles);
    }

    private void Pace(StayWeights[] all)
    {
        (waterSteps, gasSteps, var leastWater, leastGas) = GroupSpeed.Steps<T>(group, plan, stay, all);
        var kept = Math.Exp(-Winter * SeasonPlan.Seasons * leastWater);
        yearLeft = kept < 1 ? kept / (1 - kept) : double.PositiveInfinity;
    }

    private void Compare(int season)
    {
        if (joined && !isStill)
            CompareGas(season);
        if (repeats)
            return;
        if (orbit[season] is { } before)
        {
            var (same, apart) = (true, Math.Max(Same, Left / yearLeft));
            for (var slot = 0; slot < group.Slots && same; slot++)
                same = !(Math.Abs(group.Activity[slot] - before[slot]) > apart);
            repeats = same && !book.AnySpell;
        }

        orbit[season] ??= new double[group.Slots];
        group.Activity.CopyTo(orbit[season]!, 0);
    }

    /// <summary>Gas that has come to the year that repeats stays with it.</summary>
    private void CompareGas(int season)
    {
        still ??= GasSteps<T>.Orbit(seasons!, group);
        for (var gas = 0; gas < still[season].Length; gas++)
        {
            for (var slot = 0; slot < group.Slots; slot++)
            {
                if (!(Math.Abs(group.Moles[gas][slot] - still[season][gas][slot]) * group.PerVolume[slot] * UsualKelvin < Still))
                    return;
            }
        }

        isStill = true;
        Keep(still[season], group.Moles);
    }

    /// <summary>Step by step, with paths that come on their day.</summary>
    private void Together(int from, int to, ReadOnlySpan<int> rows, IReadOnlyList<RowBuffer> buffers, int place)
    {
        var day = from;
        for (var row = 0; row <= rows.Length; row++)
        {
            var stop = row < rows.Length ? rows[row] : to;
            if (stop > day)
            {
                var table = plan.Part(day, stop, Math.Max(waterSteps, gasSteps), first);
                for (var step = 0; step < table.Count; step++)
                {
                    Come(day, day + table.Length(step));
                    WaterStep(table, step, day);
                    if (group.WithGas)
                        GasSteps<T>.Advance(group, weights, table.Sums(step), table.TrendsOf(step), table.Length(step));
                    day += table.Length(step);
                }
            }

            if (row < rows.Length)
            {
                TellWater(rows[row], buffers[row], place);
                if (group.WithGas)
                    TellGas(rows[row], buffers[row], place);
            }
        }
    }

    private void Come(int from, int to)
    {
        while (coming.Count > 0 && coming[0].Day <= from)
        {
            weights.Add(coming[0].Weights, coming[0].Slot, 1 - coming[0].Share);
            coming.RemoveAt(0);
        }

        for (var i = 0; i < coming.Count && coming[i].Day < to; i++)
        {
            var share = (to - coming[i].Day) / (to - from);
            weights.Add(coming[i].Weights, coming[i].Slot, share - coming[i].Share);
            coming[i] = coming[i] with { Share = share };
        }
    }

    private void Water(int from, int to, int season, ReadOnlySpan<int> rows, IReadOnlyList<RowBuffer> buffers, int place)
    {
        var returns = repeats && season >= 0;
        if (returns)
        {
            orbit[season]!.CopyTo(group.Activity, 0);
            if (rows.Length > 0)
                LeafDispatch<T>.Begin(group);
        }

        var day = from;
        for (var row = 0; row < rows.Length; row++)
        {
            if (rows[row] > day)
                WaterSteps(plan.Part(day, rows[row], waterSteps, first), day);
            day = rows[row];
            if (!returns)
                TellWater(day, buffers[row], place);
            else if (leafRows.TryGetValue(buffers[row].Date, out var known))
                buffers[row].PutLeaf(known, place);
            else
            {
                TellWater(day, buffers[row], place);
                leafRows[buffers[row].Date] = buffers[row].Leaf(place, group.Slots);
            }
        }

        if (returns)
            orbit[(season + 1) % SeasonPlan.Seasons]!.CopyTo(group.Activity, 0);
        else if (to > day)
            WaterSteps(day == from && season >= 0 && !first ? plan.Whole(season, waterSteps) : plan.Part(day, to, waterSteps, first), day);
    }

    private void WaterSteps(StepTable table, int day)
    {
        for (var step = 0; step < table.Count; step++)
        {
            WaterStep(table, step, day);
            day += table.Length(step);
        }
    }

    private void WaterStep(StepTable table, int step, int day)
    {
        var change = table.TrendsOf(step)[StepTable.WaterChange];
        if (LeafDispatch<T>.Advance(group, weights, table.Sums(step), change, repeats ? null : book))
            book.Follow(day, table.Length(step), change);
    }

    private void Gas(int from, int to, int season, ReadOnlySpan<int> rows, IReadOnlyList<RowBuffer> buffers, int place)
    {
        if (season >= 0 && !joined && !first && to + ((FewestSeasons - 1) * (to - from)) <= (coming.Count > 0 ? coming[0].Day : stay.ToDay))
            JoinSeasons();
        var returns = joined && season >= 0;
        if (returns && isStill && repeats)
        {
            AgainGas(from, season, rows, buffers, place);
            return;
        }

        if (returns && rows.Length > 0 && rows[^1] > from)
            Keep(group.Moles, kept);
        var day = from;
        for (var row = 0; row < rows.Length; row++)
        {
            if (rows[row] > day)
                StepGas(plan.Part(day, rows[row], gasSteps, first));
            day = rows[row];
            TellGas(day, buffers[row], place);
        }

        if (returns)
        {
            if (day > from)
                Keep(kept, group.Moles);
            GasSteps<T>.Apply(seasons[season]!, group);
        }
        else if (to > day)
        {
            StepGas(day == from && season >= 0 && !first ? plan.Whole(season, gasSteps) : plan.Part(day, to, gasSteps, first));
        }
    }

    /// <summary>A season of leaf and gas that repeat; each of its rows is worked out once.</summary>
    private void AgainGas(int from, int season, ReadOnlySpan<int> rows, IReadOnlyList<RowBuffer> buffers, int place)
    {
        for (var row = 0; row < rows.Length; row++)
        {
            if (gasRows.TryGetValue(buffers[row].Date, out var known))
            {
                buffers[row].PutGas(known, place);
                continue;
            }

            Keep(still![season], group.Moles);
            if (rows[row] > from)
                StepGas(plan.Part(from, rows[row], gasSteps, first: false));
            TellGas(rows[row], buffers[row], place);
            gasRows[buffers[row].Date] = buffers[row].Gas(place, group.Slots);
        }

        Keep(still![(season + 1) % SeasonPlan.Seasons], group.Moles);
    }

    private void StepGas(StepTable table)
    {
        for (var step = Leading(table); step < table.Count; step++)
            GasSteps<T>.Advance(group, weights, table.Sums(step), table.TrendsOf(step), table.Length(step));
    }

    /// <summary>Steps at the beginning of a table of which quick gas remembers nothing at its end.</summary>
    private int Leading(StepTable table)
    {
        var (step, passed) = (table.Count, 0.0);
        while (step > 0 && passed < Forgotten)
            passed += Winter * leastGas * table.Length(--step) / GroupSpeed.SeasonDays;
        return step;
    }

    private void JoinSeasons()
    {
        for (var season = 0; season < SeasonPlan.Seasons; season++)
        {
            var table = plan.Whole(season, gasSteps);
            var maps = seasons[season] = GasSteps<T>.NoMaps(group);
            for (var step = Leading(table); step < table.Count; step++)
                GasSteps<T>.Join(group, weights, table.Sums(step), table.TrendsOf(step), table.Length(step), maps);
        }

        joined = true;
    }

    private void TellWater(int day, RowBuffer row, int place)
    {
        row.SameLeaf = false;
        var sums = DayOf(day, out var ahead);
        LeafDispatch<T>.Tell(group, weights, sums, ahead, row, place);
        row.Finish(group, place, sums[TemperatureBasis.Kelvin]);
    }

    private void TellGas(int day, RowBuffer row, int place)
    {
        if (!joined)
        {
            var maps = new double[GasMap<T>.Width * group.Slots];
            var sums = DayOf(day, out var ahead);
            GasSteps<T>.Pressures(group, weights, sums, ahead, maps);
            GasSteps<T>.Tell(maps, group, row, place);
            return;
        }

        var key = plan.DayOfYear(day);
        if (!told.TryGetValue(key, out var known))
        {
            known = told[key] = new double[GasMap<T>.Width * group.Slots];
            GasSteps<T>.Pressures(group, weights, DayOf(day, out _), ahead: true, known);
        }

        GasSteps<T>.Tell(known, group, row, place);
    }

    /// <summary>The integrals of the day that begins, or of the day before where the table ends.</summary>
    private double[] DayOf(int day, out bool ahead)
    {
        ahead = plan.IsPeriodic || plan.Basis.Reaches(day + 1);
        return plan.Day(ahead ? day : day - 1);
    }

    private static void Keep(double[][] from, double[][] to)
    {
        for (var gas = 0; gas < from.Length; gas++)
            from[gas].CopyTo(to[gas], 0);
    }

    /// <summary>A path that is there from a day on, in one slot, and the share of it that is counted already.</summary>
    private readonly record struct Coming(double Day, int Slot, StayWeights Weights, double Share = 0);
}
