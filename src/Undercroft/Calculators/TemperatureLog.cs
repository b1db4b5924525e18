using System.Globalization;
using System.Text;
using Undercroft.Ledger;

namespace Undercroft.Calculators;

/// <summary>One reading of a temperature logger.</summary>
/// <param name="At">Instant where the file states an offset, else the logger's own clock.</param>
/// <param name="Celsius">In °C.</param>
internal readonly record struct LoggedTemperature(DateTime At, double Celsius);

/// <summary>A logger's file: separated text with a time and a temperature in each row, whatever stands above and beside them.</summary>
/// <param name="Readings">By time; readings of one time are averaged.</param>
/// <param name="Skipped">Rows with a time but without a believable temperature.</param>
/// <param name="Column">Heading of the temperature column, or its number.</param>
internal sealed record TemperatureLog(IReadOnlyList<LoggedTemperature> Readings, int Skipped, string Column)
{
    /// <summary>Bytes beyond which nobody's logger writes.</summary>
    public const int LargestFile = 64 << 20;

    private const double Coldest = -90;
    private const double Warmest = 90;
    private static readonly char[] Separators = ['\t', ';', ','];
    private static readonly string[] OtherKinds = ["hum", "rh", "%", "lux", "light", "uv", "dew", "pressure", "hpa", "batt", "volt", "co2"];

    /// <summary>Reads a file.</summary>
    /// <param name="bytes">Its content.</param>
    /// <param name="name">For the refusal.</param>
    /// <param name="fahrenheit">True or false where the person said so, else null.</param>
    /// <exception cref="Refusal">No column of times with temperatures beside it, or a unit or order of day and month that cannot be told.</exception>
    public static TemperatureLog Read(byte[] bytes, string name, bool? fahrenheit)
    {
        var lines = Decoded(bytes).Split('\n').Select(line => line.TrimEnd('\r')).ToArray();
        foreach (var separator in Separators)
        {
            var rows = lines.Select(line => Fields(line, separator)).ToArray();
            if (TimeColumn.In(rows) is { } time)
                return Build(rows, time, separator == ';', name, fahrenheit);
        }

        throw new Refusal($"{name} is not read: no column of dates and times with numbers beside it was found. Export the log as text with one reading a row, time and temperature.");
    }

    private static TemperatureLog Build(string[][] rows, TimeColumn time, bool decimalComma, string name, bool? fahrenheit)
    {
        var stamped = rows.Select((row, index) => (Row: row, Index: index, At: time.Of(row))).Where(row => row.At is not null).ToList();
        var headings = rows.Take(stamped[0].Index).Where(row => row.Length > 1).Reverse().Take(3).Reverse().ToList();
        var column = TemperatureColumn(stamped.Select(row => row.Row).ToList(), headings, time, decimalComma)
            ?? throw new Refusal($"{name} is not read: no column of temperatures stands beside the times. A log of humidity or light alone cannot be used here.");
        var heading = string.Join(' ', headings.Select(row => column < row.Length ? row[column] : "").Where(text => text.Length > 0));
        var values = stamped.Select(row => (At: row.At!.Value, Value: column < row.Row.Length ? Number(row.Row[column], decimalComma) : null)).ToList();
        var inFahrenheit = fahrenheit ?? UnitOf(heading, values.Where(value => value.Value is not null).Select(value => value.Value!.Value).ToList(), name);
        var believable = values
            .Select(value => (value.At, Celsius: inFahrenheit ? (value.Value - 32) / 1.8 : value.Value))
            .Where(value => value.Celsius is >= Coldest and <= Warmest)
            .GroupBy(value => value.At)
            .Select(group => new LoggedTemperature(group.Key, group.Average(value => value.Celsius!.Value)))
            .OrderBy(reading => reading.At)
            .ToList();
        var usable = values.Count(value => (inFahrenheit ? (value.Value - 32) / 1.8 : value.Value) is >= Coldest and <= Warmest);
        return new(believable, values.Count - usable, heading.Length > 0 ? heading : $"column {(column + 1).ToString(CultureInfo.InvariantCulture)}");
    }

