namespace Undercroft.Physics.Quantities;

/// <summary>A volume.</summary>
/// <param name="CubicMetres">Volume in m³.</param>
/// <remarks>The default value is zero.</remarks>
public readonly record struct Volume(double CubicMetres) : IComparable<Volume>
{
    /// <summary>In millilitres.</summary>
    public double Millilitres => CubicMetres * 1e6;

    /// <summary>From millilitres.</summary>
    public static Volume FromMillilitres(double millilitres) => new(millilitres / 1e6);

    /// <summary>In litres.</summary>
    public double Litres => CubicMetres * 1e3;

    /// <summary>From litres.</summary>
    public static Volume FromLitres(double litres) => new(litres / 1e3);

    /// <summary>In US fluid ounces (29.5735295625 ml, exact).</summary>
    public double FluidOunces => CubicMetres / 29.5735295625e-6;

    /// <summary>From US fluid ounces (29.5735295625 ml, exact).</summary>
    public static Volume FromFluidOunces(double fluidOunces) => new(fluidOunces * 29.5735295625e-6);

    /// <inheritdoc/>
    public int CompareTo(Volume other) => CubicMetres.CompareTo(other.CubicMetres);

    /// <summary>Sum.</summary>
    public static Volume operator +(Volume left, Volume right) => new(left.CubicMetres + right.CubicMetres);

    /// <summary>Difference.</summary>
    public static Volume operator -(Volume left, Volume right) => new(left.CubicMetres - right.CubicMetres);

    /// <summary>Scaled.</summary>
    public static Volume operator *(Volume left, double factor) => new(left.CubicMetres * factor);

    /// <summary>Smaller than.</summary>
    public static bool operator <(Volume left, Volume right) => left.CubicMetres < right.CubicMetres;

    /// <summary>Larger than.</summary>
    public static bool operator >(Volume left, Volume right) => left.CubicMetres > right.CubicMetres;

    /// <summary>Not larger than.</summary>
    public static bool operator <=(Volume left, Volume right) => left.CubicMetres <= right.CubicMetres;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Volume left, Volume right) => left.CubicMetres >= right.CubicMetres;
}
