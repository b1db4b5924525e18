namespace Undercroft.Physics.Storage.Courses;

/// <summary>A number of the model over an ensemble: the same for all draws, or one for each.</summary>
public readonly struct PerDraw : IEquatable<PerDraw>
{
    private readonly double same;
    private readonly double[]? each;

    private PerDraw(double same, double[]? each) => (this.same, this.each) = (same, each);

    /// <summary>The same for all draws.</summary>
    public static PerDraw Same(double value) => new(value, null);

    /// <summary>One for each draw; the array is kept, not copied.</summary>
    public static PerDraw Each(double[] values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return new(0, values);
    }

    /// <summary>The value of one draw.</summary>
    public double this[int draw] => each is null ? same : each[draw];

    /// <summary>True where all draws share one value.</summary>
    public bool IsSame => each is null;

    /// <summary>How many draws there are values for; null where all share one.</summary>
    public int? Count => each?.Length;

    /// <summary>Lowest and highest value.</summary>
    public (double Lowest, double Highest) Range => each is null ? (same, same) : (each.Min(), each.Max());

    /// <summary>The middle value.</summary>
    public double Median => each is null ? same : Solving.Quantile.Of(each, 0.5);

    /// <summary>The same for all draws.</summary>
    public static implicit operator PerDraw(double value) => Same(value);

    /// <summary>One for each draw.</summary>
    public static implicit operator PerDraw(double[] values) => Each(values);

    /// <summary>The same for all draws.</summary>
    public static PerDraw FromDouble(double value) => Same(value);

    /// <inheritdoc/>
    public bool Equals(PerDraw other) => same.Equals(other.same) && ReferenceEquals(each, other.each);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => obj is PerDraw other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(same, each);

    /// <summary>Equal where they hold the same number or the very same array.</summary>
    public static bool operator ==(PerDraw left, PerDraw right) => left.Equals(right);

    /// <summary>Not equal.</summary>
    public static bool operator !=(PerDraw left, PerDraw right) => !left.Equals(right);
}
