using System.IO.Compression;
using System.Security.Cryptography;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;
using Undercroft.Ledger.Sqlite;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Ledger;

/// <summary>Readings in verify, backup, restore and export.</summary>
public sealed class ReadingKeepingTests : IDisposable
{
    private static readonly DateTimeOffset Start = new(2021, 1, 1, 0, 0, 0, TimeSpan.Zero);
    private readonly string root = Directory.CreateTempSubdirectory("undercroft-").FullName;
    private readonly Household home = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private DataFolder Folder => DataFolder.OrNew(Path.Combine(root, "data"));

    public void Dispose() => Directory.Delete(root, recursive: true);

    [Fact]
    public async Task Verify_counts_what_is_in_force_once()
    {
        using var cellars = await Begun();
        await Import(cellars, 1, Quarters(0, 100));
        var second = await Import(cellars, 2, Quarters(50, 100));
        Assert.Equal((150L, 6L), (Sound().Readings, Sound().Events));
        await cellars.ChangeAsync(cellar => [Rules.Undo(cellar, second.Events[0].Id, Start)], Stop);
        Assert.Equal(100, Sound().Readings);
    }

    [Theory]
    [InlineData("DROP TRIGGER pieces_are_never_changed; UPDATE reading_pieces SET packed = CAST(substr(packed, 1, length(packed) - 1) || x'40' AS BLOB)", "Line 5: the readings of logger.csv do not fit their digest")]
    [InlineData("DROP TRIGGER pieces_are_never_changed; UPDATE reading_pieces SET packed = substr(packed, 1, length(packed) - 1)", "Line 5: the readings of logger.csv cannot be read through: a piece of the readings is damaged")]
    [InlineData("DROP TRIGGER pieces_are_never_changed; UPDATE reading_pieces SET count = 99", "Line 5: the readings of logger.csv cannot be read through: a piece of the readings is damaged")]
    [InlineData("DROP TRIGGER pieces_are_never_removed; DELETE FROM reading_pieces", "Line 5: the readings of logger.csv are 0, not 100")]
    [InlineData("DROP TRIGGER batches_are_never_removed; DELETE FROM reading_batches", "Line 5: the readings of logger.csv are missing")]
    [InlineData("INSERT INTO reading_batches VALUES (77, 'cellar', '0198c0de-0000-7000-8000-000000000001')", "No line tells of the readings of batch 0198c0de")]
    [InlineData("INSERT INTO reading_pieces VALUES (1, 1, 1, 1, x'01000000000000207240010000000000000000000100000000000000000001000000000000000000')", "are 101, not 100")]
    public async Task Verify_names_readings_that_were_touched(string sql, string named)
    {
        using (var cellars = await Begun())
            await Import(cellars, 1, Quarters(0, 100));
        Assert.Empty(Verification.Of(Folder).Problems);
        Sql(sql);
        Assert.Contains(Verification.Of(Folder).Problems, problem => problem.Contains(named, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("UPDATE reading_pieces SET packed = x''")]
    [InlineData("DELETE FROM reading_pieces")]
    [InlineData("DELETE FROM reading_batches")]
    [InlineData("UPDATE reading_batches SET id = 'x'")]
    public async Task Not_even_plain_sql_changes_a_reading(string sql)
    {
        using (var cellars = await Begun())
            await Import(cellars, 1, Quarters(0, 3));
        Assert.Contains("are never", Assert.Throws<SqliteException>(() => Sql(sql)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_backup_brings_readings_back_and_common_tools_can_check_them()
    {
        var zip = Path.Combine(root, "cellar.zip");
        using (var cellars = await Begun())
        {
            var first = await Import(cellars, 1, Quarters(0, 100));
            await Import(cellars, 2, Quarters(50, 100));
            await cellars.ChangeAsync(cellar => [Rules.Undo(cellar, first.Events[0].Id, Start)], Stop);
            Assert.Equal(200, Backup.Write(Folder, zip, Start).Readings);
            var told = (Fact.ReadingsImported)first.Events[0].Fact;
            using var archive = ZipFile.OpenRead(zip);
            using var stream = archive.GetEntry($"readings/{told.Batch}.csv")!.Open();
            Assert.Equal(told.Sha256, Convert.ToHexStringLower(await SHA256.HashDataAsync(stream, Stop)));
        }

        var back = Path.Combine(root, "back");
        Assert.Equal(200, Restoring.Into(back, zip).Readings);
        var (was, now) = (Sound(), Verification.Of(DataFolder.Existing(back)));
        Assert.Equal((was.Digest, was.Readings, 0), (now.Digest, now.Readings, now.Problems.Count));
        Assert.Equal(100, now.Readings);
        using var again = SqliteCellars.Open(DataFolder.Existing(back));
        Assert.Equal(Quarters(50, 100), await again.AllReadingsAsync((await again.ReadAsync(cancellation: Stop)).ReadingsOf(home.Cupboard), Stop));
    }

    [Theory]
    [InlineData("missing", "are missing")]
    [InlineData("changed", "do not add up")]
    [InlineData("stray", "no line of the ledger tells of")]
    [InlineData("garbage", "readings")]
    public async Task A_backup_whose_readings_were_touched_is_refused(string how, string named)
    {
        var zip = Path.Combine(root, "cellar.zip");
        using (var cellars = await Begun())
        {
            await Import(cellars, 1, Quarters(0, 100));
            Backup.Write(Folder, zip, Start);
        }

        using (var archive = ZipFile.Open(zip, ZipArchiveMode.Update))
        {
            var entry = archive.Entries.Single(one => one.FullName.StartsWith("readings/", StringComparison.Ordinal));
            string name = entry.FullName, text;
            using (var reader = new StreamReader(entry.Open()))
                text = await reader.ReadToEndAsync(Stop);
            if (how is not "stray")
                entry.Delete();
            if (how is not "missing")
            {
                await using var writer = new StreamWriter(archive.CreateEntry(how == "stray" ? "readings/0198c0de-0000-7000-8000-000000000001.csv" : name).Open());
                await writer.WriteAsync(how switch { "changed" => text.Replace("290.15", "290.25", StringComparison.Ordinal), "stray" => text, _ => "utc\n\0\0" });
            }
        }

        var into = Path.Combine(root, "back");
        Assert.Contains(named, Assert.Throws<Refusal>(() => Restoring.Into(into, zip)).Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(into));
    }

    [Fact]
    public async Task An_export_gives_readings_in_the_units_people_use_and_keeps_places_to_itself_where_asked()
    {
        using var cellars = await Begun();
        await Import(cellars, 1, Quarters(0, 2));
        await Import(cellars, 2, [new Reading(Start.ToUnixTimeSeconds() + 1, null, null, new Pressure(99950), 12)], "=door");
        var files = Export.Into(Folder, Path.Combine(root, "out"));
        var file = Assert.Single(files, name => name.StartsWith("readings/", StringComparison.Ordinal));
        Assert.Equal($"readings/{home.Cupboard}-Cupboard.csv", file);
        Assert.Equal(
            ["utc,series,temperature_c,humidity_pct,pressure_hpa,light_lx", "2021-01-01T00:00:00Z,,17,55,,", "2021-01-01T00:15:00Z,,17.1,56,,", "2021-01-01T00:00:01Z,'=door,,,999.5,12"],
            await File.ReadAllLinesAsync(Path.Combine(root, "out", file), Stop));
        Assert.Contains("logger.csv", await File.ReadAllTextAsync(Path.Combine(root, "out", "readings.csv"), Stop), StringComparison.Ordinal);

        var less = Export.Into(Folder, Path.Combine(root, "less"), new Redaction(Places: true));
        Assert.DoesNotContain(less, name => name.Contains("readings", StringComparison.Ordinal));
        Assert.Contains(Export.Into(Folder, Path.Combine(root, "prices"), new Redaction(Prices: true)), name => name == file);
    }

    [Fact]
    public async Task A_place_with_readings_cannot_be_undone_before_them()
    {
        using var cellars = await Begun();
        await Import(cellars, 1, Quarters(0, 2));
        var cellar = await cellars.ReadAsync(cancellation: Stop);
        Assert.Contains("line 5 (readings imported)", Assert.Throws<Refusal>(() => Rules.Undo(cellar, home.AddCupboard.Id, Start)).Message, StringComparison.Ordinal);
        var told = (Fact.ReadingsImported)cellar.Lines[4].Fact;
        var shrunk = Household.New(99, new Fact.EventCorrected(cellar.Lines[4].Event.Id, told with { Count = 1 }));
        Assert.Contains("cannot change the readings", Assert.Throws<Refusal>(() => Rules.Check(cellar, [shrunk])).Message, StringComparison.Ordinal);
        Rules.Check(cellar, [Household.New(99, new Fact.EventCorrected(cellar.Lines[4].Event.Id, told with { Place = home.Loft }))]);
    }

    [Fact]
    public void Lines_of_readings_read_back_and_nothing_else_is_read()
    {
        Reading[] readings = [.. Quarters(0, 5), new(Reading.Earliest + 1_000_000_000, null, new RelativeHumidity(0.1 + 0.2)), new(Reading.Latest, new Temperature(1e-300), null, new Pressure(1e300), 5e-324)];
        var text = new MemoryStream();
        ReadingLines.Write(text, readings);
        text.Position = 0;
        Assert.Equal(readings, ReadingLines.Read(text));
        foreach (var line in new[] { "", "x", "2021-01-01T00:00:00Z,290,0.5,", "2021-01-01T00:00:00Z,290,0.5,,,", "2021-01-01T00:00:00Z,,,,", "2021-01-01T00:00:00Z,NaN,,,", "2021-01-01T00:00:00Z,290,55,,", "2021-01-01 00:00:00,290,,,", "1821-01-01T00:00:00Z,290,,," })
            Assert.Throws<InvalidDataException>(() => ReadingLines.Read(new MemoryStream(System.Text.Encoding.UTF8.GetBytes(ReadingLines.Header + "\n" + line + "\n"))).ToArray());
    }

    [Fact]
    public void Impossible_readings_cannot_be_made()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new Reading(0, null));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Reading(Reading.Earliest - 1, new Temperature(290)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Reading(0, new Temperature(double.NaN)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Reading(0, new Temperature(0)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Reading(0, null, new RelativeHumidity(55)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Reading(0, null, null, new Pressure(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Reading(0, null, null, null, double.PositiveInfinity));
    }

    private static Reading[] Quarters(int from, int count) =>
        [.. Enumerable.Range(from, count).Select(i => new Reading(Start.ToUnixTimeSeconds() + (900L * i), new Temperature(290.15 + (i % 20 / 10d)), new RelativeHumidity((55 + (i % 5)) / 100d)))];

    private Verified Sound()
    {
        var found = Verification.Of(Folder);
        Assert.Empty(found.Problems);
        return found;
    }

    private ValueTask<Change> Import(SqliteCellars cellars, int number, IEnumerable<Reading> readings, string? series = null) => cellars.ImportAsync(
        cellar => new ReadingBatch(
            new Guid(number, 0, 0, [9, 9, 9, 9, 9, 9, 9, 9]),
            readings,
            taken => [Household.New(1000 + number, taken.Fact(new Fact.ReadingsImported(home.Cupboard, "logger.csv", "9f86d081", series))) with { Happened = taken.Happened }],
            cellar.ReadingsOf(home.Cupboard, series ?? "")),
        Stop);

    private async Task<SqliteCellars> Begun()
    {
        var cellars = SqliteCellars.OpenOrCreate(Folder);
        await cellars.AppendAsync(0, home.Events, Stop);
        return cellars;
    }

    private void Sql(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Folder.Ledger};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
