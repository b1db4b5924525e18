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
    private readonly Way activity, before, clock, pull, told;
    private readonly float[] lowest;
    private readonly float[] highest;
    private readonly RowBuffer row;

    private LeafNodes(DrawGroup[] groups, LimitBook[] books, Chebyshev chebyshev, double[] places, DrawGroup group, StayWeights weights, LimitBook book)
    {
        (this.groups, this.books, this.chebyshev, this.places, Group, Weights, Book) = (groups, books, chebyshev, places, group, weights, book);
        this.weights = chebyshev.Weights(places);
        (lowest, highest, row) = (new float[chebyshev.Count], new float[chebyshev.Count], new(chebyshev.Count));
        Way Way(Func<int, double> at) => new(chebyshev.Count, at);
        (activity, before, clock, pull, told) = (Way(node => Group.Activity[node]), Way(node => Group.Before[node]), Way(node => Group.Clock[node]), Way(node => Group.Pull[node]), Way(node => row.Activity[node]));
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
        Read(told.Anew(), 0, places.Length, into.Activity, 0);
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

    /// <summary>Watches the limits of the draws over the last step.</summary>
    /// <param name="day">Its first day, cells of the place.</param>
    /// <param name="length">Days.</param>
    /// <param name="change">Of the room's humidity as leaf feels it.</param>
    public void Follow(int day, int length, double change)
    {
        var (least, most) = (float.PositiveInfinity, float.NegativeInfinity);
        for (var node = 0; node < lowest.Length; node++)
        {
            var (from, to) = (Group.Before[node], (float)Group.Activity[node]);
            (lowest[node], highest[node]) = from < to ? (from, to) : (to, from);
            least = lowest[node] < least ? lowest[node] : least;
            most = highest[node] > most ? highest[node] : most;
        }

        activity.Anew();
        before.Anew();
        clock.Anew();
        pull.Anew();
        var (place, margin) = (0, Margin * (most - least));
        for (var g = 0; g < groups.Length; g++)
        {
            if (!books[g].Concerns(least - margin, most + margin))
            {
                place += groups[g].Slots;
                continue;
            }

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
        var place = 0;
        activity.Anew();
        foreach (var group in groups)
        {
            Read(activity, place, group.Slots, group.Activity, 0);
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
        if (book.IsIdle(block))
            return false;
        var (least, most) = (double.PositiveInfinity, double.NegativeInfinity);
        for (var node = near[blockOfAll].From; node <= near[blockOfAll].To; node++)
            (least, most) = (Math.Min(least, lowest[node]), Math.Max(most, highest[node]));
        var margin = Margin * (most - least);
        return book.Concerns(block, least - margin, most + margin);
    }

    private void Follow(DrawGroup group, LimitBook book, int place, int from, int end, int day, int length, double change)
    {
        Read(activity, place + from, end - from, group.Activity, from);
        Read(before, place + from, end - from, group.Before, from);
        var passed = false;
        for (var at = from; at < end; at += T.Count)
        {
            var after = T.At(group.Activity, at);
            passed |= !T.AllLess(T.At(book.Below, at), after) || !T.AllLess(T.Max(T.At(group.Before, at), after), T.At(book.Above, at));
        }

        if (!passed)
            return;
        Read(clock, place + from, end - from, group.Clock, from);
        Read(pull, place + from, end - from, group.Pull, from);
        book.Follow(day, length, change, from, end);
    }

    private void Read(Way way, int from, int count, float[] into, int at)
    {
        Find(way);
        for (var i = 0; i < count; i += T.Count)
            Chebyshev.At(weights, places.Length, way.Apart, T.Of(way.Middle), from + i).Put(into, at + i);
    }

    private void Read(Way way, int from, int count, double[] into, int at)
    {
        Find(way);
        for (var i = 0; i < count; i += T.Count)
            Chebyshev.At(weights, places.Length, way.Apart, T.Of(way.Middle), from + i).Put(into, at + i);
    }

    private void Find(Way way)
    {
        if (!way.Find())
            return;
        Failed |= way != clock && way != pull && !(chebyshev.LastOf(way.Apart) < Tolerance); // of those two it is their share that counts
    }

    /// <summary>What is known at the nodes, once that was asked for: by how far it lies from one of them, so that single precision loses nothing.</summary>
    private sealed class Way(int count, Func<int, double> at)
    {
        private bool found;

        public double Middle { get; private set; }

        public float[] Apart { get; } = new float[count];

        public Way Anew()
        {
            found = false;
            return this;
        }

        /// <summary>True the first time.</summary>
        public bool Find()
        {
            if (found)
                return false;
            Middle = at(count / 2);
            for (var node = 0; node < count; node++)
                Apart[node] = (float)(at(node) - Middle);
            return found = true;
        }
    }
}
