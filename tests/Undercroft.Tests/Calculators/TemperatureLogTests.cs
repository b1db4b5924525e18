using System.Globalization;
using System.Text;
using Undercroft.Calculators;
using Undercroft.Ledger;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Calculators;

/// <summary>Logs in the shapes that loggers write, all made up here.</summary>
public sealed class TemperatureLogTests
{
    private static readonly double[] Day = [18, 19.5, 22, 24.5, 23, 20];

    public static TheoryData<string, string> Shapes => new()
    {
        { "comma, ISO", "time,temp (°C),rh\n" + Rows(i => $"2025-07-0{1 + (i / 4)} {i % 4 * 6:00}:00,{Number(i)},55") },
        { "semicolon, decimal comma, crlf", ("Datum;Temperatur °C;Feuchte %\n" + Rows(i => $"{1 + (i / 4):00}.07.2025 {i % 4 * 6:00}:00:00;{Number(i).Replace('.', ',')};55,5")).Replace("\n", "\r\n", StringComparison.Ordinal) },
        { "tab, month first, half days", "Serial: 4711\nLogger on the shelf\n\n#\tDate\tCelsius\n" + Rows(i => $"{i}\t7/{1 + (i / 4)}/2025 {(i % 4 * 6 + 11) % 12 + 1}:00:00 {(i % 4 * 6 < 12 ? "AM" : "PM")}\t{Number(i)}") },
        { "date and time apart, fahrenheit", "\"Date\",\"Time\",\"Temp (F)\"\n" + Rows(i => $"\"2025/07/0{1 + (i / 4)}\",\"{i % 4 * 6:00}:00\",\"{(Day[i] * 1.8 + 32).ToString(CultureInfo.InvariantCulture)}\"") },
        { "humidity first, reversed", "Zeit,Humidity %RH,Temperature C\n" + string.Concat(Rows(i => $"2025-07-0{1 + (i / 4)}T{i % 4 * 6:00}:00:00Z,60,{Number(i)}").Split('\n', StringSplitOptions.RemoveEmptyEntries).Reverse().Select(row => row + "\n")) },
        { "no heading", Rows(i => $"2025-07-0{1 + (i / 4)} {i % 4 * 6:00}:00,{Number(i)},55") },
        { "missing values", "time,temp C\n2025-06-30 18:00,--\n" + Rows(i => $"2025-07-0{1 + (i / 4)} {i % 4 * 6:00}:00,{Number(i)}") + "2025-07-02 12:00,999.9\n" },
    };

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Reads_the_shapes_of_loggers(string shape, string text)
    {
        foreach (var bytes in (byte[][])[Encoding.UTF8.GetBytes(text), [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(text)], [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(text)], Encoding.Latin1.GetBytes(text)])
        {
            var log = TemperatureLog.Read(bytes, shape, null);
            Assert.Equal(Day, log.Readings.Select(reading => Math.Round(reading.Celsius, 9)));
            Assert.All(log.Readings.Zip(log.Readings.Skip(1)), pair => Assert.Equal(6, (pair.Second.At - pair.First.At).TotalHours));
        }
    }

    [Fact]
    public void Integrates_by_trapezoids()
    {
        var readings = TemperatureLog.Read(Encoding.UTF8.GetBytes(Shape("comma, ISO")), "log", null).Readings;
        var (figures, gaps) = MeanKinetic.Of(readings);
        var weights = new[] { 0.5, 1, 1, 1, 1, 0.5 };
        Assert.Equal(0, gaps);
        Assert.Equal(Day.Zip(weights, (celsius, weight) => celsius * weight).Sum() / 5, figures.MeanC, 1e-9);
        Assert.Equal(MeanKineticTemperature.Of(Day.Zip(weights, (celsius, weight) => (Temperature.FromCelsius(celsius), weight))).Celsius, figures.MeanKineticTemperatureC, 1e-9);
    }

