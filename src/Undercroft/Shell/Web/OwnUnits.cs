using System.Globalization;
using System.Text.RegularExpressions;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Shell.Web;

/// <summary>Computed sentences and charts in the units that a person likes. What was computed stays in SI; only the page's words change.</summary>
/// <remarks>
/// For words that the program made. What a person wrote – names, notes, what stands in a file – and what a source prints are shown as they were written. Milligrams stay: nobody has an everyday unit
/// of a thousandth of an ounce. So does what stands in the name of a container: it is sold so.
/// </remarks>
public static partial class OwnUnits
{
    private static readonly Regex TradeNames = new($"({string.Join('|', ContainerKinds.All.Select(kind => kind.Name).Where(name => name.Any(char.IsDigit)).OrderByDescending(name => name.Length).Select(Regex.Escape))})", RegexOptions.CultureInvariant);

    private const double KilogramsPerOunce = 0.028349523125; // exact by definition of the pound, 0.45359237 kg
    private const double MillilitresPerFluidOunce = 29.5735295625; // US customary, exact by definition of the inch
    private const double MillimetresPerInch = 25.4; // exact by definition
    private const double KilopascalsPerPsi = 6.894757293168; // pound-force to the square inch, by the same definition

    /// <summary>A sentence in °F, ounces, pounds, fluid ounces, quarts, inches and psi.</summary>
    /// <param name="text">Computed, with numbers before <c>°C</c>, <c>K</c>, <c>g</c>, <c>kg</c>, <c>ml</c>, <c>l</c>, <c>mm</c> or <c>kPa</c>, also as ranges.</param>
    public static string Imperial(string text) => TradeNames.IsMatch(text) ? string.Concat(TradeNames.Split(text).Select((part, n) => n % 2 == 0 ? Amount().Replace(part, Turned) : part)) : Amount().Replace(text, Turned);

    /// <summary>An example of what may be typed, such as <c>Such as 412.3g.</c>; one that shows both units stays.</summary>
    public static string ImperialExample(string text) =>
        text.Contains("oz", StringComparison.Ordinal) || text.Contains("lb", StringComparison.Ordinal) || Fahrenheit().IsMatch(text) ? text : Example().Replace(text, Shown);

    /// <summary>A chart in °F, ounces or psi; others stay.</summary>
    public static BandSeries Imperial(BandSeries series)
    {
        ArgumentNullException.ThrowIfNull(series);
        if (series.Unit is not ("°C" or "g" or "kPa"))
            return series;
        double?[] All(IReadOnlyList<double?> values) => [.. values.Select(value => value is { } known ? Turned(known, series.Unit) : (double?)null)];
        return series with
        {
            Unit = Name(series.Unit),
            P5 = All(series.P5),
            P50 = All(series.P50),
            P95 = All(series.P95),
            Measured = [.. series.Measured.Select(point => point with { Value = Turned(point.Value, series.Unit) })],
            Limits = [.. series.Limits.Select(limit => new LimitLine(Turned(limit.Value, series.Unit), Imperial(limit.Name)))],
        };
    }

    /// <summary>An example stands for no measurement: as round as it was.</summary>
    private static string Shown(Match match)
    {
        var (number, unit) = (match.Groups["a"].Value, match.Groups["unit"].Value);
        return unit == "C" ? Said(number, "°C") + "F" : Said(number, unit, number.TrimEnd('0').Count(char.IsDigit)) + Name(unit);
    }

    private static string Turned(Match match)
    {
        var unit = match.Groups["unit"].Value;
        var first = match.Groups["within"].Success && unit == "°C" ? "K" : unit; // "within 1 °C" is a difference
        var second = match.Groups["join"].Value.Contains('±', StringComparison.Ordinal) && unit == "°C" ? "K" : first;
        var words = match.Groups["within"].Value + Said(match.Groups["a"].Value, first);
        if (match.Groups["b"].Success && !(match.Groups["join"].Value is "–" && words == Said(match.Groups["b"].Value, second)))
            words += match.Groups["join"].Value + Said(match.Groups["b"].Value, second);
        words += match.Groups["gap"].Value + Name(unit);
        if (match.Groups["c"].Success)
            words += $" ({Said(match.Groups["c"].Value, first)}{match.Groups["to"].Value}{Said(match.Groups["d"].Value, first)}{match.Groups["end"].Value}";
        return words;
    }

    /// <summary>A number turned, with about as many digits as it had.</summary>
    private static string Said(string number, string unit) => Said(number, unit, number.Count(char.IsDigit));

    private static string Said(string number, string unit, int digits)
    {
        var plain = number.Replace("\u00a0", "", StringComparison.Ordinal).Replace('−', '-');
        var value = Turned(double.Parse(plain, NumberStyles.Float, CultureInfo.InvariantCulture), unit);
        var decimals = plain.Contains('.', StringComparison.Ordinal) ? plain.Length - plain.IndexOf('.', StringComparison.Ordinal) - 1 : 0;
        if (unit is "K")
            decimals = Math.Max(decimals, Math.Abs(value) < 10 ? 1 : 0);
        else if (unit is not "°C")
            decimals = value == 0 ? 0 : Math.Clamp(Math.Max(2, digits) - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 4);
        var text = value.ToString(decimals == 0 ? "0" : "0." + new string('#', decimals), CultureInfo.InvariantCulture);
        if (text == "-0")
            text = "0";
        return number.Contains('−', StringComparison.Ordinal) || !number.Contains('-', StringComparison.Ordinal) ? text.Replace('-', '−') : text;
    }

    private static double Turned(double value, string unit) => unit switch
    {
        "°C" => (value * 1.8) + 32,
        "K" => value * 1.8,
        "g" => value * 1e-3 / KilogramsPerOunce,
        "kg" => value / (16 * KilogramsPerOunce),
        "ml" => value / MillilitresPerFluidOunce,
        "l" => value * 1000 / (32 * MillilitresPerFluidOunce),
        "mm" => value / MillimetresPerInch,
        "kPa" => value / KilopascalsPerPsi,
        _ => throw new InvalidOperationException($"Nobody said what {unit} is turned into."),
    };

    private static string Name(string unit) => unit switch
    {
        "°C" or "K" => "°F",
        "g" => "oz",
        "kg" => "lb",
        "ml" => "fl oz",
        "l" => "qt",
        "mm" => "in",
        "kPa" => "psi",
        _ => throw new InvalidOperationException($"Nobody said what {unit} is turned into."),
    };

    [GeneratedRegex(@"(?<within>within )?(?<![\w/]|\w[.,])(?<a>[-−+]?\d[\d\u00a0]*(?:\.\d+)?)(?:(?<join>–| to | and | or | ± ?|\.\.)(?<b>[-−+]?\d+(?:\.\d+)?))?(?<gap>[ \u00a0]?)(?<unit>°C|K|kg|kPa|g|ml|mm|l)(?![\w/²³·])(?: \((?<c>[-−+]?\d+(?:\.\d+)?)(?<to>–| to )(?<d>[-−+]?\d+(?:\.\d+)?)(?<end>\)))?")]
    private static partial Regex Amount();

    [GeneratedRegex(@"(?<!\w|\w\.)(?<a>\d+(?:\.\d+)?)(?<unit>g|C|ml|mm)(?![\w/])")]
    private static partial Regex Example();

    [GeneratedRegex(@"\d ?°?F\b")]
    private static partial Regex Fahrenheit();
}
