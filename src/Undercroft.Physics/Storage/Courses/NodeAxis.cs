namespace Undercroft.Physics.Storage.Courses;

/// <summary>
/// A drawn number on which shared tables depend smoothly: tables are made at a few nodes across its range and mixed for each draw by
/// Lagrange's weights.
/// </summary>
internal sealed class NodeAxis
{
    private readonly PerDraw values;
    private readonly Func<double, double> scale;

    private NodeAxis(PerDraw values, int most, Func<double, double> scale, Func<double, double> back)
    {
        (this.values, this.scale) = (values, scale);
        var (low, high) = values.Range;
        var (from, to) = (scale(low), scale(high));
        if (!(to - from > 1e-12 * Math.Max(1, Math.Abs(from))))
        {
            Nodes = [low];
            Scaled = [from];
            return;
        }

        Scaled = [.. Enumerable.Range(0, most).Select(i => ((from + to) / 2) - ((to - from) / 2 * Math.Cos(Math.PI * (i + 0.5) / most)))];
        Nodes = [.. Scaled.Select(back)];
    }

    /// <summary>Where tables are made.</summary>
    public double[] Nodes { get; }

    private double[] Scaled { get; }

    /// <summary>An axis as it is.</summary>
    public static NodeAxis Of(PerDraw values, int most) => new(values, most, value => value, value => value);

    /// <summary>An axis in its logarithm.</summary>
    public static NodeAxis OfLog(PerDraw values, int most) => new(values, most, Math.Log, Math.Exp);

    /// <summary>The weights of one draw.</summary>
    public void Weights(int draw, Span<double> weights)
    {
        if (Nodes.Length == 1)
        {
            weights[0] = 1;
            return;
        }

        var x = scale(values[draw]);
        for (var i = 0; i < Scaled.Length; i++)
        {
            weights[i] = 1;
            for (var j = 0; j < Scaled.Length; j++)
            {
                if (j != i)
                    weights[i] *= (x - Scaled[j]) / (Scaled[i] - Scaled[j]);
            }
        }
    }
}
