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
    where T : struct, ILane<T>
{
    private const double Tolerance = 5e-6;
    private const double Negligible = 1e-8;
    private const double Rounding = 1e-10;
    private const double NarrowestHalf = 0.01;
    private const int DrawsPerNode = 4; // with fewer there is nothing to win
    private const int Beside = 2;
    private const double Margin = 0.25;

    /// <summary>Half widths of ln κ and the nodes that they need.</summary>
    private static readonly (double Half, int Nodes)[] Needed = [(0.7, 8), (1.9, 16), (3.2, 24), (4.5, 32)];

    private readonly DrawGroup[] groups;
    private readonly LimitBook[] books;
    private readonly Chebyshev chebyshev;
    private readonly double[] places;
    private readonly (int From, int To)[] near;
    private readonly double[] scratch;
    private readonly double[] polynomial;
    private readonly RowBuffer row;

    private LeafNodes(DrawGroup[] groups, LimitBook[] books, Chebyshev chebyshev, double[] places, DrawGroup group, StayWeights weights, LimitBook book)
    {
        (this.groups, this.books, this.chebyshev, this.places, Group, Weights, Book) = (groups, books, chebyshev, places, group, weights, book);
        (scratch, polynomial, row) = (new double[chebyshev.Count], new double[chebyshev.Count], new(chebyshev.Count));
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
                own.Row(family)[node] *= factor;
        }

        return new(groups, books, chebyshev, speeds, nodes, own, new(nodes, course with { Limits = [], CountsMouldDays = false }, leaf));
    }

    /// <summary>Tells a row of all draws.</summary>
    /// <param name="day">Integrals of the day.</param>
    /// <param name="ahead">True where the day lies ahead.</param>
    /// <param name="into">Filled.</param>
    public void Tell(double[] day, bool ahead, RowBuffer into)
    {
        LeafDispatch<T>.Tell(Group, Weights, day, ahead, row, 0);
        var degree = Fit(row.Activity, Tolerance);
        Chebyshev.At<T>(polynomial, degree, places, 0, places.Length, into.Activity, 0);
        var vapour = 0.0;
        for (var k = 0; k < TemperatureBasis.Nodes; k++)
            vapour = Math.FusedMultiplyAdd(Weights.Row(StayWeights.Vapour + k)[0], day[TemperatureBasis.Water + k], vapour);
        var place = 0;
        foreach (var group in groups)
        {
            LeafDispatch<T>.Complete(group, vapour, into, place);
            into.Finish(group, place, day[TemperatureBasis.Kelvin]);
            place += group.Slots;
        }
    }

    /// <summary>Watches the limits of the draws over the last step.</summary>
    /// <param name="day">Its first day, cells of the place.</param>
    /// <param name="length">Days.</param>
    /// <param name="change">Of the room's humidity as leaf feels it.</param>
    public void Follow(int day, int length, double change)
    {
        var place = 0;
        for (var g = 0; g < groups.Length; g++)
        {
            for (var from = 0; from < groups[g].Slots; from += LimitBook.Block)
            {
                if (MayPass(books[g], from / LimitBook.Block, (place + from) / LimitBook.Block))
                    Follow(groups[g], books[g], place, from, Math.Min(groups[g].Slots, from + LimitBook.Block), day, length, change);
            }

            place += groups[g].Slots;
        }
    }

    /// <summary>Brings all draws to where the stay leaves them.</summary>
    public void Settle()
    {
        var degree = Fit(Group.Activity, Tolerance);
        var place = 0;
        foreach (var group in groups)
        {
            Chebyshev.At<T>(polynomial, degree, places, place, group.Slots, group.Activity, 0);
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

    /// <summary>False where the nodes about a block stay so far from its limits that no draw between them can have passed one.</summary>
    private bool MayPass(LimitBook book, int block, int blockOfAll)
    {
        var (lowest, highest) = (double.PositiveInfinity, double.NegativeInfinity);
        for (var node = near[blockOfAll].From; node <= near[blockOfAll].To; node++)
        {
            lowest = Math.Min(lowest, Math.Min(Group.Before[node], Group.Activity[node]));
            highest = Math.Max(highest, Math.Max(Group.Before[node], Group.Activity[node]));
        }

        var margin = Margin * (highest - lowest);
        return book.Concerns(block, lowest - margin, highest + margin);
    }

    private void Follow(DrawGroup group, LimitBook book, int place, int from, int end, int day, int length, double change)
    {
        Read(Group.Before, group.Before, Tolerance);
        Read(Group.Activity, group.Activity, Tolerance);
        var passed = false;
        for (var at = from; at < end; at += T.Count)
        {
            var after = T.At(group.Activity, at);
            passed |= !T.AllLess(T.At(book.Below, at), after) || !T.AllLess(T.Max(T.At(group.Before, at), after), T.At(book.Above, at));
        }

        if (!passed)
            return;
        Read(Group.Clock, group.Clock, double.PositiveInfinity);
        Read(Group.Pull, group.Pull, double.PositiveInfinity);
        book.Follow(day, length, change, from, end);

        void Read(double[] nodes, double[] into, double tolerance) => Chebyshev.At<T>(polynomial, Fit(nodes, tolerance), places, place + from, end - from, into, from);
    }

    private int Fit(double[] nodes, double tolerance)
    {
        var degree = chebyshev.Fit<T>(nodes, Negligible, scratch, polynomial, out var last);
        Failed |= !(last < tolerance);
        return degree;
    }
}
