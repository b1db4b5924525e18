namespace Undercroft.Physics.Quantities;

/// <summary>A thermodynamic temperature.</summary>
/// <param name="Kelvin">Temperature in K.</param>
/// <remarks>The default value is absolute zero, which no formula here accepts: a forgotten temperature fails loudly.</remarks>
public readonly record struct Temperature(double Kelvin) : IComparable<Temperature>
{
    /// <summary>0 °C in kelvin, exact by definition.</summary>
    public const double ZeroCelsius = 273.15;

    /// <summary>Temperature in °C.</summary>
    public double Celsius => Kelvin - ZeroCelsius;

    /// <summary>Temperature in °F.</summary>
    public double Fahrenheit => (Celsius * 1.8) + 32;

    /// <summary>From degrees Celsius.</summary>
    public static Temperature FromCelsius(double celsius) => new(celsius + ZeroCelsius);

    /// <summary>From degrees Fahrenheit.</summary>
    public static Temperature FromFahrenheit(double fahrenheit) => FromCelsius((fahrenheit - 32) / 1.8);

    /// <inheritdoc/>
    public int CompareTo(Temperature other) => Kelvin.CompareTo(other.Kelvin);

    /// <summary>Colder than.</summary>
    public static bool operator <(Temperature left, Temperature right) => left.Kelvin < right.Kelvin;

    /// <summary>Warmer than.</summary>
    public static bool operator >(Temperature left, Temperature right) => left.Kelvin > right.Kelvin;

    /// <summary>Not warmer than.</summary>
    public static bool operator <=(Temperature left, Temperature right) => left.Kelvin <= right.Kelvin;

    /// <summary>Not colder than.</summary>
    public static bool operator >=(Temperature left, Temperature right) => left.Kelvin >= right.Kelvin;
}
