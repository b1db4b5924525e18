using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;
using Undercroft.Ledger.Sqlite;
using Undercroft.Physics.Quantities;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Places;

/// <summary>Readings of an invented logger, written beside the lines of a cellar that the command line made.</summary>
internal static class PlaceCli
{
    /// <summary>A year that ends on a day: mean and swings in °C, one reading an hour.</summary>
    internal static IEnumerable<Reading> Year(DateOnly end, int days, double mean, double swing, double daily, double humidity, Func<DateOnly, double>? more = null)
    {
        var last = new DateTimeOffset(end, TimeOnly.MinValue, TimeSpan.Zero).ToUnixTimeSeconds();
        for (var hour = -24L * days; hour <= 0; hour++)
        {
            var seconds = last + (3600 * hour);
            var day = seconds / 86400.0;
            var date = DateOnly.FromDateTime(DateTimeOffset.FromUnixTimeSeconds(seconds).UtcDateTime);
            var celsius = mean + (swing * Math.Cos(Math.Tau * (day - 200) / 365.25)) + (daily * Math.Cos(Math.Tau * (day - (15 / 24.0)))) + (more?.Invoke(date) ?? 0);
            yield return new(seconds, Temperature.FromCelsius(celsius), RelativeHumidity.FromPercent(humidity));
        }
    }

    internal static async Task Import(this Cli cli, string place, IEnumerable<Reading> readings, string? series = null)
    {
        using var cellars = SqliteCellars.Open(DataFolder.Existing(cli.Data));
        var now = new DateTimeOffset(2026, 5, 1, 12, 0, 0, TimeSpan.Zero);
        var change = await cellars.ImportAsync(
            cellar => new ReadingBatch(
                Guid.CreateVersion7(now), readings,
                taken => [CellarEvent.New(taken.Fact(new Fact.ReadingsImported(cellar.FindPlace(place).Id, "logger.csv", "9f86d081", series)), taken.Happened, now)],
                cellar.ReadingsOf(cellar.FindPlace(place).Id, series ?? "")),
            TestContext.Current.CancellationToken);
        Assert.NotEmpty(change.Events);
    }

    /// <summary>A weather file of nobody's town: 9 °C with 7 either way over the year and 4 over the day, 80 % humidity, a few hours missing.</summary>
    internal static string WeatherText(double mean = 9)
    {
        List<string> lines =
        [
            "LOCATION,Harrow Fell,Northmark,INV,Invented,999999,54.00,-2.00,0.0,310.0", "DESIGN CONDITIONS,0", "TYPICAL/EXTREME PERIODS,0", "GROUND TEMPERATURES,0",
            "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0", "COMMENTS 1,invented", "COMMENTS 2,no station of this name exists", "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31",
        ];
        for (var hour = 0; hour < 8760; hour++)
        {
            var at = new DateTime(2027, 1, 1, 0, 0, 0, DateTimeKind.Utc).AddHours(hour);
            var celsius = mean + (7 * Math.Cos(Math.Tau * ((hour / 24.0) - 200) / 365)) + (4 * Math.Cos(Math.Tau * (hour - 15) / 24.0));
            var (dry, humidity) = (hour % 997 == 0 ? "99.9" : celsius.ToString("0.0", System.Globalization.CultureInfo.InvariantCulture), hour % 991 == 0 ? "999" : "80");
            lines.Add(FormattableString.Invariant($"{1990 + (at.Month % 7)},{at.Month},{at.Day},{at.Hour + 1},60,?9?9,{dry},{celsius - 3.3:0.0},{humidity},97700"));
        }

        return string.Join("\r\n", lines) + "\r\n";
    }
}
