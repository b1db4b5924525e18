using System.Globalization;
using System.Text;
using Undercroft.Ledger;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;
using Undercroft.Shell.Logs;
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
            var log = LogReader.Read(LogSource.Of(shape, bytes));
            Assert.Equal(Day, Celsius(log));
            Assert.Equal(6 * 3600, log.Interval);
            Assert.Equal(5 * 6 * 3600, log.Seconds[^1] - log.Seconds[0]);
        }
    }

    [Fact]
    public void Integrates_by_trapezoids()
    {
        var figures = LogFigures.Of(Read(Shape("comma, ISO")));
        var weights = new[] { 0.5, 1, 1, 1, 1, 0.5 };
        Assert.Equal(0, figures.Gaps);
        Assert.Equal(Day.Zip(weights, (celsius, weight) => celsius * weight).Sum() / 5, figures.MeanC!.Value, 1e-9);
        Assert.Equal(MeanKineticTemperature.Of(Day.Zip(weights, (celsius, weight) => (Temperature.FromCelsius(celsius), weight))).Celsius, figures.MeanKineticTemperatureC!.Value, 1e-9);
    }

    /// <summary>A hot stretch that nobody recorded is not bridged: with it the mean would be drawn to the two ends of the gap.</summary>
    [Fact]
    public void Leaves_out_gaps_longer_than_three_intervals()
    {
        var figures = LogFigures.Of(Read("time,temp C\n" + At(Enumerable.Range(0, 10).Select(hour => ((double)hour, 20)).Concat(Enumerable.Range(0, 10).Select(hour => (9 + 3.5 + hour, 30))))));
        Assert.Equal(1, figures.Gaps);
        Assert.Equal(25, figures.MeanC!.Value, 1e-9);
        Assert.Equal(26.2599, figures.MeanKineticTemperatureC!.Value, 1e-4); // 9 h at 20 and 9 h at 30 °C
    }

    [Fact]
    public void Bridges_gaps_of_three_intervals()
    {
        var figures = LogFigures.Of(Read("time,temp C\n" + At(((double[])[0, 1, 2, 5, 6, 7]).Select(hour => (hour, hour < 3 ? 20 : 30)))));
        Assert.Equal(0, figures.Gaps);
        Assert.Equal(25, figures.MeanC!.Value, 1e-9);
    }

    [Fact]
    public void The_first_of_several_readings_of_one_time_counts_and_it_is_said()
    {
        var log = Read("time,temp\n2025-07-01 00:00,20\n2025-07-01 00:00,22\n2025-07-01 01:00,21\n");
        Assert.Equal([20.0, 21.0], Celsius(log));
        Assert.Equal((1, 1), (log.Repeated, log.Contradicted));
        Assert.Contains(log.Notes, note => note.Contains("other values", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("time,light (lux)\n2025-07-01 00:00,200\n2025-07-01 01:00,210\n", "light alone")]
    [InlineData("nothing here\nat all\n", "no column of dates")]
    [InlineData("", "is empty")]
    [InlineData("time,temp\n2025-07-01 00:00,35\n2025-07-01 01:00,36\n", "--unit C")]
    public void Refuses_what_it_cannot_tell(string text, string told) =>
        Assert.Contains(told, Assert.Throws<Refusal>(() => Read(text)).Message, StringComparison.Ordinal);

    [Fact]
    public void A_stated_unit_settles_it()
    {
        const string Text = "time,temp\n2025-07-01 00:00,50\n2025-07-01 01:00,50\n";
        Assert.Equal(10, Celsius(Read(Text))[0], 1e-9); // 50 is °F unless said otherwise
        Assert.Equal(50, Celsius(Read(Text, new LogAnswers(Unit: 'C')))[0], 1e-9);
        Assert.Equal(10, Celsius(Read(Text, new LogAnswers(Unit: 'F')))[0], 1e-9);
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

    private static Log Read(string text, LogAnswers? answers = null) => LogReader.Read(LogSource.Of("log", Encoding.UTF8.GetBytes(text)), answers);

    private static double[] Celsius(Log log) => [.. Enumerable.Range(0, log.Count).Select(row => Math.Round(log[row].Celsius, 9))];

    private static string At(IEnumerable<(double Hour, int Celsius)> readings) => string.Concat(readings.Select(reading =>
        string.Create(CultureInfo.InvariantCulture, $"{new DateTime(2025, 7, 1, 0, 0, 0, DateTimeKind.Unspecified).AddHours(reading.Hour):yyyy-MM-dd HH:mm},{reading.Celsius}\n")));

    private static string Shape(string name) => Shapes.Select(row => row.Data).Single(data => data.Item1 == name).Item2;

    private static string Number(int index) => Day[index].ToString(CultureInfo.InvariantCulture);

    private static string Rows(Func<int, FormattableString> row) => string.Concat(Enumerable.Range(0, Day.Length).Select(i => FormattableString.Invariant(row(i)) + "\n"));
}
