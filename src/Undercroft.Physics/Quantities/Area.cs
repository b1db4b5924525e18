namespace Undercroft.Physics.Quantities;

/// <summary>An area.</summary>
/// <param name="SquareMetres">Area in m².</param>
/// <remarks>The default value is zero.</remarks>
public readonly record struct Area(double SquareMetres) : IComparable<Area>
{
    /// <summary>In square centimetres.</summary>
    public double SquareCentimetres => SquareMetres * 1e4;

    /// <summary>From square centimetres.</summary>
    public static Area FromSquareCentimetres(double squareCentimetres) => new(squareCentimetres / 1e4);

    /// <summary>In square inches (6.4516 cm², exact).</summary>
    public double SquareInches => SquareMetres / 6.4516e-4;

    /// <summary>From square inches (6.4516 cm², exact).</summary>
    public static Area FromSquareInches(double squareInches) => new(squareInches * 6.4516e-4);

    /// <inheritdoc/>
    public int CompareTo(Area other) => SquareMetres.CompareTo(other.SquareMetres);

    /// <summary>Sum.</summary>
    public static Area operator +(Area left, Area right) => new(left.SquareMetres + right.SquareMetres);

    /// <summary>Difference.</summary>
    public static Area operator -(Area left, Area right) => new(left.SquareMetres - right.SquareMetres);

    /// <summary>Scaled.</summary>
    public static Area operator *(Area left, double factor) => new(left.SquareMetres * factor);

    /// <summary>Smaller than.</summary>
    public static bool operator <(Area left, Area right) => left.SquareMetres < right.SquareMetres;

    /// <summary>Larger than.</summary>
    public static bool operator >(Area left, Area right) => left.SquareMetres > right.SquareMetres;

    /// <summary>Not larger than.</summary>
    public static bool operator <=(Area left, Area right) => left.SquareMetres <= right.SquareMetres;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Area left, Area right) => left.SquareMetres >= right.SquareMetres;
}
