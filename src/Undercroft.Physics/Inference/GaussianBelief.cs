namespace Undercroft.Physics.Inference;

/// <summary>What is believed of several numbers at once: a normal distribution.</summary>
/// <remarks>Immutable by custom: callers do not write into its arrays.</remarks>
public sealed class GaussianBelief
{
    private readonly double[] mean;
    private readonly double[,] covariance;

    /// <summary>Of a mean and a covariance.</summary>
    /// <param name="mean">One a number.</param>
    /// <param name="covariance">Square and symmetric, not negative on the diagonal.</param>
    /// <exception cref="ArgumentOutOfRangeException">Shapes that do not fit, or values that are not finite.</exception>
    public GaussianBelief(double[] mean, double[,] covariance)
    {
        ArgumentNullException.ThrowIfNull(mean);
        ArgumentNullException.ThrowIfNull(covariance);
        if (covariance.GetLength(0) != mean.Length || covariance.GetLength(1) != mean.Length)
            throw new ArgumentOutOfRangeException(nameof(covariance), "The covariance has one row and one column for each number.");
        if (!mean.All(double.IsFinite) || !covariance.Cast<double>().All(double.IsFinite) || Enumerable.Range(0, mean.Length).Any(i => covariance[i, i] < 0))
            throw new ArgumentOutOfRangeException(nameof(covariance), "Means and covariances are finite, variances not negative.");
        (this.mean, this.covariance) = (mean, covariance);
    }

    /// <summary>How many numbers.</summary>
    public int Count => mean.Length;

    /// <summary>The mean of one of them.</summary>
    public double Mean(int index) => mean[index];

    /// <summary>The standard deviation of one of them.</summary>
    public double Sd(int index) => Math.Sqrt(covariance[index, index]);

    /// <summary>The covariance of two of them.</summary>
    public double Covariance(int one, int other) => covariance[one, other];

    /// <summary>Independent numbers.</summary>
    /// <param name="figures">Mean and standard deviation of each.</param>
    public static GaussianBelief Independent(params (double Mean, double Sd)[] figures)
    {
        ArgumentNullException.ThrowIfNull(figures);
        var spread = new double[figures.Length, figures.Length];
        for (var i = 0; i < figures.Length; i++)
            spread[i, i] = figures[i].Sd * figures[i].Sd;
        return new([.. figures.Select(figure => figure.Mean)], spread);
    }

    /// <summary>Mean and standard deviation of a weighted sum of the numbers.</summary>
    public (double Mean, double Sd) Of(ReadOnlySpan<double> weights)
    {
        if (weights.Length != mean.Length)
            throw new ArgumentOutOfRangeException(nameof(weights), weights.Length, "One weight a number.");
        var (sum, variance) = (0.0, 0.0);
        for (var i = 0; i < weights.Length; i++)
        {
            sum += weights[i] * mean[i];
            for (var j = 0; j < weights.Length; j++)
                variance += weights[i] * weights[j] * covariance[i, j];
        }

        return (sum, Math.Sqrt(Math.Max(0, variance)));
    }

    /// <summary>Some of the numbers, in the order given.</summary>
    public GaussianBelief Only(params int[] indices)
    {
        ArgumentNullException.ThrowIfNull(indices);
        var part = new double[indices.Length, indices.Length];
        for (var i = 0; i < indices.Length; i++)
        {
            for (var j = 0; j < indices.Length; j++)
                part[i, j] = covariance[indices[i], indices[j]];
        }

        return new([.. indices.Select(i => mean[i])], part);
    }

    /// <summary>What a linear map makes of them.</summary>
    /// <param name="map">One row for each new number.</param>
    /// <param name="added">Variance that each new number gains of its own; null for none.</param>
    public GaussianBelief Mapped(double[,] map, double[]? added = null)
    {
        ArgumentNullException.ThrowIfNull(map);
        var (rows, columns) = (map.GetLength(0), map.GetLength(1));
        if (columns != mean.Length)
            throw new ArgumentOutOfRangeException(nameof(map), columns, "One column a number.");
        var (middle, spread) = (new double[rows], new double[rows, rows]);
        for (var i = 0; i < rows; i++)
        {
            for (var k = 0; k < columns; k++)
                middle[i] += map[i, k] * mean[k];
            for (var j = 0; j < rows; j++)
            {
                for (var k = 0; k < columns; k++)
                {
                    for (var l = 0; l < columns; l++)
                        spread[i, j] += map[i, k] * covariance[k, l] * map[j, l];
                }
            }

            spread[i, i] += added?[i] ?? 0;
        }

        return new(middle, spread);
    }

    /// <summary>These numbers and others, independent of them.</summary>
    public GaussianBelief With(GaussianBelief other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var spread = new double[Count + other.Count, Count + other.Count];
        for (var i = 0; i < Count; i++)
        {
            for (var j = 0; j < Count; j++)
                spread[i, j] = covariance[i, j];
        }

        for (var i = 0; i < other.Count; i++)
        {
            for (var j = 0; j < other.Count; j++)
                spread[Count + i, Count + j] = other.covariance[i, j];
        }

        return new([.. mean, .. other.mean], spread);
    }

    /// <summary>One normal distribution with the mean and covariance of a mixture.</summary>
    /// <param name="parts">Weights above zero; they need not add up to one.</param>
    public static GaussianBelief Mixed(IReadOnlyList<(double Weight, GaussianBelief Part)> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var total = parts.Sum(part => part.Weight);
        var count = parts[0].Part.Count;
        var (middle, spread) = (new double[count], new double[count, count]);
        foreach (var (weight, part) in parts)
        {
            for (var i = 0; i < count; i++)
                middle[i] += weight / total * part.mean[i];
        }

        foreach (var (weight, part) in parts)
        {
            for (var i = 0; i < count; i++)
            {
                for (var j = 0; j < count; j++)
                    spread[i, j] += weight / total * (part.covariance[i, j] + ((part.mean[i] - middle[i]) * (part.mean[j] - middle[j])));
            }
        }

        return new(middle, spread);
    }
}
