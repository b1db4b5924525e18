namespace Undercroft.Physics.Quantities;

/// <summary>A mass.</summary>
/// <param name="Kilograms">Mass in kg.</param>
/// <remarks>The default value is zero.</remarks>
public readonly record struct Mass(double Kilograms) : IComparable<Mass>
{
    /// <summary>In grams.</summary>
    public double Grams => Kilograms * 1e3;

    /// <summary>From grams.</summary>
    public static Mass FromGrams(double grams) => new(grams / 1e3);

    /// <summary>In avoirdupois ounces (28.349523125 g, exact).</summary>
    public double Ounces => Kilograms / 0.028349523125;

    /// <summary>From avoirdupois ounces (28.349523125 g, exact).</summary>
    public static Mass FromOunces(double ounces) => new(ounces * 0.028349523125);

    /// <summary>In avoirdupois pounds (453.59237 g, exact).</summary>
    public double Pounds => Kilograms / 0.45359237;

    /// <summary>From avoirdupois pounds (453.59237 g, exact).</summary>
    public static Mass FromPounds(double pounds) => new(pounds * 0.45359237);

    /// <inheritdoc/>
    public int CompareTo(Mass other) => Kilograms.CompareTo(other.Kilograms);

    /// <summary>Sum.</summary>
    public static Mass operator +(Mass left, Mass right) => new(left.Kilograms + right.Kilograms);

    /// <summary>Difference.</summary>
    public static Mass operator -(Mass left, Mass right) => new(left.Kilograms - right.Kilograms);

    /// <summary>Scaled.</summary>
    public static Mass operator *(Mass left, double factor) => new(left.Kilograms * factor);

    /// <summary>Smaller than.</summary>
    public static bool operator <(Mass left, Mass right) => left.Kilograms < right.Kilograms;

    /// <summary>Larger than.</summary>
    public static bool operator >(Mass left, Mass right) => left.Kilograms > right.Kilograms;

    /// <summary>Not larger than.</summary>
    public static bool operator <=(Mass left, Mass right) => left.Kilograms <= right.Kilograms;

    /// <summary>Not smaller than.</summary>
    public static bool operator >=(Mass left, Mass right) => left.Kilograms >= right.Kilograms;
}
