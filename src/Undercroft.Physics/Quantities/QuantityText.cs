using System.Globalization;
using System.Text.RegularExpressions;

namespace Undercroft.Physics.Quantities;

/// <summary>
/// Reads and prints quantities as people write them: <c>50g</c>, <c>2 oz</c>, <c>68 °F</c>, <c>473ml</c>, <c>65%</c>, <c>3.15in</c>.
/// A bare number is refused, since nobody can tell grams from ounces.
/// </summary>
public sealed partial class QuantityText
{
    /// <summary>Masses in kg.</summary>
    public static readonly QuantityText OfMass = new("a mass", 0,
        ("g", 1e-3), ("kg", 1), ("mg", 1e-6), ("oz", 0.028349523125), ("lb", 0.45359237), ("gram", 1e-3), ("grams", 1e-3), ("ounce", 0.028349523125), ("ounces", 0.028349523125), ("pound", 0.45359237), ("pounds", 0.45359237), ("lbs", 0.45359237));

    /// <summary>Volumes in m³.</summary>
    public static readonly QuantityText OfVolume = new("a volume", 0,
        ("ml", 1e-6), ("l", 1e-3), ("cl", 1e-5), ("floz", 29.5735295625e-6), ("cm3", 1e-6), ("cm³", 1e-6));

    /// <summary>Lengths in m.</summary>
    public static readonly QuantityText OfLength = new("a length", 0,
        ("mm", 1e-3), ("cm", 1e-2), ("m", 1), ("um", 1e-6), ("µm", 1e-6), ("in", 0.0254), ("ft", 0.3048));

    /// <summary>Areas in m².</summary>
    public static readonly QuantityText OfArea = new("an area", 0, ("cm2", 1e-4), ("cm²", 1e-4), ("m2", 1), ("m²", 1), ("in2", 6.4516e-4), ("in²", 6.4516e-4));

    /// <summary>Pressures in Pa.</summary>
    public static readonly QuantityText OfPressure = new("a pressure", 0,
        ("Pa", 1), ("hPa", 100), ("kPa", 1e3), ("mbar", 100), ("bar", 1e5), ("atm", 101325), ("inHg", 3386.389), ("psi", 6894.757293168));

    /// <summary>Temperatures in K.</summary>
    public static readonly QuantityText OfTemperature = new("a temperature", Temperature.ZeroCelsius, ("C", 1), ("°C", 1), ("F", 1 / 1.8), ("°F", 1 / 1.8));

    /// <summary>Fractions from percent.</summary>
    public static readonly QuantityText OfPercent = new("a percentage", 0, ("%", 1e-2));

    private readonly string noun;
    private readonly double offset;
    private readonly (string Symbol, double Factor)[] units;

    private QuantityText(string noun, double offset, params (string, double)[] units)
    {
        this.noun = noun;
        this.offset = offset;
        this.units = units;
    }

    /// <summary>The accepted units, in the order in which they are named to people.</summary>
    public IEnumerable<string> Units => units.Select(unit => unit.Symbol);

    /// <summary>The value in SI units, or null with the reason.</summary>
    /// <param name="text">A number, optional space, a unit. Decimal comma and point are both read.</param>
    /// <param name="why">What, why and what to do; empty where the text was read.</param>
    public double? TryRead(string text, out string why)
    {
        var match = Form().Match(text.Trim());
        if (!match.Success)
        {
            why = $"'{text}' is not {noun}: write a number and a unit, such as {Example}.";
            return null;
        }

        var unit = match.Groups["unit"].Value.Replace(" ", "", StringComparison.Ordinal).TrimEnd('.');
        if (unit.Length == 0)
        {
            why = $"'{text}' has no unit. Accepted units for {noun}: {string.Join(", ", Units)}.";
            return null;
        }

        var found = units.FirstOrDefault(candidate => candidate.Symbol == unit);
        if (found.Symbol is null)
            found = units.FirstOrDefault(candidate => string.Equals(candidate.Symbol, unit, StringComparison.OrdinalIgnoreCase));
        if (found.Symbol is null)
        {
            why = $"'{unit}' is not a unit of {noun[(noun.IndexOf(' ', StringComparison.Ordinal) + 1)..]}. Accepted units: {string.Join(", ", Units)}.";
            return null;
        }

        var number = double.Parse(match.Groups["number"].Value.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture);
        if (!double.IsFinite(number))
        {
            why = $"'{text}' is too large a number.";
            return null;
        }

        why = "";
        return ToSi(number, found.Symbol, found.Factor);
    }

    /// <summary>The value in SI units.</summary>
    /// <exception cref="FormatException">Not a number with one of the accepted units; the message says what to write.</exception>
    public double Read(string text) => TryRead(text, out var why) ?? throw new FormatException(why);

    /// <summary>Prints an SI value in a unit with the fewest digits that read back to the same value.</summary>
    public string Print(double si, string symbol)
    {
        var factor = units.First(unit => unit.Symbol == symbol).Factor;
        return FromSi(si, symbol, factor).ToString("R", CultureInfo.InvariantCulture) + symbol;
    }

    private string Example => string.Join(" or ", Units.Take(2).Select(unit => "20" + unit));

    private double ToSi(double number, string symbol, double factor) =>
        symbol.EndsWith('F') && offset != 0 ? Temperature.FromFahrenheit(number).Kelvin : (number * factor) + offset;

    private double FromSi(double si, string symbol, double factor) =>
        symbol.EndsWith('F') && offset != 0 ? new Temperature(si).Fahrenheit : (si - offset) / factor;

    [GeneratedRegex(@"^(?<number>[+-]?(\d+([.,]\d+)?|[.,]\d+)([eE][+-]?\d+)?)\s*(?<unit>\D.*)?$", RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
