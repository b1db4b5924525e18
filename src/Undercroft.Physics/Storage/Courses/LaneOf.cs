using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>Draws side by side; beyond the last draw the last is repeated, and nobody reads it.</summary>
internal static class LaneOf<T>
    where T : struct, ILane<T>
{
    /// <summary>The values of the draws from <paramref name="draw"/> on.</summary>
    public static T Draws(PerDraw values, int draw, int draws)
    {
        if (values.IsSame)
            return T.Of(values[0]);
        Span<double> each = stackalloc double[T.Count];
        for (var i = 0; i < each.Length; i++)
            each[i] = values[Math.Min(draw + i, draws - 1)];
        return T.Load(each);
    }

    /// <summary>The weights of an axis' nodes for the draws from <paramref name="draw"/> on.</summary>
    public static T[] Weights(NodeAxis axis, int draw, int draws)
    {
        var nodes = axis.Nodes.Length;
        Span<double> one = stackalloc double[nodes];
        var each = new double[nodes * T.Count];
        for (var i = 0; i < T.Count; i++)
        {
            axis.Weights(Math.Min(draw + i, draws - 1), one);
            for (var node = 0; node < nodes; node++)
                each[(node * T.Count) + i] = one[node];
        }

        return [.. Enumerable.Range(0, nodes).Select(node => T.Load(each.AsSpan(node * T.Count, T.Count)))];
    }
}
