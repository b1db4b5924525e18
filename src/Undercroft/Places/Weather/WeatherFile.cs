using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;

namespace Undercroft.Places.Weather;

/// <summary>The year outdoors from an EPW weather file, as monthly means.</summary>
/// <param name="Station">As its first line names it.</param>
/// <param name="MonthlyKelvin">Twelve means of the dry bulb.</param>
/// <param name="MonthlyHumidity">Mean vapour pressure over saturation at the mean temperature, fraction; null where the file has too little of it.</param>
/// <param name="DailySwing">Half of highest minus lowest of the mean day, K, mean of the months.</param>
/// <param name="Altitude">Of the station; null where not said.</param>
/// <param name="Rows">Hours understood.</param>
/// <param name="Missing">Hours whose temperature is missing.</param>
/// <remarks>
/// The format is open: eight lines of heading, then one line an hour; column 7 the dry bulb in °C (99.9 missing), 8 the dew point (99.9), 9 the relative humidity in percent (999, up to 110).
/// Source: weather file dictionary of EnergyPlus. A dry bulb of ±70 °C and beyond counts as missing as well.
/// </remarks>
public sealed record WeatherFile(
    string Station, IReadOnlyList<double> MonthlyKelvin, IReadOnlyList<double>? MonthlyHumidity, double DailySwing, Length? Altitude, int Rows, int Missing)
{
    /// <summary>Bytes beyond which it is no year of hours.</summary>
    public const int LargestFile = 16 << 20;

    private const int LeastHours = 200;
    private const int Columns = 9;

    /// <summary>Reads from a file, on the disk or handed in.</summary>
    /// <param name="stream">Its bytes.</param>
    /// <param name="length">How many.</param>
    /// <param name="name">For the refusal.</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <exception cref="Refusal">Too large, not such a file, or months without enough hours.</exception>
    public static async Task<WeatherFile> ReadAsync(Stream stream, long length, string name, CancellationToken cancellation = default)
    {
        if (length > LargestFile)
            throw new Refusal($"{name} is larger than any year of hourly weather: nothing was read.");
        using var reader = new StreamReader(stream);
        return Read(await reader.ReadToEndAsync(cancellation), name);
    }

    /// <summary>Reads.</summary>
    /// <param name="text">The file.</param>
    /// <param name="name">For the refusal.</param>
    /// <exception cref="Refusal">Not such a file, or months without enough hours.</exception>
    public static WeatherFile Read(string text, string name)
    {
        ArgumentNullException.ThrowIfNull(text);
        var lines = text.Split('\n');
        if (!lines[0].TrimStart('\uFEFF').StartsWith("LOCATION,", StringComparison.OrdinalIgnoreCase))
            throw new Refusal($"{name} is not read: an EPW weather file begins with a line LOCATION. Twelve monthly means can be typed instead: --monthly.");
        var place = lines[0].Trim().Split(',');
        var months = Enumerable.Range(0, 12).Select(_ => new Month()).ToArray();
        var (rows, missing) = (0, 0);
        foreach (var line in lines.Skip(1))
        {
            var cells = line.Split(',');
            if (cells.Length < Columns || Whole(cells[0]) is not (> 1800 and < 3000) || Whole(cells[1]) is not { } month || month is < 1 or > 12 || Whole(cells[3]) is not { } hour || hour is < 1 or > 24)
                continue;
            rows++;
            if (Number(cells[6]) is not { } celsius || Math.Abs(celsius) >= 70)
            {
                missing++;
                continue;
            }

            months[month - 1].Add(hour - 1, celsius, VapourOf(celsius, Number(cells[7]), Number(cells[8])));
        }

        if (months.Select((month, index) => (month, index)).FirstOrDefault(pair => pair.month.Count < LeastHours) is { month: not null } thin)
        {
            throw new Refusal(string.Create(CultureInfo.InvariantCulture,
                $"{name} is not read: month {thin.index + 1} has {thin.month.Count} usable hours, fewer than {LeastHours}. A whole year of hours is needed; twelve monthly means can be typed instead: --monthly."));
        }

        return new(
            string.Join(", ", place.Skip(1).Take(3).Select(part => part.Trim()).Where(part => part is not ("" or "-"))), [.. months.Select(month => month.Mean + Temperature.ZeroCelsius)],
            months.All(month => month.HumidCount >= LeastHours) ? [.. months.Select(month => month.Humidity)] : null, months.Average(month => month.Swing),
            place.Length > 9 && Number(place[9]) is { } metres and > -450 and < 9000 ? new Length(metres) : null, rows, missing);
    }

    /// <summary>Vapour pressure of an hour, Pa; NaN where neither humidity nor dew point is there.</summary>
    private static double VapourOf(double celsius, double? dewPoint, double? percent) =>
        percent is >= 0 and <= 110 ? Math.Min(1, percent.Value / 100) * SaturationPressure.PascalOverWater(celsius + Temperature.ZeroCelsius)
        : dewPoint is > -70 and < 70 ? SaturationPressure.PascalOverWater(dewPoint.Value + Temperature.ZeroCelsius)
        : double.NaN;

    private static int? Whole(string cell) => int.TryParse(cell.Trim(), NumberStyles.Integer, CultureInfo.InvariantCulture, out var value) ? value : null;

    private static double? Number(string cell) => double.TryParse(cell.Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;

    private sealed class Month
    {
        private readonly double[] sums = new double[24];
        private readonly int[] counts = new int[24];
        private double vapour;

        public int Count => counts.Sum();

        public int HumidCount { get; private set; }

        public double Mean => Enumerable.Range(0, 24).Where(hour => counts[hour] > 0).Average(hour => sums[hour] / counts[hour]);

        public double Swing
        {
            get
            {
                double[] day = [.. Enumerable.Range(0, 24).Where(hour => counts[hour] > 0).Select(hour => sums[hour] / counts[hour])];
                return (day.Max() - day.Min()) / 2;
            }
        }

        public double Humidity => Math.Min(1, vapour / HumidCount / SaturationPressure.PascalOverWater(Mean + Temperature.ZeroCelsius));

        public void Add(int hour, double celsius, double pascals)
        {
            sums[hour] += celsius;
            counts[hour]++;
            if (double.IsNaN(pascals))
                return;
            vapour += pascals;
            HumidCount++;
        }
    }
}
