using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Backups;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Sqlite;
using Xunit;

namespace Undercroft.Tests.Ledger;

public sealed class BackupTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 3, 1, 9, 0, 0, TimeSpan.Zero);
    private readonly string root = Directory.CreateTempSubdirectory("undercroft-").FullName;
    private readonly DataFolder folder;

    public BackupTests() => folder = DataFolder.OrNew(Path.Combine(root, "data"));

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private string Zip => Path.Combine(root, "cellar.zip");

    public void Dispose() => Directory.Delete(root, recursive: true);

    [Fact]
    public async Task A_sound_ledger_verifies_and_the_digest_follows_by_common_means()
    {
        await Fill();
        var verified = Verification.Of(folder);
        Assert.Empty(verified.Problems);
        Assert.Equal(5, verified.Events);

        var digest = "";
        foreach (var line in Column("line"))
            digest = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{digest}\n{line}\n")));
        Assert.Equal(digest, verified.Digest);
    }

    [Theory]
    [InlineData("UPDATE events SET line = replace(line, 'Evening', 'Morning') WHERE version = 3", "Line 3:")]
    [InlineData("UPDATE events SET type = 'noted/1' WHERE version = 2", "Line 2:")]
    [InlineData("DELETE FROM events WHERE version = 4", "stands at place 4")]
    [InlineData("UPDATE events SET line = 'x' WHERE version = 1", "Line 1:")]
    public async Task Tampering_is_found_and_named(string sql, string named)
    {
        await Fill();
        Sql("DROP TRIGGER events_are_never_changed");
        Sql("DROP TRIGGER events_are_never_removed");
        Sql(sql);
        Assert.Contains(Verification.Of(folder).Problems, problem => problem.Contains(named, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_flipped_bit_in_every_seventh_byte_of_a_line_is_found()
    {
        await Fill();
        Sql("PRAGMA wal_checkpoint(TRUNCATE)");
        var sound = await File.ReadAllBytesAsync(folder.Ledger, Stop);
        var line = Encoding.UTF8.GetBytes(Column("line")[2]);
        var at = sound.AsSpan().IndexOf(line);
        Assert.True(at > 0);
        for (var i = 0; i < line.Length; i += 7)
        {
            var broken = (byte[])sound.Clone();
            broken[at + i] ^= 0x01;
            await File.WriteAllBytesAsync(folder.Ledger, broken, Stop);
            Assert.NotEmpty(Verification.Of(folder).Problems);
        }
    }

    [Fact]
    public async Task A_file_cut_short_is_found_without_a_crash()
    {
        await Fill();
        Sql("PRAGMA wal_checkpoint(TRUNCATE)");
        var sound = await File.ReadAllBytesAsync(folder.Ledger, Stop);
        foreach (var length in new[] { 0, 100, 4096, sound.Length / 2, sound.Length - 4096 })
        {
            await File.WriteAllBytesAsync(folder.Ledger, sound[..length], Stop);
            Assert.NotEmpty(Verification.Of(folder).Problems);
        }
    }

    [Fact]
    public async Task A_restored_backup_has_the_same_digest_cellar_and_files()
    {
        await Fill();
        Directory.CreateDirectory(folder.Photos);
        await File.WriteAllTextAsync(Path.Combine(folder.Photos, "abc123"), "picture", Stop);
        await File.WriteAllTextAsync(Path.Combine(folder.Path, "access.sqlite"), "secret", Stop);
        Assert.Null(Backup.Last(folder));
        var made = Backup.Write(folder, Zip, Now);
        Assert.Equal(made, Backup.Last(folder));
        Assert.Equal((5, 1), (made.Events, made.Files));

        var back = Path.Combine(root, "back");
        Assert.Equal(made, Restoring.Into(back, Zip));
        var again = DataFolder.Existing(back);
        Assert.Equal(Verification.Of(folder).Digest, Verification.Of(again).Digest);
        Assert.Empty(Verification.Of(again).Problems);
        Assert.Equal("picture", await File.ReadAllTextAsync(Path.Combine(again.Photos, "abc123"), Stop));
        Assert.False(File.Exists(Path.Combine(back, "access.sqlite")));
        using var cellars = SqliteCellars.Open(again);
        Assert.Equal(3, (await cellars.ReadAsync(cancellation: Stop)).Packages.Count);
        Assert.Equal(["back", "cellar.zip", "data"], Directory.GetFileSystemEntries(root).Select(Path.GetFileName).Order());
    }

    [Fact]
    public async Task A_backup_is_made_while_the_ledger_is_open_and_written()
    {
        var home = new Household();
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        await cellars.AppendAsync(0, home.Events, Stop);
        var made = Backup.Write(folder, Zip, Now);
        await cellars.AppendAsync(4, [home.Next(new Fact.Noted("later"))], Stop);
        Assert.Equal(4, made.Events);
        Assert.Equal(5, Verification.Of(folder).Events);
    }

    [Fact]
    public async Task The_zip_can_be_read_by_a_person()
    {
        await Fill();
        Backup.Write(folder, Zip, Now);
        using var zip = await ZipFile.OpenReadAsync(Zip, Stop);
        Assert.Equal(
            ["README.txt", "ledger/event-schema.json", "ledger/events.jsonl", "manifest.json", "tables/history.csv", "tables/lots.csv", "tables/measurements.csv", "tables/packages.csv", "tables/places.csv"],
            zip.Entries.Select(entry => entry.FullName).Order(StringComparer.Ordinal));
        Assert.Contains(Verification.Of(folder).Digest, Text(zip, "README.txt"), StringComparison.Ordinal);
        Assert.Equal(Column("line"), Text(zip, "ledger/events.jsonl").Split('\n')[..^1]);
        Assert.Contains("Evening ribbon", Text(zip, "tables/packages.csv"), StringComparison.Ordinal);
        using var schema = JsonDocument.Parse(Text(zip, "ledger/event-schema.json"));
        var told = schema.RootElement.GetRawText();
        foreach (var name in FactNames.All)
            Assert.Contains(name, told, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_backup_never_overwrites_and_leaves_nothing_half_done()
    {
        await Fill();
        Backup.Write(folder, Zip, Now);
        Assert.Contains("never overwrites", Assert.Throws<Refusal>(() => Backup.Write(folder, Zip, Now)).Message, StringComparison.Ordinal);
        Assert.Throws<Refusal>(() => Backup.Write(folder, Path.Combine(root, "no", "such", "place.zip"), Now));
        Assert.Contains("is not empty", Assert.Throws<Refusal>(() => Restoring.Into(folder.Path, Zip)).Message, StringComparison.Ordinal);
        Assert.Equal(["cellar.zip", "data"], Directory.GetFileSystemEntries(root).Select(Path.GetFileName).Order());
    }

    [Theory]
    [InlineData("../outside.txt")]
    [InlineData("photos/../../outside.txt")]
    [InlineData("/etc/outside.txt")]
    [InlineData("photos\\..\\outside.txt")]
    [InlineData("photos/..")]
    [InlineData("photos/a:b")]
    [InlineData("run.sh")]
    public async Task A_zip_that_leads_out_of_the_folder_is_refused(string name)
    {
        await Fill();
        Backup.Write(folder, Zip, Now);
        using (var zip = ZipFile.Open(Zip, ZipArchiveMode.Update))
            zip.CreateEntry(name);
        var refused = Assert.Throws<Refusal>(() => Restoring.Into(Path.Combine(root, "back"), Zip));
        Assert.Contains("which a backup never does", refused.Message, StringComparison.Ordinal);
        Assert.Equal(["cellar.zip", "data"], Directory.GetFileSystemEntries(root).Select(Path.GetFileName).Order());
    }

    [Theory]
    [InlineData("Evening", "Morning", "do not add up")]
    [InlineData("lot-added/1", "lot-eaten/1", "lot-eaten/1")]
    [InlineData("\"version\":3", "\"version\":7", "stands at place")]
    public async Task A_changed_backup_is_refused(string from, string to, string reason)
    {
        await Fill();
        Backup.Write(folder, Zip, Now);
        using (var zip = ZipFile.Open(Zip, ZipArchiveMode.Update))
        {
            var text = Text(zip, "ledger/events.jsonl").Replace(from, to, StringComparison.Ordinal);
            zip.GetEntry("ledger/events.jsonl")!.Delete();
            await using var stream = await zip.CreateEntry("ledger/events.jsonl").OpenAsync(Stop);
            await stream.WriteAsync(Encoding.UTF8.GetBytes(text), Stop);
        }

        Assert.Contains(reason, Assert.Throws<Refusal>(() => Restoring.Into(Path.Combine(root, "back"), Zip)).Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Path.Combine(root, "back")));
    }

    [Fact]
    public async Task What_is_no_backup_is_refused()
    {
        var into = Path.Combine(root, "back");
        Assert.Contains("There is no file", Assert.Throws<Refusal>(() => Restoring.Into(into, Zip)).Message, StringComparison.Ordinal);
        await File.WriteAllTextAsync(Zip, "a letter", Stop);
        Assert.Contains("it is no zip", Assert.Throws<Refusal>(() => Restoring.Into(into, Zip)).Message, StringComparison.Ordinal);
        File.Delete(Zip);
        using (var zip = ZipFile.Open(Zip, ZipArchiveMode.Create))
            zip.CreateEntry("README.txt");
        Assert.Contains("its manifest or its events are missing", Assert.Throws<Refusal>(() => Restoring.Into(into, Zip)).Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(into));
    }

    [Fact]
    public async Task An_export_is_plain_files_and_a_redacted_one_holds_tables_alone()
    {
        await Fill();
        Directory.CreateDirectory(folder.Imports);
        await File.WriteAllTextAsync(Path.Combine(folder.Imports, "stock.csv"), "a,b", Stop);
        var plain = Path.Combine(root, "plain");
        Assert.Equal(
            ["event-schema.json", "events.jsonl", "history.csv", "imports/stock.csv", "lots.csv", "measurements.csv", "packages.csv", "places.csv"],
            Export.Into(folder, plain).Order(StringComparer.Ordinal));
        Assert.Equal(Column("line"), await File.ReadAllLinesAsync(Path.Combine(plain, "events.jsonl"), Stop));
        Assert.Equal(["lots.csv", "measurements.csv", "packages.csv"], Export.Into(folder, Path.Combine(root, "shared"), new Redaction(true, true)).Order(StringComparer.Ordinal));
        Assert.Contains("is not empty", Assert.Throws<Refusal>(() => Export.Into(folder, plain)).Message, StringComparison.Ordinal);
        Assert.Equal(["data", "plain", "shared"], Directory.GetFileSystemEntries(root).Select(Path.GetFileName).Order());
    }

    [Fact]
    public void Tables_neutralise_formulas_and_leave_out_what_was_asked()
    {
        var home = new Household();
        var ids = home.Cellar.NextIds(1);
        home.Add(new Fact.LotAdded(new LotId(ids[0]), new Blend("=HYPERLINK(\"http://x\")", Cut: "+1", Casing: "a, \"b\""), Paid: Money.Parse("12.50 EUR")));
        var lots = Tables.Of(home.Cellar)["lots.csv"].Split("\r\n");
        Assert.Equal($"{ids[0]},\"'=HYPERLINK(\"\"http://x\"\")\",,'+1,\"a, \"\"b\"\"\",,,,,12.50,12.50,EUR,,", lots[2]);

        var redacted = Tables.Of(home.Cellar, new Redaction(Prices: true, Places: true));
        Assert.Equal(["lots.csv", "measurements.csv", "packages.csv"], redacted.Keys.Order());
        Assert.DoesNotContain("12.50", string.Concat(redacted.Values), StringComparison.Ordinal);
        Assert.DoesNotContain("EUR", string.Concat(redacted.Values), StringComparison.Ordinal);
        Assert.DoesNotContain("Cupboard", string.Concat(redacted.Values), StringComparison.Ordinal);
        Assert.Contains("Cupboard", string.Concat(Tables.Of(home.Cellar).Values), StringComparison.Ordinal);
    }

    private async Task Fill()
    {
        var home = new Household();
        home.Add(new Fact.PackagesAdded(home.Ribbon, [new PackageId(home.Cellar.NextIds(1)[0])], Container.Unknown));
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        Assert.IsType<AppendResult.Written>(await cellars.AppendAsync(0, home.Events, Stop));
    }

    private static string Text(ZipArchive zip, string name)
    {
        using var reader = new StreamReader(zip.GetEntry(name)!.Open());
        return reader.ReadToEnd();
    }

    private List<string> Column(string column)
    {
        using var connection = Connection();
        using var command = connection.CreateCommand();
        command.CommandText = $"SELECT {column} FROM events ORDER BY version";
        using var reader = command.ExecuteReader();
        List<string> all = [];
        while (reader.Read())
            all.Add(reader.GetString(0));
        return all;
    }

    private void Sql(string sql)
    {
        using var connection = Connection();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private SqliteConnection Connection()
    {
        var connection = new SqliteConnection($"Data Source={folder.Ledger};Pooling=False");
        connection.Open();
        return connection;
    }
}
