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
        (2, 16, 474, "cf7bfa1d6069383fd58a26adc54f299bf20af0e93d2bdb1499a3510498fe85bf"),
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
    [InlineData(1, "CREATE TABLE readings (in_the_way TEXT)", "reading_batches")] // the second step stumbles over it after the first table was made
    [InlineData(2, "CREATE TRIGGER pieces_are_never_removed BEFORE UPDATE ON marks BEGIN SELECT 1; END", "reading_pieces")] // the third does once all is packed
    public void An_upgrade_that_fails_leaves_the_file_as_it_was(int schema, string inTheWay, string made)
    {
        var folder = Copy(schema);
        using (var other = new SqliteConnection($"Data Source={folder.Ledger};Pooling=False"))
        {
            other.Open();
            using var command = other.CreateCommand();
            command.CommandText = inTheWay;
            command.ExecuteNonQuery();
        }

        Assert.ThrowsAny<Exception>(() => SqliteCellars.Open(folder).Dispose());
        Assert.Equal(schema, Number(folder, "PRAGMA user_version"));
        Assert.Equal(0, Number(folder, $"SELECT count(*) FROM sqlite_schema WHERE name = '{made}'"));
        Assert.Equal(Stored.Single(file => file.Schema == schema).Events, Number(folder, "SELECT count(*) FROM events"));
        if (schema == 2)
            Assert.Equal(499, Number(folder, "SELECT count(*) FROM readings"));
    }

    [Fact]
    public void A_file_with_a_schema_that_no_number_has_is_damaged()
    {
        var folder = Copy(2);
        using (var other = new SqliteConnection($"Data Source={folder.Ledger};Pooling=False"))
        {
            other.Open();
            using var command = other.CreateCommand();
            command.CommandText = "PRAGMA user_version = -2147483646";
            command.ExecuteNonQuery();
        }

        Assert.Contains("is damaged", Assert.Throws<Refusal>(() => SqliteCellars.Open(folder).Dispose()).Message, StringComparison.Ordinal);
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