    /// <summary>A hot stretch that nobody recorded is not bridged: with it the mean would be drawn to the two ends of the gap.</summary>
    [Fact]
    public void Leaves_out_gaps_longer_than_three_intervals()
    {
        var start = new DateTime(2025, 7, 1, 0, 0, 0, DateTimeKind.Unspecified);
        List<LoggedTemperature> readings = [.. Enumerable.Range(0, 10).Select(hour => new LoggedTemperature(start.AddHours(hour), 20))];
        readings.AddRange(Enumerable.Range(0, 10).Select(hour => new LoggedTemperature(start.AddHours(9 + 3.5 + hour), 30)));
        var (figures, gaps) = MeanKinetic.Of(readings);
        Assert.Equal(1, gaps);
        Assert.Equal(25, figures.MeanC, 1e-9);
        Assert.Equal(26.2599, figures.MeanKineticTemperatureC, 1e-4); // 9 h at 20 and 9 h at 30 °C
    }

    [Fact]
    public void Bridges_gaps_of_three_intervals()
    {
        var start = new DateTime(2025, 7, 1, 0, 0, 0, DateTimeKind.Unspecified);
        double[] hours = [0, 1, 2, 5, 6, 7];
        var (figures, gaps) = MeanKinetic.Of([.. hours.Select(hour => new LoggedTemperature(start.AddHours(hour), hour < 3 ? 20 : 30))]);
        Assert.Equal(0, gaps);
        Assert.Equal(25, figures.MeanC, 1e-9);
    }

    [Fact]
    public void Averages_readings_of_one_time()
    {
        var log = TemperatureLog.Read(Encoding.UTF8.GetBytes("time,temp\n2025-07-01 00:00,20\n2025-07-01 00:00,22\n2025-07-01 01:00,21\n"), "log", null);
        Assert.Equal([21.0, 21.0], log.Readings.Select(reading => reading.Celsius));
    }

    [Theory]
    [InlineData("time,light (lux)\n2025-07-01 00:00,200\n2025-07-01 01:00,210\n", "no column of temperatures")]
    [InlineData("nothing here\nat all\n", "no column of dates")]
    [InlineData("", "no column of dates")]
    [InlineData("time,temp\n2025-07-01 00:00,35\n2025-07-01 01:00,36\n", "--unit C")]
    public void Refuses_what_it_cannot_tell(string text, string told) =>
        Assert.Contains(told, Assert.Throws<Refusal>(() => TemperatureLog.Read(Encoding.UTF8.GetBytes(text), "log", null)).Message, StringComparison.Ordinal);

    [Fact]
    public void A_stated_unit_settles_it()
    {
        var bytes = Encoding.UTF8.GetBytes("time,temp\n2025-07-01 00:00,50\n2025-07-01 01:00,50\n");
        Assert.Equal(10, TemperatureLog.Read(bytes, "log", null).Readings[0].Celsius, 1e-9); // 50 is °F unless said otherwise
        Assert.Equal(50, TemperatureLog.Read(bytes, "log", false).Readings[0].Celsius, 1e-9);
        Assert.Equal(10, TemperatureLog.Read(bytes, "log", true).Readings[0].Celsius, 1e-9);
    }

    [Fact]
    public void The_command_reads_a_file_beside_it()
    {
        var folder = Directory.CreateTempSubdirectory("undercroft-log-");
        try
        {
            File.WriteAllText(Path.Combine(folder.FullName, "shelf.csv"), Shape("comma, ISO"));
            var found = Calc.Json("mkt --file shelf.csv", folder.FullName);
            Assert.Equal(21.6, found["meanC"].GetDouble(), 1e-6);
            Assert.True(found["meanKineticTemperatureC"].GetDouble() > 21.6);
            File.WriteAllText(Path.Combine(folder.FullName, "one.csv"), "time,temp C\n2025-07-01 00:00,20\n2025-07-01 00:00,20\n");
            Assert.Contains("fewer than two", Calc.Refused("mkt --file one.csv", 1, folder.FullName), StringComparison.Ordinal);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static string Shape(string name) => Shapes.Select(row => row.Data).Single(data => data.Item1 == name).Item2;

    private static string Number(int index) => Day[index].ToString(CultureInfo.InvariantCulture);

    private static string Rows(Func<int, FormattableString> row) => string.Concat(Enumerable.Range(0, Day.Length).Select(i => FormattableString.Invariant(row(i)) + "\n"));
}