    /// <summary>The column headed as a temperature, else the first column of numbers right of the time.</summary>
    private static int? TemperatureColumn(List<string[]> rows, List<string[]> headings, TimeColumn time, bool decimalComma)
    {
        var width = rows.Max(row => row.Length);
        var numeric = Enumerable.Range(0, width)
            .Where(column => !time.Uses(column) && 2 * rows.Count(row => column < row.Length && Number(row[column], decimalComma) is not null) > rows.Count)
            .ToList();
        string Heading(int column) => string.Join(' ', headings.Select(row => column < row.Length ? row[column] : "")).ToLowerInvariant();
        var named = numeric.Where(column => Heading(column) is var heading && !heading.Contains("dew", StringComparison.Ordinal)
            && (heading.Contains("temp", StringComparison.Ordinal) || heading.Contains('°') || heading.Contains("(c)", StringComparison.Ordinal)
                || heading.Contains("(f)", StringComparison.Ordinal) || heading.Contains("celsius", StringComparison.Ordinal) || heading.Contains("fahrenheit", StringComparison.Ordinal))).ToList();
        if (named.Count > 0)
            return named[0];
        var unnamed = numeric.Where(column => column > time.Date && !OfOtherKind(Heading(column))).ToList();
        return unnamed.Count > 0 ? unnamed[0] : null;
    }

    private static bool OfOtherKind(string heading) =>
        OtherKinds.Any(word => heading.Contains(word, StringComparison.Ordinal));

    private static bool UnitOf(string heading, List<double> values, string name)
    {
        var plain = heading.ToLowerInvariant();
        if (plain.Contains("°f", StringComparison.Ordinal) || plain.Contains("(f)", StringComparison.Ordinal) || plain.Contains("fahrenheit", StringComparison.Ordinal))
            return true;
        if (plain.Contains("°c", StringComparison.Ordinal) || plain.Contains("(c)", StringComparison.Ordinal) || plain.Contains("celsius", StringComparison.Ordinal))
            return false;
        if (values.Count == 0 || values.Min() < 32 || values.Max() > 120)
            return false;
        var median = values.Order().ElementAt(values.Count / 2);
        return median > 45 ? true : throw new Refusal($"{name} is not read: its temperatures, {values.Min().As("0.#")} to {values.Max().As("0.#")} without a unit, can be °C or °F. Say --unit C or --unit F.");
    }

    private static double? Number(string text, bool decimalComma)
    {
        var plain = text.TrimEnd('°', 'C', 'F', 'c', 'f', ' ').Replace('−', '-');
        if (decimalComma)
            plain = plain.Replace(',', '.');
        return double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? number : null;
    }

    private static string[] Fields(string line, char separator)
    {
        if (!line.Contains('"'))
            return [.. line.Split(separator).Select(field => field.Trim())];
        var fields = new List<string>();
        var field = new StringBuilder();
        var quoted = false;
        foreach (var sign in line)
        {
            if (sign == '"')
            {
                quoted = !quoted;
            }
            else if (sign == separator && !quoted)
            {
                fields.Add(field.ToString().Trim());
                field.Clear();
            }
            else
            {
                field.Append(sign);
            }
        }

        fields.Add(field.ToString().Trim());
        return [.. fields];
    }

    private static string Decoded(byte[] bytes) => bytes switch
    {
        [0xFF, 0xFE, ..] => Encoding.Unicode.GetString(bytes, 2, bytes.Length - 2),
        [0xFE, 0xFF, ..] => Encoding.BigEndianUnicode.GetString(bytes, 2, bytes.Length - 2),
        [0xEF, 0xBB, 0xBF, ..] => Encoding.UTF8.GetString(bytes, 3, bytes.Length - 3),
        _ => StrictOrLatin(bytes),
    };

    private static string StrictOrLatin(byte[] bytes)
    {
        try
        {
            return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            return Encoding.Latin1.GetString(bytes);
        }
    }
}
