using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>The leaf of draws that differ by how fast they follow the room and by nothing else: a few nodes are stepped, and the draws are read off between them.</summary>
/// <remarks>
/// <para><b>Equation</b> a22(t; κ) ≈ Σ c_k(t) T_k(x), κ = G/(m c) with G the water's conductance, m the dry mass and c the scale of the isotherm, and x = (ln κ − middle)/half
/// over the draws; nodes at Chebyshev's points. Limits are watched by the same reading of what the step told at the nodes.</para>
/// <para><b>Source</b> elementary; that eight to sixteen nodes do is measured.</para>
/// <para><b>Valid</b> what <see cref="SharedWeather"/> holds for, one start, one curve up to its scale, closures that pass something.</para>
/// <para><b>Error</b> about the last coefficients; where they pass 5e-6 of activity, the course is run draw by draw instead.</para>
/// </remarks>
internal sealed class LeafNodes<T>
    where T : struct, ISingleLane<T>
{
    private const double Tolerance = 5e-6;
    private const double Rounding = 1e-10;
    private const double NarrowestHalf = 0.01;
    private const int DrawsPerNode = 4; // with fewer there is nothing to win
    private const int Beside = 2;
    private const double Margin = 0.25;

    /// <summary>Half widths of ln κ and the nodes that they need.</summary>
    private static readonly (double Half, int Nodes)[] Needed = [(1.9, 16), (4.5, 32)];

    private readonly DrawGroup[] groups;
    private readonly LimitBook[] books;
    private readonly Chebyshev chebyshev;
    private readonly double[] places;
    private readonly float[] weights;
    private readonly (int From, int To)[] near;
    private readonly List<NodeStep<T>> passed = [];
    private readonly NodeValues told;
    private readonly float[] lowest;
    private readonly float[] highest;
    private readonly RowBuffer row;
    private int steps;

    private LeafNodes(DrawGroup[] groups, LimitBook[] books, Chebyshev chebyshev, double[] places, DrawGroup group, StayWeights weights, LimitBook book)
    {
        (this.groups, this.books, this.chebyshev, this.places, Group, Weights, Book) = (groups, books, chebyshev, places, group, weights, book);
        this.weights = chebyshev.Weights<T>(places);
        (lowest, highest, row) = (new float[chebyshev.Count], new float[chebyshev.Count], new(chebyshev.Count));
        told = new(chebyshev.Count);
        Array.Fill(lowest, float.PositiveInfinity);
        Array.Fill(highest, float.NegativeInfinity);
        near = [.. Enumerable.Range(0, (places.Length + LimitBook.Block - 1) / LimitBook.Block).Select(Near)];
    }

    /// <summary>The nodes.</summary>
    public DrawGroup Group { get; }

    /// <summary>Theirs.</summary>
    public StayWeights Weights { get; }

    /// <summary>Watches nothing; the draws' own books do.</summary>
    public LimitBook Book { get; }

    /// <summary>Slots that are read off.</summary>
    public int Slots => places.Length;

    /// <summary>True where the nodes were too few, or one left the range of its isotherm.</summary>
    public bool Failed { get; private set; }

    /// <summary>True while any draw is above the activity of mould.</summary>
    public bool AnySpell => books.Any(book => book.AnySpell);

    /// <summary>True for a course whose first stay may be run so: then many draws go into one group.</summary>
    public static bool Suits(Course course, CourseLeaf leaf, PerDraw heat) =>
        course.Draws >= DrawsPerNode * Needed[0].Nodes && leaf.IsOneShape && SharedWeather.IsAlike(course.Stays[0], heat)
        && ((course.StartMoisture.IsSame && course.Leaf.Count == 1)
            || Enumerable.Range(0, course.Draws).All(draw => IsSame(course.StartMoisture[draw] / leaf.ScaleOf(draw), course.StartMoisture[0] / leaf.ScaleOf(0))));

    /// <summary>For a stay as it begins; null where draws differ by more, or are too few.</summary>
    public static LeafNodes<T>? Of(Course course, Stay stay, CourseLeaf leaf, DrawGroup[] groups, LimitBook[] books, StayWeights[] weights, Func<DrawGroup, StayWeights> enter)
    {
        var start = groups[0].Activity[0];
        if (!leaf.IsOneShape || groups.Any(group => group.Activity.Any(activity => !IsSame(activity, start))))
            return null;
        double[] speeds = [.. groups.SelectMany((group, g) => Enumerable.Range(0, group.Slots).Select(slot => LogSpeed(leaf, group, weights[g], slot)))];
        var (lowest, highest) = (speeds.Min(), speeds.Max());
        var half = Math.Max((highest - lowest) / 2, NarrowestHalf);
        var count = Needed.FirstOrDefault(each => each.Half >= half).Nodes;
        if (count == 0 || DrawsPerNode * count > course.Draws)
            return null;
        var chebyshev = Chebyshev.Of(count);
        var middle = (lowest + highest) / 2;
        for (var slot = 0; slot < speeds.Length; slot++)
            speeds[slot] = (speeds[slot] - middle) / half;
        var usual = groups[0].Draws[0];
        DrawGroup nodes = new([.. Enumerable.Repeat(usual, count)], course.DryMass, groups[0].Heat, leaf, withGas: false);
        Array.Fill(nodes.Dry, groups[0].Dry[0]);
        var own = enter(nodes);
        own.IsShared = true;
        for (var node = 0; node < count; node++)
        {
            nodes.Activity[node] = start;
            var factor = Math.Exp(half * (chebyshev.Points[node] - speeds[0]));
            for (var family = StayWeights.Clock; family < StayWeights.Vapour; family++)
                own.Row(family)[node] *= (float)factor;
        }

        return new(groups, books, chebyshev, speeds, nodes, own, new(nodes, course with { Limits = [], CountsMouldDays = false }, leaf));
    }

    /// <summary>Tells a row of all draws.</summary>
    /// <param name="day">Integrals of the day.</param>
    /// <param name="ahead">True where the day lies ahead.</param>
    /// <param name="into">Filled.</param>
    public void Tell(float[] day, bool ahead, RowBuffer into)
    {
        LeafDispatch<T>.Tell(Group, Weights, day, ahead, row, 0);
        row.Activity.CopyTo(told.Values, 0);
        told.Anew();
        Read(told, 0, places.Length, into.Activity, 0);
        var vapour = 0f;
        for (var k = 0; k < TemperatureBasis.Nodes; k++)
            vapour = MathF.FusedMultiplyAdd(Weights.Row(StayWeights.Vapour + k)[0], day[TemperatureBasis.Water + k], vapour);
        var place = 0;
        foreach (var group in groups)
        {
            LeafDispatch<T>.Complete(group, vapour, into, place);
            into.Warm<T>(group, place, day[TemperatureBasis.Kelvin]);
            place += group.Slots;
        }
    }

    /// <summary>Keeps what the last step told, for <see cref="Watch"/>.</summary>
    /// <param name="day">Its first day, cells of the place.</param>
    /// <param name="length">Days.</param>
    /// <param name="change">Of the room's humidity as leaf feels it.</param>
    public void Follow(int day, int length, double change)
    {
        if (passed.Count <= steps)
            passed.Add(new(chebyshev.Count));
        passed[steps++].Take(Group, day, length, change, lowest, highest);
    }

    /// <summary>Watches the limits of the draws over the steps that were kept: those that none of them can concern are seen to in one.</summary>
    public void Watch()
    {
        var (least, most) = (lowest.Min(), highest.Max());
        var (place, margin) = (0, Margin * (most - least));
        for (var g = 0; g < groups.Length; g++)
        {
            for (var from = 0; from < groups[g].Slots && steps > 0 && books[g].Concerns(least - margin, most + margin); from += LimitBook.Block)
            {
                var (book, about) = (books[g], near[(place + from) / LimitBook.Block]);
                for (var step = 0; step < steps && MayPass(book, from / LimitBook.Block, lowest, highest, about); step++)
                {
                    if (MayPass(book, from / LimitBook.Block, passed[step].Lowest, passed[step].Highest, about))
                        Follow(groups[g], book, place, from, Math.Min(groups[g].Slots, from + LimitBook.Block), passed[step]);
                }
            }

            place += groups[g].Slots;
        }

        steps = 0;
        Array.Fill(lowest, float.PositiveInfinity);
        Array.Fill(highest, float.NegativeInfinity);
    }

    /// <summary>Brings all draws to where the stay leaves them.</summary>
    public void Settle()
    {
        var place = 0;
        for (var at = 0; at < chebyshev.Count; at += T.Count)
            T.At(Group.Activity, at).Put(told.Values, at);
        told.Anew();
        foreach (var group in groups)
        {
            Read(told, place, group.Slots, group.Activity, 0);
            place += group.Slots;
        }
    }

    private static bool IsSame(double one, double other) => Math.Abs(one - other) < Rounding * other;

    private static double LogSpeed(CourseLeaf leaf, DrawGroup group, StayWeights weights, int slot) =>
        Math.Log(weights.Row(StayWeights.Clock + SharedWeather.Pivot)[slot] / (group.Dry[slot] * leaf.ScaleOf(group.DrawOf(slot))));

    /// <summary>The nodes about a block of draws.</summary>
    private (int From, int To) Near(int block)
    {
        var part = places.AsSpan(block * LimitBook.Block, Math.Min(LimitBook.Block, places.Length - (block * LimitBook.Block)));
        var (lowest, highest) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var place in part)
            (lowest, highest) = (Math.Min(lowest, place), Math.Max(highest, place));
        var (from, to) = (0, chebyshev.Count - 1);
        while (from < to && chebyshev.Points[from] < lowest)
            from++;
        while (to > from && chebyshev.Points[to] > highest)
            to--;
        return (Math.Max(0, from - Beside), Math.Min(chebyshev.Count - 1, to + Beside));
    }

    /// <summary>False where the nodes about a block stay so far from its limits that no draw between them can pass one.</summary>
    private static bool MayPass(LimitBook book, int block, float[] lowest, float[] highest, (int From, int To) about)
    {
        if (book.IsIdle(block))
            return false;
        var (least, most) = (float.PositiveInfinity, float.NegativeInfinity);
        for (var node = about.From; node <= about.To; node++)
            (least, most) = (lowest[node] < least ? lowest[node] : least, highest[node] > most ? highest[node] : most);
        var margin = Margin * (most - least);
        return book.Concerns(block, least - margin, most + margin);
    }

    private void Follow(DrawGroup group, LimitBook book, int place, int from, int end, NodeStep<T> step)
    {
        Read(step.After, place + from, end - from, group.Activity, from);
        Read(step.Before, place + from, end - from, group.Before, from, mustConverge: false); // which the step before told after it
        var passes = false;
        for (var at = from; at < end; at += T.Count)
        {
            var after = T.At(group.Activity, at);
            passes |= !T.AllLess(T.At(book.Below, at), after) || !T.AllLess(T.Max(T.At(group.Before, at), after), T.At(book.Above, at));
        }

        if (!passes)
            return;
        Read(step.Clock, place + from, end - from, group.Clock, from, mustConverge: false); // of these two it is their share that counts
        Read(step.Pull, place + from, end - from, group.Pull, from, mustConverge: false);
        book.Follow(step.Day, step.Length, step.Change, from, end);
    }

    private void Read(NodeValues values, int from, int count, float[] into, int at, bool mustConverge = true)
    {
        Failed |= mustConverge && values.IsRough(chebyshev, Tolerance);
        for (var i = 0; i < count; i += T.Count)
            Chebyshev.At(weights, places.Length, values.Apart, T.Of(values.Middle), from + i).Put(into, at + i);
    }

    private void Read(NodeValues values, int from, int count, double[] into, int at)
    {
        Failed |= values.IsRough(chebyshev, Tolerance);
        for (var i = 0; i < count; i += T.Count)
            Chebyshev.At(weights, places.Length, values.Apart, T.Of(values.Middle), from + i).Put(into, at + i);
    }
}
