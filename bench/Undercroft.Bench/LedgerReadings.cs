using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Readings;
using Undercroft.Ledger.Sqlite;
using Undercroft.Physics.Quantities;

namespace Undercroft.Bench;

/// <summary>How long it takes to keep a logger file for good and to read it back.</summary>
internal static class LedgerReadings
{
    private static readonly DateTimeOffset Now = new(2026, 11, 1, 12, 0, 0, TimeSpan.Zero);

    internal static async Task<(LedgerTiming Import, LedgerTiming Bare, LedgerTiming Back)> Import(string root, int readings)
    {
        var folder = DataFolder.OrNew(Path.Combine(root, Guid.NewGuid().ToString("N")));
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        var place = new PlaceId(ShortId.From(0).First());
        await cellars.AppendAsync(0, [CellarEvent.New(new Fact.PlaceAdded(place, "Cellar"), UnevenDate.Unknown, Now)]);
        Reading[] rows = [.. Minutes(readings)];
        var import = await LedgerTiming.Of(async () => await cellars.ImportAsync(_ => new ReadingBatch(
            Guid.NewGuid(), rows, taken => [CellarEvent.New(taken.Fact(new Fact.ReadingsImported(place, "logger.csv", "00")), taken.Happened, Now)])));
        var span = (await cellars.ReadAsync()).ReadingsOf(place);
        var back = await LedgerTiming.Of(async () => await cellars.AllReadingsAsync(span));
        return (import, await Bare(root, rows), back);
    }

    /// <summary>The same rows into the same table by one prepared statement in one transaction.</summary>
    private static async Task<LedgerTiming> Bare(string root, Reading[] rows)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(root, Guid.NewGuid().ToString("N") + ".sqlite")};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = """
            PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;
            CREATE TABLE readings (batch INTEGER NOT NULL, utc INTEGER NOT NULL, temperature_k REAL, humidity_fraction REAL, pressure_pa REAL, light_lux REAL, PRIMARY KEY (batch, utc)) WITHOUT ROWID
            """;
        command.ExecuteNonQuery();
        return await LedgerTiming.Of(() =>
        {
            using var transaction = connection.BeginTransaction();
            using var insert = connection.CreateCommand();
            insert.Transaction = transaction;
            insert.CommandText = "INSERT INTO readings VALUES (1, $utc, $kelvin, $humidity, NULL, NULL)";
            var utc = insert.Parameters.Add("$utc", SqliteType.Integer);
            var kelvin = insert.Parameters.Add("$kelvin", SqliteType.Real);
            var humidity = insert.Parameters.Add("$humidity", SqliteType.Real);
            insert.Prepare();
            foreach (var row in rows)
            {
                utc.Value = row.UtcSeconds;
                kelvin.Value = row.Kelvin;
                humidity.Value = row.HumidityFraction;
                insert.ExecuteNonQuery();
            }

            transaction.Commit();
            return Task.CompletedTask;
        });
    }

    private static IEnumerable<Reading> Minutes(int count)
    {
        for (var i = 0; i < count; i++)
            yield return new Reading(1_600_000_000 + (60L * i), Temperature.FromCelsius(Math.Round(16 + (4 * Math.Sin(i / 83_000d)), 2)), RelativeHumidity.FromPercent(Math.Round(60 + (8 * Math.Cos(i / 1_400d)), 1)));
    }
}

/// <summary>What something cost.</summary>
internal readonly record struct LedgerTiming(double WallMs, double CpuMs, double PeakMb)
{
    internal static async Task<LedgerTiming> Of(Func<Task> act)
    {
        var before = Process.GetCurrentProcess().TotalProcessorTime;
        var watch = Stopwatch.StartNew();
        await act();
        watch.Stop();
        var process = Process.GetCurrentProcess();
        return new(watch.Elapsed.TotalMilliseconds, (process.TotalProcessorTime - before).TotalMilliseconds, process.PeakWorkingSet64 / 1e6);
    }

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{WallMs:0} ms wall, {CpuMs:0} ms CPU, peak {PeakMb:0} MB");
}
