using Undercroft.Ledger;
using Undercroft.Shell.Logs;
using Undercroft.Tests.House;
using Xunit;

namespace Undercroft.Tests.Places.Logging;

/// <summary>Files in the shapes that loggers write, all made up: the same half-hourly day of July in most of them, 20 + 3 sin(i/6) °C and 50 + 5 cos(i/9) %, rounded to a tenth.</summary>
public sealed class LogFixtureTests
{
    private static readonly DateTimeOffset July = new(2025, 7, 14, 0, 0, 0, TimeSpan.Zero);

    /// <summary>File, hours by which its clock is behind UTC, rows left out.</summary>
    public static TheoryData<string, int, int> Same => new()
    {
        { "iso.csv", 0, 0 },
        { "german.csv", 0, 3 }, // Windows-1252, decimal commas, date and time apart, three lines of totals
        { "american.txt", 5, 0 }, // UTF-16, tabs, °F, AM and PM, its offset in the heading
        { "epoch.csv", 0, 0 }, // milliseconds, newest first
        { "serial.tsv", 0, 0 }, // days as spreadsheets count them
        { "threeheads.csv", 0, 0 }, // quoted, three header rows, a dew point
        { "headless.csv", 0, 0 }, // an index and no heading at all
        { "long.csv", 0, 0 }, // one quantity a row
        { "errors.csv", 0, 6 },
        { "channels.csv", 0, 0 }, // light first, then temperature, humidity, pressure and others
        { "spaces.txt", 0, 0 },
        { "months.csv", 0, 0 }, // the time before the date, months by name
        { "steady.csv", 0, 0 }, // a start, an interval and a running number
        { "blank-channels.csv", 0, 0 }, // the first rows end early
        { "ukrainian.csv", 0, 0 }, // humidity first
    };

    [Theory]
    [MemberData(nameof(Same))]
    public void Reads_the_same_day_from_every_shape(string file, int behind, int rejected)
    {
        var log = Read(file);
        Assert.Equal((48, rejected), (log.Count, log.Rejected));
        for (var i = 0; i < log.Count; i++)
        {
            Assert.Equal(July.AddMinutes(30 * i).AddHours(behind).ToUnixTimeSeconds(), log[i].UtcSeconds);
            Assert.Equal(20 + (3 * Math.Sin(i / 6.0)), log[i].Celsius, 0.0501 + (file == "american.txt" ? 0.003 : 0));
            Assert.Equal(50 + (5 * Math.Cos(i / 9.0)), 100 * log[i].Humidity, 0.0501);
        }
    }

    [Theory]
    [InlineData("light.csv", "light alone")]
    [InlineData("doubt.csv", "--unit C or --unit F")]
    [InlineData("blocks.csv", "--sensor \"pantry\"")]
    [InlineData("several.csv", "'Indoor Temp (°C)', 'Outdoor Temp (°C)'")]
    public void Asks_about_what_a_file_leaves_open(string file, string told) =>
        Assert.Contains(told, Assert.Throws<Refusal>(() => Read(file)).Message, StringComparison.Ordinal);

    [Fact]
    public void What_was_asked_can_be_said()
    {
        Assert.Equal(36, Read("doubt.csv", new(Unit: 'C'))[0].Celsius, 1e-9);
        Assert.Equal((36 - 32) / 1.8, Read("doubt.csv", new(Unit: 'F'))[0].Celsius, 1e-9);
        var outdoors = Read("several.csv", new(Sensor: "outdoor"))[0];
        Assert.Equal((12, 75), (Math.Round(outdoors.Celsius, 9), Math.Round(100 * outdoors.Humidity, 9)));
    }

    [Fact]
    public void One_quantity_may_fill_a_file_of_its_own()
    {
        Assert.True(double.IsNaN(Read("temperature-only.csv")[0].Humidity));
        var damp = Read("humidity-only.csv")[0];
        Assert.True(double.IsNaN(damp.Kelvin));
        Assert.Equal(0.55, damp.Humidity, 1e-9);
    }

    [Fact]
    public void Keeps_light_and_pressure_beside_the_air()
    {
        var row = Read("channels.csv")[1];
        Assert.Equal((1.0, 100_010.0), (row.Lux, Math.Round(row.Pascals, 6)));
    }

    [Fact]
    public void One_comma_for_columns_and_decimals_is_told_by_the_heading()
    {
        var log = Read("commas.csv");
        Assert.Equal(96, log.Count);
        Assert.Equal(20, log[0].Celsius, 1e-9);
        Assert.Equal(20.5, log[1].Celsius, 1e-9);
        Assert.Equal(0.55, log[0].Humidity, 1e-9);
    }

    /// <summary>Berlin, 26 October 2025: 02:00 to 03:00 came twice, first at UTC+2, then at UTC+1 (time zone database).</summary>
    [Theory]
    [InlineData("follows.csv", "follows summer time")]
    [InlineData("never.csv", "never shifts")]
    public void Tells_a_clock_that_shifts_from_one_that_does_not(string file, string said)
    {
        var log = Read(file, new(Zone: "Europe/Berlin"));
        Assert.Contains(log.Notes, note => note.Contains(said, StringComparison.Ordinal));
        Assert.Equal(24, log.Count);
        var start = new DateTimeOffset(2025, 10, 25, 20, 0, 0, TimeSpan.Zero);
        for (var i = 0; i < log.Count; i++)
            Assert.Equal(start.AddMinutes(30 * i).ToUnixTimeSeconds(), log[i].UtcSeconds);
    }

    [Fact]
    public void An_hour_that_came_twice_is_left_out_where_nothing_tells_which()
    {
        // The rows before and after the hour are missing: its two rows could be of either pass.
        var log = Read("doubtful-hour.csv", new(Zone: "Europe/Berlin"));
        Assert.Contains(log.Notes, note => note.Contains("came twice", StringComparison.Ordinal));
        Assert.Equal(2, log.Rejected);
    }

    [Fact]
    public void A_sensor_that_stands_still_for_days_is_said() =>
        Assert.Contains(Read("stuck.csv").Notes, note => note.Contains("temperature stands still", StringComparison.Ordinal));

    [Fact]
    public void A_zone_that_does_not_exist_is_refused() =>
        Assert.Contains("no time zone", Assert.Throws<Refusal>(() => Read("iso.csv", new(Zone: "Europe/Atlantis"))).Message, StringComparison.Ordinal);

    internal static string PathOf(string file) => Path.Combine(Repository.Root, "tests", "Undercroft.Tests", "Places", "Logging", "Fixtures", file);

    private static Log Read(string file, LogAnswers? answers = null) => LogReader.Read(LogSource.File(PathOf(file)), answers);
}
