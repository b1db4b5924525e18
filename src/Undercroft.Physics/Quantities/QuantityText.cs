using System.Text;
using System.Text.RegularExpressions;

namespace Undercroft.Physics.Quantities;

/// <summary>
/// Reads and prints quantities as people write them: <c>50g</c>, <c>2 oz</c>, <c>68 °F</c>, <c>473ml</c>, <c>65%</c>, <c>3.15in</c>.
/// A bare number is refused, since nobody can tell grams from ounces.
/// </summary>
/// <remarks>
/// What is written is turned into SI exactly and rounded once to a double, so printing with up to 17 digits always reads back to the same value.
/// </remarks>
public sealed partial class QuantityText
{
    /// <summary>Masses in kg.</summary>
    public static readonly QuantityText OfMass = new("a mass", 0m,
        ("g", 1e-3m), ("kg", 1m), ("mg", 1e-6m), ("oz", 0.028349523125m), ("lb", 0.45359237m), ("gram", 1e-3m), ("grams", 1e-3m),
        ("ounce", 0.028349523125m), ("ounces", 0.028349523125m), ("pound", 0.45359237m), ("pounds", 0.45359237m), ("lbs", 0.45359237m));

    /// <summary>Volumes in m³.</summary>
    public static readonly QuantityText OfVolume = new("a volume", 0m,
        ("ml", 1e-6m), ("l", 1e-3m), ("cl", 1e-5m), ("floz", 29.5735295625e-6m), ("cm3", 1e-6m), ("cm³", 1e-6m));

    /// <summary>Lengths in m.</summary>
    public static readonly QuantityText OfLength = new("a length", 0m,
        ("mm", 1e-3m), ("cm", 1e-2m), ("m", 1m), ("um", 1e-6m), ("µm", 1e-6m), ("in", 0.0254m), ("ft", 0.3048m), ("inch", 0.0254m), ("inches", 0.0254m), ("nm", 1e-9m));

    /// <summary>Areas in m².</summary>
    public static readonly QuantityText OfArea = new("an area", 0m,
        ("cm2", 1e-4m), ("cm²", 1e-4m), ("m2", 1m), ("m²", 1m), ("in2", 6.4516e-4m), ("in²", 6.4516e-4m), ("mm2", 1e-6m), ("mm²", 1e-6m));

    /// <summary>Pressures in Pa.</summary>
    public static readonly QuantityText OfPressure = new("a pressure", 0m,
        ("Pa", 1m), ("hPa", 100m), ("kPa", 1e3m), ("mbar", 100m), ("bar", 1e5m), ("atm", 101325m), ("inHg", 3386.389m), ("psi", 6894.757293168m));

    /// <summary>Temperatures in K.</summary>
    public static readonly QuantityText OfTemperature = new("a temperature", 273.15m, ("C", 1m), ("°C", 1m), ("F", 1m), ("°F", 1m));

    /// <summary>Fractions from percent.</summary>
    public static readonly QuantityText OfPercent = new("a percentage", 0m, ("%", 1e-2m));

    private const int LongestText = 64;

    private static readonly ExactNumber DegreesFahrenheit = new(5, 9);
    private static readonly ExactNumber FreezingFahrenheit = new(32, 1);

    private readonly string noun;
    private readonly ExactNumber offset;
    private readonly (string Symbol, decimal Factor)[] units;

    private QuantityText(string noun, decimal offset, params (string, decimal)[] units)
    {
        this.noun = noun;
        this.offset = ExactNumber.Of(offset);
        this.units = units;
    }

    /// <summary>The accepted units, in the order in which they are named to people.</summary>
    public IEnumerable<string> Units => units.Select(unit => unit.Symbol);

