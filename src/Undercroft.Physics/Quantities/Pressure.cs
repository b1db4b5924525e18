namespace Undercroft.Physics.Quantities;

/// <summary>An absolute pressure, or a difference of two.</summary>
/// <param name="Pascals">Pressure in Pa.</param>
/// <remarks>The default value is zero.</remarks>
public readonly record struct Pressure(double Pascals) : IComparable<Pressure>
{
    /// <summary>In kilopascals.</summary>
    public double Kilopascals => Pascals / 1e3;

    /// <summary>From kilopascals.</summary>
    public static Pressure FromKilopascals(double kilopascals) => new(kilopascals * 1e3);

    /// <summary>In standard atmospheres (101 325 Pa, exact).</summary>
    public double Atmospheres => Pascals / 101325.0;

    /// <summary>From standard atmospheres (101 325 Pa, exact).</summary>
    public static Pressure FromAtmospheres(double atmospheres) => new(atmospheres * 101325.0);

    /// <summary>In inches of mercury at 0 °C (conventional 3386.389 Pa).</summary>
    public double InchesOfMercury => Pascals / 3386.389;

    /// <summary>From inches of mercury at 0 °C (conventional 3386.389 Pa).</summary>
    public static Pressure FromInchesOfMercury(double inchesOfMercury) => new(inchesOfMercury * 3386.389);

    /// <inheritdoc/>
    public int CompareTo(Pressure other) => Pascals.CompareTo(other.Pascals);

    /// <summary>Sum.</summary>
    public static Pressure operator +(Pressure left, Pressure right) => new(left.Pascals + right.Pascals);

    /// <summary>Difference.</summary>
    public static Pressure operator -(Pressure left, Pressure right) => new(left.Pascals - right.Pascals);

    /// <summary>Scaled.</summary>
    public static Pressure operator *(Pressure left, double factor) => new(left.Pascals * factor);

    /// <summary>Smaller than.</summary>
    public static bool operator <(Pressure left, Pressure right) => left.Pascals < right.Pascals;

    /// <summary>Larger than.</summary>
    public static bool operator >(Pressure left, Pressure right) => left.Pascals > right.Pascals;

    /// <summary>Not larger than.</summary>
    public static bool operator <=(Pressure left, Pressure right) => left.Pascals <= right.Pascals;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Pressure left, Pressure right) => left.Pascals >= right.Pascals;
}
