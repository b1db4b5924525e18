using System.IO.Compression;
using Microsoft.Data.Sqlite;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Backups;

public sealed class BackupCommandTests : IDisposable
{
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task A_backup_brought_back_has_the_same_digest_and_the_same_packages()
    {
        await Fill();
        var verified = await cli.Json("verify");
        Assert.Equal((4, 0), (verified.GetProperty("events").GetInt32(), verified.GetProperty("readings").GetInt32()));
        Assert.Empty(verified.GetProperty("problems").EnumerateArray());
        Assert.Equal(System.Text.Json.JsonValueKind.Null, verified.GetProperty("lastBackupDay").ValueKind);
        var made = await cli.Json("backup", "--out", "b.zip");
        Assert.Equal(verified.GetProperty("digest").GetString(), made.GetProperty("digest").GetString());
        Assert.Equal(Cli.Today, (await cli.Json("verify")).GetProperty("lastBackupDay").GetString());
        var restored = await cli.Json("restore", "b.zip", "--data", "again");
        Assert.Equal(verified.GetProperty("digest").GetString(), restored.GetProperty("digest").GetString());
        Assert.Equal(verified.GetProperty("digest").GetString(), (await cli.Json("verify", "--data", "again")).GetProperty("digest").GetString());
        Assert.Equal((await cli.Run("show")).Out, (await cli.Run("show", "--data", "again")).Out);
        using var zip = ZipFile.OpenRead(Path.Combine(cli.Work, "b.zip"));
        Assert.Contains("README.txt", zip.Entries.Select(entry => entry.FullName));
    }

    [Fact]
    public async Task A_backup_never_overwrites_and_is_never_restored_over_anything()
    {
        await Fill();
        await cli.Json("backup", "--out", "b.zip");
        var bytes = await File.ReadAllBytesAsync(Path.Combine(cli.Work, "b.zip"), TestContext.Current.CancellationToken);
        Assert.Contains("never overwrites", await cli.Refused(1, "backup", "--out", "b.zip"), StringComparison.Ordinal);
        Assert.Equal(bytes, await File.ReadAllBytesAsync(Path.Combine(cli.Work, "b.zip"), TestContext.Current.CancellationToken));
        Assert.Contains("is not empty", await cli.Refused(1, "restore", "b.zip"), StringComparison.Ordinal);
        Assert.Contains("There is no file", await cli.Refused(1, "restore", "c.zip", "--data", "again"), StringComparison.Ordinal);
        await File.WriteAllTextAsync(Path.Combine(cli.Work, "c.zip"), "no zip", TestContext.Current.CancellationToken);
        Assert.Contains("is not a backup", await cli.Refused(1, "restore", "c.zip", "--data", "again"), StringComparison.Ordinal);
        Assert.False(Directory.Exists(Path.Combine(cli.Work, "again")));
    }

    [Fact]
    public async Task Verify_prints_what_is_wrong_and_exits_1()
    {
        await Fill();
        await using (var connection = new SqliteConnection($"Data Source={Path.Combine(cli.Data, "ledger.sqlite")};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "DROP TRIGGER events_are_never_changed; UPDATE events SET line = replace(line, 'Evening', 'Morning') WHERE version = 2";
            command.ExecuteNonQuery();
        }

        var ran = await cli.Run("verify", "--json");
        Assert.Equal(1, ran.Exit);
        using var document = System.Text.Json.JsonDocument.Parse(ran.Out);
        Assert.Contains(document.RootElement.GetProperty("problems").EnumerateArray(), problem => problem.GetString()!.StartsWith("Line 2: it does not fit its digest", StringComparison.Ordinal));
        var told = await cli.Run("verify");
        Assert.Equal(1, told.Exit);
        Assert.StartsWith("One thing is wrong with this ledger.", told.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Verify_names_a_file_that_is_no_ledger()
    {
        Directory.CreateDirectory(cli.Data);
        await File.WriteAllTextAsync(Path.Combine(cli.Data, "ledger.sqlite"), new string('x', 5000), TestContext.Current.CancellationToken);
        var ran = await cli.Run("verify", "--json");
        Assert.Equal(1, ran.Exit);
        Assert.Contains("cannot be read through", ran.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_export_leaves_out_what_it_is_told_to()
    {
        await Fill();
        var whole = (await cli.Json("export", "--out", "whole")).GetProperty("files").EnumerateArray().Select(file => file.GetString()!).ToArray();
        Assert.Contains("events.jsonl", whole);
        Assert.Contains("Closet", Text("whole"), StringComparison.Ordinal);
        Assert.Contains("EUR", Text("whole"), StringComparison.Ordinal);
        var bare = (await cli.Json("export", "--out", "bare", "--redact", "prices,places")).GetProperty("files").EnumerateArray().Select(file => file.GetString()!).ToArray();
        Assert.DoesNotContain("events.jsonl", bare);
        Assert.Contains("Evening", Text("bare"), StringComparison.Ordinal);
        Assert.DoesNotContain("Closet", Text("bare"), StringComparison.Ordinal);
        Assert.DoesNotContain("EUR", Text("bare"), StringComparison.Ordinal);
        Assert.Contains("is not empty", await cli.Refused(1, "export", "--out", "bare"), StringComparison.Ordinal);
        Assert.Contains("'names' cannot be left out", await cli.Refused(2, "export", "--out", "other", "--redact", "prices,names"), StringComparison.Ordinal);
        await cli.Refused(2, "export", "--out", "other", "--redact", "");
        Assert.False(Directory.Exists(Path.Combine(cli.Work, "other")));

        string Text(string folder) => string.Concat(Directory.GetFiles(Path.Combine(cli.Work, folder), "*.csv").Select(File.ReadAllText));
    }

    private async Task Fill()
    {
        var id = await cli.Add("--blend", "Evening ribbon", "--net", "50g", "--place", "Closet", "--paid", "24EUR"); // place, lot, packages
        await cli.Json("weigh", id, "270g");
    }
}
