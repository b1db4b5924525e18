using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>A group of draws in one stay: leaf and gas go their ways apart, but for seasons in which a path comes.</summary>
internal sealed class GroupStay<T>
    where T : struct, ISingleLane<T>
{
    private readonly DrawGroup group;
    private readonly SeasonPlan plan;
    private readonly StayWeights weights;
    private readonly List<Coming> coming;
    private readonly Stay stay;
    private readonly LeafStay<T>? leaf;
    private readonly GasStay<T>? gas;
    private bool first = true;

    /// <summary>Begins a stay.</summary>
    /// <param name="group">Which draws.</param>
    /// <param name="book">Watches their limits; null where their leaf is read off between nodes and followed elsewhere.</param>
    /// <param name="plan">Seasons of the stay.</param>
    /// <param name="stay">Which.</param>
    /// <param name="weights">Of the paths that are there.</param>
    /// <param name="later">Paths that come.</param>
    public GroupStay(DrawGroup group, LimitBook? book, SeasonPlan plan, Stay stay, StayWeights weights, List<(PathDraws Path, StayWeights Weights)> later)
    {
        (this.group, this.plan, this.stay, this.weights) = (group, plan, stay, weights);
        coming = [.. later.SelectMany(path => Enumerable.Range(0, group.Slots)
            .Select(slot => new Coming(path.Path.FromDay[group.DrawOf(slot)], slot, path.Weights)))
            .Where(each => each.Day > stay.FromDay && each.Day < stay.ToDay).OrderBy(each => each.Day)];
        leaf = book is null ? null : new(group, book, plan, stay, weights);
        gas = group.WithGas ? new(group, plan, stay, weights) : null;
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
        var (season, next) = (plan.SeasonAt(from), plan.SeasonAt(to));
        if (Comes(to))
        {
            leaf!.Forget();
            gas?.Forget();
            Pace([weights, .. coming.Select(each => each.Weights).Distinct()]);
            Together(from, to, rows, buffers, place);
            Pace([weights]);
        }
        else
        {
            var whole = next >= 0 ? season : -1;
            leaf?.Through(from, to, whole, rows, buffers, place);
            gas?.Through(from, to, whole, rows, buffers, place, coming.Count > 0 ? coming[0].Day : stay.ToDay);
        }

        if (next >= 0)
        {
            leaf?.Compare(next);
            gas?.Compare(next);
        }

        first = false;
    }

    /// <summary>True where leaf and gas go through a season as they did before, and every row of it is known.</summary>
    public bool IsAgain(int to, ReadOnlySpan<RowBuffer> rows) => leaf?.IsAgain(rows) != false && gas?.IsAgain(rows) != false && !Comes(to);

    /// <summary>Goes through such a season.</summary>
    /// <param name="next">The season after it.</param>
    public void Again(int next)
    {
        leaf?.Again(next);
        gas?.Again(next);
    }

    /// <summary>Brings the draws to where the stay leaves them.</summary>
    public void Settle() => gas?.Settle();

    private bool Comes(int to) => coming.Count > 0 && coming[0].Day < to;

    private void Pace(StayWeights[] all)
    {
        leaf?.Pace(all);
        gas?.Pace(all);
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
                var table = plan.Part(day, stop, Math.Max(leaf!.Steps, gas?.Steps ?? 0), first ? Short.First : Short.Nowhere, Felt.ByBoth);
                for (var step = 0; step < table.Count; step++)
                {
                    Come(day, day + table.Length(step));
                    leaf.Step(table, step, day);
                    gas?.Step(table, step);
                    day += table.Length(step);
                }
            }

            if (row < rows.Length)
            {
                leaf!.Tell(rows[row], buffers[row], place);
                gas?.Tell(rows[row], buffers[row], place);
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
}

/// <summary>A path that is there from a day on, in one slot, and the share of it that is counted already.</summary>
/// <remarks>A class outside the lanes, for which the base library's lists and queries stand ready.</remarks>
internal sealed record Coming(double Day, int Slot, StayWeights Weights, double Share = 0);
