using System.Text.Json;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Places;

public sealed class PlaceCommandTests : IDisposable
{
    private static readonly DateOnly LastDay = new(2026, 4, 28);
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task An_import_changes_the_forecast_of_what_stands_there()
    {
        await Home();
        var id = await cli.Add("--leaf", "burley", "--net", "100g", "--container", "bag-zip", "--sealed", "2026-04-20", "--moisture", "15%", "--place", "Closet");
        var before = await Forecast(id);
        Assert.Contains("room kind", (await cli.Json("place", "show", "Closet")).GetProperty("climate").GetProperty("remark").GetString() + " room kind", StringComparison.Ordinal);
        await cli.Import("Closet", PlaceCli.Year(LastDay, 365, 16, 3, 0.5, 64));
        var after = await Forecast(id);
        Assert.True(Last(after, "moistureWetBasisPct", "p50") > Last(before, "moistureWetBasisPct", "p50") + 1, "A closet logged at 64 % keeps a bag moister than one guessed at 47 %.");
        Assert.Contains("fitted from its own logger", after.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("logger", before.ToString(), StringComparison.Ordinal);

        // And undone, all is as it was.
        await cli.Json("undo");
        Assert.Equal(before.ToString(), (await Forecast(id)).ToString());
    }

    [Fact]
    public async Task A_logged_place_says_what_it_rests_on_and_how_old_that_is()
    {
        await Home();
        await cli.Import("Closet", PlaceCli.Year(LastDay, 365, 17.3, 4.2, 1.1, 58));
        var shown = await cli.Json("place", "show", "Closet");
        var climate = shown.GetProperty("climate");
        Assert.Equal(17.3, Number(climate, "meanC"), 0.6);
        Assert.Equal(4.2, Number(climate, "annualSwingC"), 0.6);
        Assert.Equal(1.1, Number(climate, "dailySwingC"), 0.15);
        Assert.Equal(58, Number(climate, "meanHumidityPct"), 2.0);
        Assert.Equal(8761, Number(climate, "readings"));
        Assert.Equal(3, Number(climate, "ageDays"));
        Assert.Equal("log", climate.GetProperty("basis").GetString());
        Assert.True(Number(climate, "meanSdC") < 0.7);
        var exposure = shown.GetProperty("exposure");
        Assert.Equal(17.3, Number(exposure, "meanC"), 0.1);
        Assert.True(Number(exposure, "meanKineticTemperatureC") >= Number(exposure, "meanC"));
        Assert.Equal(2.2, Number(exposure, "dailySwingK"), 0.2);
        Assert.All(exposure.GetProperty("measures").EnumerateArray(), measure => Assert.True(measure.GetProperty("means").GetString()!.Length > 30));
        Assert.Contains("3 days ago", (await cli.Run("place", "show", "Closet")).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_shelf_without_a_logger_follows_its_logged_room()
    {
        await Home();
        await cli.Json("place", "add", "Shelf", "--inside", "Closet");
        await cli.Import("Closet", PlaceCli.Year(LastDay, 365, 15.2, 3, 2, 58));
        var shelf = (await cli.Json("place", "show", "Shelf")).GetProperty("climate");
        Assert.Equal("log-around", shelf.GetProperty("basis").GetString());
        Assert.Equal(15.2, Number(shelf, "meanC"), 0.6);
        Assert.InRange(Number(shelf, "dailySwingC"), 0.5, 1.6);
        await cli.Import("Shelf", PlaceCli.Year(LastDay, 14, 13.9, 3, 1, 58));
        var logged = (await cli.Json("place", "show", "Shelf")).GetProperty("climate");
        Assert.Equal(13.9, Number(logged, "meanC"), 0.6);
        Assert.True(Number(logged, "followsHours") > 0);
    }

    [Fact]
    public async Task A_shelf_in_a_room_that_nobody_logs_follows_it_damped_and_says_on_what_that_rests()
    {
        await Home();
        await cli.Json("place", "add", "Shelf", "--inside", "Attic");
        var (room, shelf) = ((await cli.Json("place", "show", "Attic")).GetProperty("climate"), (await cli.Json("place", "show", "Shelf")).GetProperty("climate"));
        Assert.Equal(Number(room, "meanC"), Number(shelf, "meanC"), 1e-9);
        Assert.Equal(0.537 * Number(room, "dailySwingC"), Number(shelf, "dailySwingC"), 0.01); // gain of 6 h at 24 h: own computation
        Assert.Equal("room-kind", shelf.GetProperty("basis").GetString());
        Assert.Equal(JsonValueKind.Null, room.GetProperty("follows").ValueKind);
        Assert.Contains("about 54 % of the day's swing (21 to 89), 3.8 h later (1.8 to 5.2) – common practice, no source", shelf.GetProperty("follows").GetString(), StringComparison.Ordinal);
        Assert.Contains("common practice, no source", (await cli.Run("place", "show", "Shelf")).Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_stretch_over_which_a_sensor_stood_still_is_no_part_of_the_year()
    {
        await Home();
        static IEnumerable<Undercroft.Ledger.Readings.Reading> Stuck(double at, bool stuck) => PlaceCli.Year(LastDay, 365, 17.3, 4.2, 1.1, 58).Select((reading, n) => new Undercroft.Ledger.Readings.Reading(
            reading.UtcSeconds, stuck && n is > 2000 and < 5000 ? Undercroft.Physics.Quantities.Temperature.FromCelsius(at) : reading.Temperature, Undercroft.Physics.Quantities.RelativeHumidity.FromPercent(50 + (n % 7))));
        await cli.Import("Closet", Stuck(36.5, stuck: true));
        await cli.Import("Attic", Stuck(36.5, stuck: false));
        var climate = (await cli.Json("place", "show", "Closet")).GetProperty("climate");
        Assert.Equal(17.3, Number(climate, "meanC"), 0.6);
        Assert.True(Number(climate, "effectiveDays") < Number((await cli.Json("place", "show", "Attic")).GetProperty("climate"), "effectiveDays"));
        Assert.Contains("temperature stood still from", Assert.Single(climate.GetProperty("leftOut").EnumerateArray()).GetString(), StringComparison.Ordinal);
        Assert.Contains("2999 readings", (await cli.Run("place", "show", "Closet")).Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_spell_on_a_shelf_is_that_of_its_room_later_and_damped_and_names_what_is_gone()
    {
        await Home();
        await cli.Json("place", "add", "Shelf", "--inside", "Attic");
        Task<string> Bag() => cli.Add("--leaf", "burley", "--net", "100g", "--container", "bag-zip", "--sealed", "2025-06-20", "--moisture", "15%", "--place", "Shelf");
        var (kept, smoked, given) = (await Bag(), await Bag(), await Bag());
        await cli.Json("remove", smoked, "--as", "finished", "--on", "2025-12-24");
        await cli.Json("remove", given, "--as", "given", "--on", "2025-07-20"); // before the heat
        bool Hot(DateOnly day) => day >= new DateOnly(2025, 8, 1) && day <= new DateOnly(2025, 8, 14);
        await cli.Import("Attic", PlaceCli.Year(LastDay, 365, 18, 6, 4, 50, day => Hot(day) ? 9 : 0));
        var (room, shelf) = (await cli.Json("place", "spell", "Attic", "--from", "2025-08-01", "--to", "2025-08-14"), await cli.Json("place", "spell", "Shelf", "--from", "2025-08-01", "--to", "2025-08-14"));
        Assert.Equal(Number(room, "meanC"), Number(shelf, "meanC"), 0.5);
        Assert.InRange(Number(room, "highestC") - Number(shelf, "highestC"), 1.2, 2.5); // 4 K either way, of which 54 % come through
        Assert.Contains("common practice, no source", shelf.GetProperty("reasons")[0].GetString(), StringComparison.Ordinal);
        var packages = shelf.GetProperty("packages").EnumerateArray().ToArray();
        Assert.Equal([kept, smoked], packages.Select(package => package.GetProperty("id").GetString()));
        Assert.Equal("finished on 2025-12-24", packages[1].GetProperty("gone").GetString());
        Assert.Contains("1 more stood there then and is gone since", shelf.GetProperty("verdict").GetString(), StringComparison.Ordinal);
        Assert.DoesNotContain(smoked, shelf.GetProperty("nextStep").GetProperty("what").GetString(), StringComparison.Ordinal);
        Assert.Contains("it is gone, finished on 2025-12-24", (await cli.Run("place", "spell", "Shelf", "--from", "2025-08-01", "--to", "2025-08-14")).Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_place_compared_with_itself_is_equal()
    {
        await Home();
        await cli.Import("Closet", PlaceCli.Year(LastDay, 60, 17, 3, 1, 55));
        var same = await cli.Json("place", "compare", "Closet", "Closet");
        Assert.StartsWith("No difference", same.GetProperty("verdict").GetString(), StringComparison.Ordinal);
        Assert.Equal(same.GetProperty("places")[0].ToString(), same.GetProperty("places")[1].ToString());
        Assert.Equal(same.GetProperty("forThirtyYears").ToString(), same.GetProperty("forThisYear").ToString());
        Assert.Contains("two places", await cli.Refused(1, "place", "compare", "Closet"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_cool_steady_cellar_beats_an_attic_for_thirty_years()
    {
        await Home();
        await cli.Import("Cellar", PlaceCli.Year(LastDay, 365, 14, 3, 0.3, 60));
        await cli.Import("Attic", PlaceCli.Year(LastDay, 365, 20, 9, 5, 50));
        var found = await cli.Json("place", "compare", "Attic", "Cellar");
        Assert.Equal("House › Cellar", found.GetProperty("places")[0].GetProperty("path").GetString());
        Assert.Equal(found.GetProperty("places")[0].GetProperty("id").GetString(), found.GetProperty("forThirtyYears").GetString());
        Assert.Equal("thirty-years", found.GetProperty("places")[0].GetProperty("fitness").GetString());
        Assert.NotEqual("thirty-years", found.GetProperty("places")[1].GetProperty("fitness").GetString());
        var attic = found.GetProperty("places")[1];
        Assert.All(attic.GetProperty("changes").EnumerateArray(), change => Assert.True(Number(change, "meanKineticTemperatureC") < Number(attic.GetProperty("exposure").GetProperty("typicalYear"), "meanKineticTemperatureC")));
        Assert.Equal((await cli.Json("place", "compare", "Cellar", "Attic")).ToString(), found.ToString());
    }

    [Fact]
    public async Task A_week_says_less_than_a_year_and_more_than_a_guess()
    {
        await Home();
        var guess = Number((await cli.Json("place", "show", "Cellar")).GetProperty("climate"), "meanSdC");
        await cli.Import("Cellar", PlaceCli.Year(LastDay, 8, 13, 3, 0.3, 60));
        var week = Number((await cli.Json("place", "show", "Cellar")).GetProperty("climate"), "meanSdC");
        await cli.Import("Cellar", PlaceCli.Year(LastDay.AddDays(-8), 400, 13, 3, 0.3, 60));
        var year = Number((await cli.Json("place", "show", "Cellar")).GetProperty("climate"), "meanSdC");
        Assert.True(year < week && week < guess, $"{year} < {week} < {guess}");
    }

    [Fact]
    public async Task A_heat_wave_is_told_package_by_package_in_the_order_of_looking()
    {
        await Home();
        var jar = await cli.Add("--leaf", "burley", "--net", "100g", "--container", "jar-473", "--sealed", "2024-04-20", "--moisture", "15%", "--place", "Attic");
        var bag = await cli.Add("--leaf", "burley", "--net", "100g", "--container", "bag-zip", "--sealed", "2025-06-20", "--moisture", "15%", "--place", "Attic");
        await cli.Add("--net", "50g", "--container", "jar-473", "--sealed", "2024-04-20", "--place", "Cellar");
        bool Hot(DateOnly day) => day >= new DateOnly(2025, 8, 1) && day <= new DateOnly(2025, 8, 14);
        await cli.Import("Attic", PlaceCli.Year(LastDay, 365, 18, 6, 4, 50, day => Hot(day) ? 9 : 0));
        var spell = await cli.Json("place", "spell", "Attic", "--from", "2025-08-01", "--to", "2025-08-14");
        Assert.InRange(Number(spell, "meanC") - Number(spell, "usualC"), 6, 10);
        Assert.True(Number(spell, "highestC") > 34);
        var packages = spell.GetProperty("packages").EnumerateArray().ToArray();
        Assert.Equal(2, packages.Length);
        Assert.Equal(bag, packages[0].GetProperty("id").GetString());
        Assert.True(Number(packages[0].GetProperty("waterPct"), "p50") < -0.02, "Two hot weeks dry a bag more than two ordinary ones.");
        Assert.True(Math.Abs(Number(packages[1].GetProperty("waterPct"), "p50")) < Math.Abs(Number(packages[0].GetProperty("waterPct"), "p50")));
        Assert.Equal(jar, packages[1].GetProperty("id").GetString());
        Assert.InRange(Number(packages[1], "peakGaugeKPa"), 3, 9); // about 15 K: 5 kPa of air, the rest vapour
        Assert.Contains("no log", await cli.Refused(1, "place", "spell", "Cellar", "--from", "2025-08-01"), StringComparison.Ordinal);
        Assert.Contains("ends before", await cli.Refused(1, "place", "spell", "Attic", "--from", "2025-08-02", "--to", "2025-08-01"), StringComparison.Ordinal);
        Assert.Contains("too little", await cli.Refused(1, "place", "spell", "Attic", "--from", "2020-08-02"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_spell_is_told_of_the_packages_as_they_stood_then()
    {
        await Home();
        Task<string> Jar(string container, string day, string place) => cli.Add("--leaf", "burley", "--net", "100g", "--container", container, "--sealed", day, "--moisture", "15%", "--place", place);
        var opened = await Jar("jar-473", "2024-04-20", "Attic");
        var moved = await Jar("bag-zip", "2025-06-20", "Attic");
        var brought = await Jar("bag-zip", "2025-06-20", "Cellar");
        var arrived = await Jar("bag-zip", "2025-06-20", "Closet");
        await Jar("bag-zip", "2025-10-01", "Attic"); // sealed after it
        await cli.Json("open", opened, "--on", "2026-02-01");
        await cli.Json("move", moved, "Cellar", "--on", "2026-01-10");
        await cli.Json("move", brought, "Attic", "--on", "2026-01-11");
        await cli.Json("move", arrived, "Attic", "--on", "2025-08-13");
        bool Hot(DateOnly day) => day >= new DateOnly(2025, 8, 1) && day <= new DateOnly(2025, 8, 14);
        await cli.Import("Attic", PlaceCli.Year(LastDay, 365, 18, 6, 4, 50, day => Hot(day) ? 9 : 0));
        var packages = (await cli.Json("place", "spell", "Attic", "--from", "2025-08-01", "--to", "2025-08-14")).GetProperty("packages").EnumerateArray()
            .ToDictionary(package => package.GetProperty("id").GetString()!);
        Assert.Equal(new[] { opened, moved, arrived }.Order(StringComparer.Ordinal), packages.Keys.Order(StringComparer.Ordinal));
        Assert.True(Number(packages[opened], "peakGaugeKPa") > 3, "It was closed in those days.");
        Assert.StartsWith("(it was opened since) ", packages[opened].GetProperty("check").GetString(), StringComparison.Ordinal);
        Assert.StartsWith("(it stands in House › Cellar now) ", packages[moved].GetProperty("check").GetString(), StringComparison.Ordinal);
        var (whole, half) = (Number(packages[moved].GetProperty("waterPct"), "p50"), Number(packages[arrived].GetProperty("waterPct"), "p50"));
        Assert.True(whole < 0.7 * half && half < 0, $"Two weeks of heat dry a bag more than their last two days: {whole} and {half} points.");
    }

    [Fact]
    public async Task A_place_shows_how_its_sensors_stand()
    {
        await Home();
        await cli.Json("place", "add", "Shelf", "--inside", "Closet");
        Assert.Equal(0, (await cli.Json("place", "show", "Closet")).GetProperty("sensors").GetArrayLength());
        await cli.Import("Closet", PlaceCli.Year(LastDay, 30, 17, 3, 1, 58));
        foreach (var place in (string[])["Closet", "Shelf"]) // the shelf rests on the sensor around it
        {
            var sensor = (await cli.Json("place", "show", place)).GetProperty("sensors")[0];
            Assert.Equal(("stuck", "House › Closet"), (sensor.GetProperty("state").GetString(), sensor.GetProperty("place").GetString())); // 58 % throughout
            Assert.Contains("stuck: its humidity has not moved", (await cli.Run("place", "show", place)).Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
        }

        await cli.Import("Attic", PlaceCli.Year(LastDay, 30, 17, 3, 1, 58).Select((reading, n) => new Undercroft.Ledger.Readings.Reading(reading.UtcSeconds, reading.Temperature, Undercroft.Physics.Quantities.RelativeHumidity.FromPercent(50 + (n % 7)))));
        var stale = (await cli.Json("place", "show", "Attic")).GetProperty("sensors")[0];
        Assert.Equal(("stale", 3600), (stale.GetProperty("state").GetString(), stale.GetProperty("intervalSeconds").GetInt32()));
        Assert.Equal("ahead", (await cli.Json("place", "show", "Attic", "--today", "2026-04-01")).GetProperty("sensors")[0].GetProperty("state").GetString());
        Assert.Equal("current", (await cli.Json("place", "show", "Attic", "--as-of", "2026-04-20")).GetProperty("sensors")[0].GetProperty("state").GetString());
    }

    [Fact]
    public async Task The_year_outdoors_makes_the_guess_and_a_weather_file_says_the_same_as_its_months()
    {
        await Home();
        await File.WriteAllTextAsync(Path.Combine(cli.Work, "fell.epw"), PlaceCli.WeatherText(), TestContext.Current.CancellationToken);
        var read = await cli.Json("place", "climate", "House", "--weather", "fell.epw");
        Assert.Equal(8760, Number(read, "hoursRead"));
        Assert.InRange(Number(read, "hoursMissing"), 8, 10);
        var attic = (await cli.Json("place", "show", "Attic")).GetProperty("climate");
        Assert.Equal("outdoors", attic.GetProperty("basis").GetString());
        Assert.Equal(17, Number(attic, "meanC"), 0.3); // 9 °C outdoors and 8 K under the roof, the attic's stated behaviour
        Assert.Equal(7, Number(attic, "annualSwingC"), 0.2);
        Assert.True(Number(attic, "pressureKPa") < 98.5, "The station lies at 310 m.");
        var months = string.Join(',', Enumerable.Range(0, 12).Select(month => (9 + (7 * 0.9886 * Math.Cos(Math.Tau * (((month + 0.5) * 30.42) - 200) / 365))).ToString("0.00", System.Globalization.CultureInfo.InvariantCulture))) + "C";
        await cli.Json("place", "climate", "House", "--monthly", months, "--monthly-humidity", string.Join(',', Enumerable.Repeat("80", 12)) + "%");
        var typed = (await cli.Json("place", "show", "Attic")).GetProperty("climate");
        Assert.Equal(Number(attic, "meanC"), Number(typed, "meanC"), 0.2);
        Assert.Equal(Number(attic, "meanHumidityPct"), Number(typed, "meanHumidityPct"), 3.0);
    }

    [Theory]
    [InlineData("twelve", "--monthly", "1,2,3C")]
    [InlineData("unit", "--monthly", "1,2,5,9,14,17,19,18,15,10,5,2")]
    [InlineData("-73", "--monthly", "1,2,5,9,14,17,1900,18,15,10,5,2C")]
    [InlineData("--monthly", "--monthly-humidity", "86,82,77,72,71,72,73,74,79,83,87,88%")]
    [InlineData("LOCATION", "--weather", "plain.txt")]
    [InlineData("no file", "--weather", "missing.epw")]
    [InlineData("Nothing was said", "--temperature", "")]
    [InlineData("altitude", "--altitude", "12000m")]
    public async Task What_no_place_has_is_refused_and_nothing_is_written(string named, string option, string value)
    {
        await Home();
        await File.WriteAllTextAsync(Path.Combine(cli.Work, "plain.txt"), "not weather", TestContext.Current.CancellationToken);
        var before = (await cli.Json("history")).ToString();
        Assert.Contains(named, await cli.Refused(1, "place", "climate", "Closet", option, value), StringComparison.OrdinalIgnoreCase);
        Assert.Equal(before, (await cli.Json("history")).ToString());
    }

    [Fact]
    public async Task A_freezer_plan_has_its_dates_in_order_and_its_cautions()
    {
        var plan = await cli.Json("place", "freeze", "--mass", "500g", "--container", "jar-946", "--freezer", "-20C", "--start", "2026-05-02");
        string[] days = [.. plan.GetProperty("steps").EnumerateArray().Select(step => step.GetProperty("on").GetString()!)];
        Assert.Equal(days.Order(StringComparer.Ordinal), days);
        Assert.Equal("2026-05-02", days[0]);
        Assert.True(string.CompareOrdinal(days[2], "2026-05-09") >= 0, "Never shorter than a week.");
        Assert.Contains(plan.GetProperty("cautions").EnumerateArray(), caution => caution.GetString()!.StartsWith("Glass", StringComparison.Ordinal));
        var brick = await cli.Json("place", "freeze", "--mass", "5kg", "--across", "200mm", "--deep", "300mm", "--high", "150mm", "--start", "2026-05-02");
        Assert.True(Number(brick, "coolingHours") > Number(plan, "coolingHours"));
        Assert.Contains(brick.GetProperty("cautions").EnumerateArray(), caution => caution.GetString()!.StartsWith("Films", StringComparison.Ordinal));
        Assert.Contains("22 days", await cli.Refused(1, "place", "freeze", "--mass", "500g", "--container", "jar-946", "--freezer", "-10C"), StringComparison.Ordinal);
        Assert.Contains("How much", await cli.Refused(1, "place", "freeze", "--container", "jar-946"), StringComparison.Ordinal);
        Assert.Contains("How big", await cli.Refused(1, "place", "freeze", "--mass", "500g"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Light_is_counted_where_somebody_says_it()
    {
        await Home();
        var light = (await cli.Json("place", "show", "Closet", "--lux", "200")).GetProperty("exposure").GetProperty("light");
        Assert.Equal(146_000, Number(light, "luxHoursPerYear"));
        Assert.Equal(0, Number(light, "mostBlueClosedBox"));
        Assert.Contains("0 lx", await cli.Refused(1, "place", "show", "Closet", "--lux", "-1"), StringComparison.Ordinal);
    }

    private static double Number(JsonElement element, string name) => element.GetProperty(name).GetDouble();

    private static double Last(JsonElement forecast, string what, string quantile) => forecast.GetProperty(what).GetProperty(quantile).EnumerateArray().Last().GetDouble();

    private async Task<JsonElement> Forecast(string id) => (await cli.Json("forecast", id, "--years", "2", "--draws", "64")).GetProperty("packages")[0];

    private async Task Home()
    {
        await cli.Json("place", "add", "House");
        await cli.Json("place", "add", "Closet", "--inside", "House", "--room", "cupboard");
        await cli.Json("place", "add", "Cellar", "--inside", "House", "--room", "cellar");
        await cli.Json("place", "add", "Attic", "--inside", "House", "--room", "attic");
    }
}
