using System.Globalization;
using System.Text;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Sqlite;

namespace Undercroft.Ledger.Backups;

/// <summary>Readings of loggers as tables for people, in the units they use.</summary>
internal static class ReadingTables
{
    /// <summary>Which readings are in force, one row an import.</summary>
    internal static string Batches(Cellar cellar)
    {
        var csv = new CsvText("batch", "place", "series", "file", "file_sha256", "zone", "unit", "assumed", "readings", "first_utc", "last_utc", "sha256");
        foreach (var (_, fact) in cellar.Readings)
        {
            csv.Add(
                fact.Batch.ToString(), cellar.PathOf(fact.Place), fact.Series, fact.File, fact.FileSha256, fact.Zone, fact.Unit, fact.Assumed, fact.Count, Instant(fact.First), Instant(fact.Last), fact.Sha256);
        }

        return csv.ToString();
    }

    /// <summary>Checks of hygrometers, one row a point.</summary>
    internal static string Hygrometers(Cellar cellar)
    {
        var csv = new CsvText("place", "series", "happened", "salt", "true_humidity_pct", "shown_humidity_pct", "temperature_c", "gain", "offset_points", "text");
        foreach (var (entry, fact) in cellar.HygrometerChecks)
        {
            foreach (var point in fact.Points)
            {
                csv.Add(
                    cellar.PathOf(fact.Place), fact.Series, Tables.Date(entry.Happened), point.Salt, point.True.Percent, point.Shown.Percent, fact.Temperature?.Celsius, fact.Gain, fact.OffsetFraction * 100, fact.Text);
            }
        }

        return csv.ToString();
    }

    /// <summary>Writes one file for each place that has readings.</summary>
    /// <param name="cellar">Which readings.</param>
    /// <param name="table">Where they are.</param>
    /// <param name="folder">Made where there is something to write.</param>
    /// <returns>Names of the files in it.</returns>
    internal static IEnumerable<string> Write(Cellar cellar, ReadingTable table, string folder)
    {
        foreach (var place in cellar.Places.Keys)
        {
            var all = cellar.SeriesAt(place);
            if (all.Count == 0)
                continue;
            Directory.CreateDirectory(folder);
            var name = NameOf(cellar, place);
            using var writer = new StreamWriter(Path.Combine(folder, name), append: false, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true)) { NewLine = "\r\n" };
            writer.WriteLine("utc,series,temperature_c,humidity_pct,pressure_hpa,light_lx");
            foreach (var series in all)
            {
                var word = CsvText.Cell(series);
                foreach (var reading in table.Merged(cellar.ReadingsOf(place, series)))
                {
                    writer.WriteLine(string.Create(CultureInfo.InvariantCulture,
                        $"{Instant(reading.At)},{word},{Number(reading.Temperature?.Celsius)},{Number(reading.Humidity?.Percent)},{Number(reading.Pressure?.Pascals / 100)},{Number(reading.LightLux)}"));
                }
            }

            yield return name;
        }
    }

    /// <summary>The ID, which is unique, and the name, which is readable as far as a file name allows.</summary>
    private static string NameOf(Cellar cellar, PlaceId place)
    {
        var words = string.Concat((cellar.PathOf(place) ?? "").Select(letter => char.IsAsciiLetterOrDigit(letter) ? letter : '-')).Trim('-');
        while (words.Contains("--", StringComparison.Ordinal))
            words = words.Replace("--", "-", StringComparison.Ordinal);
        return $"{place}-{(words.Length > 60 ? words[..60] : words)}".TrimEnd('-') + ".csv";
    }

    private static string Number(double? value) => value is { } known ? Math.Round(known, 6).ToString("R", CultureInfo.InvariantCulture) : "";

    private static string Instant(DateTimeOffset at) => at.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
