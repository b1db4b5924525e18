namespace Undercroft.Physics.Quantities;

/// <summary>A length.</summary>
/// <param name="Metres">Length in m.</param>
/// <remarks>The default value is zero.</remarks>
public readonly record struct Length(double Metres) : IComparable<Length>
{
    /// <summary>In millimetres.</summary>
    public double Millimetres => Metres * 1e3;

    /// <summary>From millimetres.</summary>
    public static Length FromMillimetres(double millimetres) => new(millimetres / 1e3);

    /// <summary>In micrometres.</summary>
    public double Micrometres => Metres * 1e6;

    /// <summary>From micrometres.</summary>
    public static Length FromMicrometres(double micrometres) => new(micrometres / 1e6);

    /// <summary>In inches (25.4 mm, exact).</summary>
    public double Inches => Metres / 0.0254;

    /// <summary>From inches (25.4 mm, exact).</summary>
    public static Length FromInches(double inches) => new(inches * 0.0254);

    /// <inheritdoc/>
    public int CompareTo(Length other) => Metres.CompareTo(other.Metres);

    /// <summary>Sum.</summary>
    public static Length operator +(Length left, Length right) => new(left.Metres + right.Metres);

    /// <summary>Difference.</summary>
    public static Length operator -(Length left, Length right) => new(left.Metres - right.Metres);

    /// <summary>Scaled.</summary>
    public static Length operator *(Length left, double factor) => new(left.Metres * factor);

    /// <summary>Smaller than.</summary>
    public static bool operator <(Length left, Length right) => left.Metres < right.Metres;

    /// <summary>Larger than.</summary>
    public static bool operator >(Length left, Length right) => left.Metres > right.Metres;

    /// <summary>Not larger than.</summary>
    public static bool operator <=(Length left, Length right) => left.Metres <= right.Metres;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Length left, Length right) => left.Metres >= right.Metres;
}