    /// <summary>The value in SI units, or null with the reason.</summary>
    /// <param name="text">A number, optional space, a unit. Decimal comma and point are both read; a comma that could as well group thousands is refused.</param>
    /// <param name="why">What, why and what to do; empty where the text was read.</param>
    public double? TryRead(string text, out string why)
    {
        ArgumentNullException.ThrowIfNull(text);
        var shown = text.Length > LongestText ? text[..LongestText] + "…" : text;
        var match = text.Length > LongestText ? Match.Empty : Form().Match(Plain(text));
        if (!match.Success)
        {
            why = $"'{shown}' is not {noun}: write a number and a unit, such as {Example}.";
            return null;
        }

        var written = match.Groups["number"].Value;
        var thousands = Thousands().Match(written);
        if (thousands.Success)
        {
            var (before, after) = (thousands.Groups["before"].Value, thousands.Groups["after"].Value);
            why = $"'{shown}' can mean {before}{after} or {before}.{after}: write one of these.";
            return null;
        }

        var unit = match.Groups["unit"].Value.Replace(" ", "", StringComparison.Ordinal).Replace(".", "", StringComparison.Ordinal);
        if (unit.Length == 0)
        {
            why = $"'{shown}' has no unit. Accepted units for {noun}: {string.Join(", ", Units)}.";
            return null;
        }

        var found = units.FirstOrDefault(candidate => candidate.Symbol == unit);
        if (found.Symbol is null)
            found = units.FirstOrDefault(candidate => string.Equals(candidate.Symbol, unit, StringComparison.OrdinalIgnoreCase));
        if (found.Symbol is null)
        {
            why = $"'{match.Groups["unit"].Value.Trim()}' is not a unit of {noun[(noun.IndexOf(' ', StringComparison.Ordinal) + 1)..]}. Accepted units: {string.Join(", ", Units)}.";
            return null;
        }

        var si = ExactNumber.Parse(written.Replace(',', '.')) is { } number ? ToSi(number, found.Symbol, found.Factor).ToDouble() : double.NaN;
        if (!double.IsFinite(si))
        {
            why = $"'{shown}' is beyond any size that occurs: check the number.";
            return null;
        }

        why = "";
        return si;
    }

    /// <summary>The value in SI units.</summary>
    /// <exception cref="FormatException">Not a number with one of the accepted units; the message says what to write.</exception>
    public double Read(string text) => TryRead(text, out var why) ?? throw new FormatException(why);

    /// <summary>Prints an SI value in a unit with the fewest digits that read back to the same value.</summary>
    /// <exception cref="ArgumentException">Not one of <see cref="Units"/>.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public string Print(double si, string symbol)
    {
        if (!double.IsFinite(si))
            throw new ArgumentOutOfRangeException(nameof(si), si, "Only a finite number can be printed.");
        var (known, factor) = units.FirstOrDefault(unit => unit.Symbol == symbol);
        if (known is null)
            throw new ArgumentException($"'{symbol}' is not one of {string.Join(", ", Units)}.", nameof(symbol));
        var value = FromSi(ExactNumber.Of(si), symbol, factor);
        for (var digits = 1; ; digits++)
        {
            var text = value.ToText(digits);
            if (ExactNumber.Parse(text) is { } read && ToSi(read, symbol, factor).ToDouble() == si)
                return text + symbol;
        }
    }

    private string Example => string.Join(" or ", Units.Take(2).Select(unit => "20" + unit));

    private static bool IsFahrenheit(string symbol) => symbol is "F" or "°F";

    private ExactNumber ToSi(ExactNumber number, string symbol, decimal factor) => IsFahrenheit(symbol)
        ? ((number - FreezingFahrenheit) * DegreesFahrenheit) + offset
        : (number * ExactNumber.Of(factor)) + offset;

    private ExactNumber FromSi(ExactNumber si, string symbol, decimal factor) => IsFahrenheit(symbol)
        ? ((si - offset) / DegreesFahrenheit) + FreezingFahrenheit
        : (si - offset) / ExactNumber.Of(factor);

    /// <summary>The same text with one sort of space, minus, degree, micro and percent sign.</summary>
    private static string Plain(string text)
    {
        var plain = new StringBuilder(text.Length + 4);
        foreach (var sign in text)
        {
            _ = sign switch
            {
                '\u2212' or '\u2013' or '\uFE63' or '\uFF0D' => plain.Append('-'), // minus, en dash, small and wide hyphen
                '\u00BA' or '\u02DA' => plain.Append('°'), // ordinal sign, ring above
                '\u2103' => plain.Append("°C"),
                '\u2109' => plain.Append("°F"),
                '\u03BC' => plain.Append('µ'), // Greek mu
                '\uFF05' => plain.Append('%'),
                '\uFEFF' or '\u200B' or '\u200E' or '\u200F' => plain, // marks nobody sees
                _ when char.IsWhiteSpace(sign) => plain.Append(' '),
                _ => plain.Append(sign),
            };
        }

        return plain.ToString().Trim();
    }

    [GeneratedRegex(@"^(?<number>[+-]?([0-9]+([.,][0-9]+)?|[.,][0-9]+)([eE][+-]?[0-9]+)?) *(?<unit>[^0-9., ].*)?$", RegexOptions.CultureInvariant)]
    private static partial Regex Form();

    /// <summary>One to three digits, the first not zero, a comma, three digits: both "1500" and "1.5" can be meant.</summary>
    [GeneratedRegex(@"^(?<before>[+-]?[1-9][0-9]{0,2}),(?<after>[0-9]{3})$", RegexOptions.CultureInvariant)]
    private static partial Regex Thousands();
}
