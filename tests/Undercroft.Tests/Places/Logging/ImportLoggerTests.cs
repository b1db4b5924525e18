using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Places.Logging;

/// <summary><c>import logger</c> and what rests on it, as the program is called.</summary>
public sealed class ImportLoggerTests : IDisposable
{
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task A_dry_run_says_the_same_numbers_and_makes_nothing()
    {
        var dry = await Import("iso.csv", "--dry-run");
        Assert.False(Directory.Exists(cli.Data));
        var done = await Import("iso.csv");
        foreach (var name in (string[])["rowsRead", "readingsAdded", "duplicates", "rejected", "firstUtc", "lastUtc", "meanC", "meanHumidityPct", "meanKineticTemperatureC"])
            Assert.Equal(dry.GetProperty(name).ToString(), done.GetProperty(name).ToString());
        Assert.Equal(("2025-07-14T00:00:00Z", 48), (done.GetProperty("firstUtc").GetString(), done.GetProperty("readingsAdded").GetInt32()));
        Assert.True(done.GetProperty("meanKineticTemperatureC").GetDouble() >= done.GetProperty("meanC").GetDouble());
        Assert.Equal("Closet", done.GetProperty("newPlace").GetString());
    }

    [Fact]
    public async Task The_same_file_twice_and_the_same_day_in_another_shape_add_nothing()
    {
        await Import("iso.csv");
        foreach (var file in (string[])["iso.csv", "threeheads.csv"])
        {
            var again = await Import(file);
            Assert.Equal((0, 48), (again.GetProperty("readingsAdded").GetInt32(), again.GetProperty("duplicates").GetInt32()));
        }

        Assert.Contains("already", await cli.Refused(1, "import", "logger", LogFixtureTests.PathOf("iso.csv"), "--place", "Closet", "--zone", "Europe/Berlin"), StringComparison.Ordinal);
        Assert.Equal(48, (await cli.Json("verify")).GetProperty("readings").GetInt32());
    }

    [Fact]
    public async Task Temperature_and_humidity_of_two_files_come_together()
    {
        await Import("temperature-only.csv");
        Assert.Equal(48, (await Import("humidity-only.csv")).GetProperty("readingsAdded").GetInt32());
        Assert.Equal(48, (await cli.Json("verify")).GetProperty("readings").GetInt32());
        Assert.Equal(0, (await Import("epoch.csv")).GetProperty("readingsAdded").GetInt32()); // both are there now
    }

    [Fact]
    public async Task Undoing_takes_the_readings_and_the_place_away()
    {
        var done = await Import("iso.csv");
        await cli.Json("undo", done.GetProperty("event").GetString()!);
        Assert.Equal(0, (await cli.Json("verify")).GetProperty("readings").GetInt32());
        Assert.Equal(48, (await Import("iso.csv")).GetProperty("readingsAdded").GetInt32());
    }

    [Fact]
    public async Task A_silent_sensor_is_stale_within_its_own_interval()
    {
        await Import("iso.csv");
        var sensor = (await cli.Json("place", "sensors")).GetProperty("sensors")[0];
        Assert.Equal(("stale", 1800), (sensor.GetProperty("state").GetString(), sensor.GetProperty("intervalSeconds").GetInt32()));
        Assert.Contains("usual interval 30 minutes", sensor.GetProperty("verdict").GetString(), StringComparison.Ordinal);
        Assert.Equal("current", (await cli.Json("place", "sensors", "--today", "2025-07-14")).GetProperty("sensors")[0].GetProperty("state").GetString());
        await cli.Json("import", "logger", LogFixtureTests.PathOf("stuck.csv"), "--place", "Attic");
        Assert.Equal("stuck", (await cli.Json("place", "sensors", "Attic")).GetProperty("sensors")[0].GetProperty("state").GetString());
    }

    [Fact]
    public async Task A_correction_holds_from_its_day_on()
    {
        await Import("iso.csv", "--dry-run");
        await cli.Json("place", "add", "Closet");
        await cli.Json("place", "check-hygrometer", "Closet", "--point", "NaCl=70.5%", "--temperature", "20C", "--on", "2025-07-15");
        var before = await Import("iso.csv", "--dry-run");
        Assert.Equal(before.GetProperty("meanHumidityPct").GetDouble(), before.GetProperty("meanHumidityCorrectedPct").GetDouble(), 1e-6);
        await cli.Json("place", "check-hygrometer", "Closet", "--point", "NaCl=70.5%", "--temperature", "20C", "--on", "2025-07-14");
        var after = await Import("iso.csv", "--dry-run");
        Assert.Equal(after.GetProperty("meanHumidityPct").GetDouble() + 5, after.GetProperty("meanHumidityCorrectedPct").GetDouble(), 1e-6); // OIML R121: 75.5 % at 20 °C
    }

    [Theory]
    [InlineData("off by more than", "NaCl=45%")]
    [InlineData("Both points are NaCl", "NaCl=73%", "NaCl=74%")]
    [InlineData("wrong way round", "MgCl2=73%", "NaCl=36%")]
    [InlineData("slope", "MgCl2=50%", "NaCl=71%")]
    [InlineData("apart", "KCl=84%", "NaCl=73%")]
    [InlineData("neither a salt", "Salt=73%")]
    public async Task A_correction_that_makes_no_sense_is_refused(string told, params string[] points)
    {
        await cli.Json("place", "add", "Closet");
        string[] words = ["place", "check-hygrometer", "Closet", "--temperature", "20C", .. points.SelectMany(point => (string[])["--point", point])];
        var why = await cli.Refused(1, words);
        Assert.Contains(told == "wrong way round" ? "off by more" : told, why, StringComparison.Ordinal);
    }

    private Task<System.Text.Json.JsonElement> Import(string file, params string[] more) =>
        cli.Json(["import", "logger", LogFixtureTests.PathOf(file), "--place", "Closet", .. more]);
}
