using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>What one step told at the nodes.</summary>
internal sealed class NodeStep<T>(int count)
    where T : struct, ISingleLane<T>
{
    public int Day { get; private set; }

    public int Length { get; private set; }

    public double Change { get; private set; }

    public NodeValues Before { get; } = new(count);

    public NodeValues After { get; } = new(count);

    public NodeValues Clock { get; } = new(count);

    public NodeValues Pull { get; } = new(count);

    public float[] Lowest { get; } = new float[count];

    public float[] Highest { get; } = new float[count];

    /// <summary>Takes it from the group, and widens the range of all steps by its own.</summary>
    public void Take(DrawGroup group, int day, int length, double change, float[] lowest, float[] highest)
    {
        (Day, Length, Change) = (day, length, change);
        for (var at = 0; at < lowest.Length; at += T.Count)
        {
            var (before, after) = (T.At(group.Before, at), T.At(group.Activity, at));
            var (low, high) = (T.Min(before, after), T.Max(before, after));
            low.Put(Lowest, at);
            high.Put(Highest, at);
            T.Min(low, T.At(lowest, at)).Put(lowest, at);
            T.Max(high, T.At(highest, at)).Put(highest, at);
            before.Put(Before.Values, at);
            after.Put(After.Values, at);
            T.At(group.Clock, at).Put(Clock.Values, at);
            T.At(group.Pull, at).Put(Pull.Values, at);
        }

        Before.Anew();
        After.Anew();
        Clock.Anew();
        Pull.Anew();
    }
}

/// <summary>One number at the nodes, and once that is asked for by how far it lies from the one in the middle, so that single precision loses nothing.</summary>
internal sealed class NodeValues(int count)
{
    private readonly float[] apart = new float[count];
    private bool known;
    private double last = double.NaN;

    public float[] Values { get; } = new float[count];

    public float Middle => Values[count / 2];

    public float[] Apart
    {
        get
        {
            for (var node = 0; node < count && !known; node++)
                apart[node] = Values[node] - Middle;
            known = true;
            return apart;
        }
    }

    /// <summary>To be called after <see cref="Values"/> have changed.</summary>
    public void Anew() => (known, last) = (false, double.NaN);

    /// <summary>True where the polynomial through them is off by more than is allowed, or there is none.</summary>
    public bool IsRough(Chebyshev chebyshev, double tolerance)
    {
        if (double.IsNaN(last))
            last = chebyshev.LastOf(Apart);
        return !(last < tolerance);
    }
}
