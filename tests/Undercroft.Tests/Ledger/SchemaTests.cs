using System.Globalization;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Undercroft.Ledger.Sqlite;
using Undercroft.Tests.Ledger.Faults;
using Xunit;

namespace Undercroft.Tests.Ledger;

/// <summary>A file of every schema ever released is kept here as it was written then, and must open for ever.</summary>
public sealed class SchemaTests : IDisposable
{
    /// <summary>Schema, events, readings in force and digest of each stored file.</summary>
    private static readonly (int Schema, long Events, long Readings, string Digest)[] Stored =
    [
        (1, 13, 0, "42be7862d709054d2f4c4678fd5f8ecb1f6edccebb7c7bfdd33d5b6575587c52"),
    ];

    private readonly string root = Directory.CreateTempSubdirectory("undercroft-").FullName;

    public static TheoryData<int> Schemas => [.. Stored.Select(file => file.Schema)];

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(root, recursive: true);

    [Fact]
    public void Every_schema_before_the_present_one_has_a_stored_file() =>
        Assert.Superset(Enumerable.Range(1, LedgerFile.NewestSchema - 1).ToHashSet(), Stored.Select(file => file.Schema).ToHashSet());

    [Theory]
    [MemberData(nameof(Schemas))]
    public async Task A_stored_file_is_brought_forward_whole_and_goes_on(int schema)
    {
        var folder = Copy(schema);
        Assert.Equal(schema, Number(folder, "PRAGMA user_version"));
        IsWhole(folder, schema);
        Assert.Equal(LedgerFile.NewestSchema, Number(folder, "PRAGMA user_version"));
        IsWhole(folder, schema); // and again, with nothing left to do
        using var cellars = SqliteCellars.Open(folder);
        var cellar = await cellars.ReadAsync(cancellation: Stop);
        var events = cellar.Version;
        Assert.IsType<AppendResult.Written>(await cellars.AppendAsync(events, [Victim.Note(1, "goes on")], Stop));
        Assert.IsType<AppendResult.Written>(await cellars.AppendAsync(events + 1, Victim.Batch(cellar.Places.Keys.First(), 1, 10), Stop));
        var verified = Verification.Of(folder);
        Assert.Equal((events + 2, 0), (verified.Events, verified.Problems.Count));
    }

    [Theory]
    [MemberData(nameof(Schemas))]
    public void An_upgrade_that_fails_leaves_the_file_as_it_was(int schema)
    {
        if (schema == LedgerFile.NewestSchema)
            return;
        var folder = Copy(schema);
        using (var other = new SqliteConnection($"Data Source={folder.Ledger};Pooling=False"))
        {
            other.Open();
            using var command = other.CreateCommand();
            command.CommandText = "CREATE TABLE readings (in_the_way TEXT)"; // the second step stumbles over it after the first table was made
            command.ExecuteNonQuery();
        }

        Assert.ThrowsAny<Exception>(() => SqliteCellars.Open(folder).Dispose());
        Assert.Equal(schema, Number(folder, "PRAGMA user_version"));
        Assert.Equal(0, Number(folder, "SELECT count(*) FROM sqlite_schema WHERE name = 'reading_batches'"));
        Assert.Equal(Stored.Single(file => file.Schema == schema).Events, Number(folder, "SELECT count(*) FROM events"));
    }

    /// <summary>Opens a ledger that was begun as a copy of a stored file, and finds all of it.</summary>
    internal static void IsWhole(DataFolder folder, int schema = 1)
    {
        var stored = Stored.Single(file => file.Schema == schema);
        var verified = Verification.Of(folder);
        Assert.Empty(verified.Problems);
        Assert.Equal((stored.Events, stored.Readings, stored.Digest), (verified.Events, verified.Readings, verified.Digest));
    }

    private static long Number(DataFolder folder, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={folder.Ledger};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return Convert.ToInt64(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }

    private DataFolder Copy(int schema)
    {
        var folder = DataFolder.OrNew(Path.Combine(root, "data"));
        File.Copy(Victim.Fixture(schema), folder.Ledger);
        return folder;
    }
}
