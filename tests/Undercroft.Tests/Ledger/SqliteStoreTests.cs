using Microsoft.Data.Sqlite;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Sqlite;
using Xunit;

namespace Undercroft.Tests.Ledger;

public sealed class SqliteStoreTests : StoreContract, IDisposable
{
    private readonly string folder = Path.Combine(Path.GetTempPath(), "undercroft-" + Guid.NewGuid().ToString("N"));
    private readonly List<SqliteCellars> opened = [];

    protected override ICellars Open()
    {
        var cellars = SqliteCellars.OpenOrCreate(DataFolder.OrNew(folder));
        lock (opened)
            opened.Add(cellars);
        return cellars;
    }

    public void Dispose()
    {
        opened.ForEach(cellars => cellars.Dispose());
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void Reading_a_folder_that_does_not_exist_is_refused_and_creates_nothing()
    {
        Assert.Contains("does not exist", Assert.Throws<Refusal>(() => DataFolder.Existing(folder)).Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder));
    }

    [Fact]
    public void A_folder_or_file_that_is_no_cellar_is_refused_and_left_alone()
    {
        Directory.CreateDirectory(folder);
        Assert.Contains("no ledger.sqlite", Assert.Throws<Refusal>(() => DataFolder.Existing(folder)).Message, StringComparison.Ordinal);
        File.WriteAllText(Path.Combine(folder, "holiday.txt"), "beach");
        Assert.Contains("holds other things", Assert.Throws<Refusal>(() => DataFolder.OrNew(folder)).Message, StringComparison.Ordinal);
        Assert.Contains("is a file", Assert.Throws<Refusal>(() => DataFolder.OrNew(Path.Combine(folder, "holiday.txt"))).Message, StringComparison.Ordinal);
        Assert.Equal(["holiday.txt"], Directory.GetFileSystemEntries(folder).Select(Path.GetFileName));

        var ledger = Path.Combine(folder, "ledger.sqlite");
        File.WriteAllText(ledger, "this is a diary and no database, however long it goes on and on and on ...");
        Assert.Contains("is not a cellar", Assert.Throws<Refusal>(() => SqliteCellars.Open(DataFolder.Existing(folder))).Message, StringComparison.Ordinal);
        File.Delete(ledger);
        Sql(ledger, "CREATE TABLE recipes (name TEXT)");
        Assert.Contains("another program made this file", Assert.Throws<Refusal>(() => SqliteCellars.OpenOrCreate(DataFolder.Existing(folder))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_older_program_refuses_a_newer_file()
    {
        var home = new Household();
        await Open().AppendAsync(0, home.Events, TestContext.Current.CancellationToken);
        Sql(Path.Combine(folder, "ledger.sqlite"), "PRAGMA user_version = 99");
        Assert.Contains("written by a newer Undercroft (schema 99", Assert.Throws<Refusal>(() => SqliteCellars.Open(DataFolder.Existing(folder))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_folder_is_for_its_owner_alone_and_the_file_writes_through()
    {
        Open();
        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(folder));
        Assert.Equal("wal", Sql(Path.Combine(folder, "ledger.sqlite"), "PRAGMA journal_mode"));
    }

    [Fact]
    public async Task Not_even_plain_sql_changes_an_event()
    {
        var home = new Household();
        await Open().AppendAsync(0, home.Events, TestContext.Current.CancellationToken);
        var ledger = Path.Combine(folder, "ledger.sqlite");
        Assert.Contains("never changed", Assert.Throws<SqliteException>(() => Sql(ledger, "UPDATE events SET line = '' WHERE version = 1")).Message, StringComparison.Ordinal);
        Assert.Contains("never removed", Assert.Throws<SqliteException>(() => Sql(ledger, "DELETE FROM events")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Several_ledgers_in_one_file_do_not_meet()
    {
        var home = new Household();
        await Open().AppendAsync(0, home.Events, TestContext.Current.CancellationToken);
        using var other = SqliteCellars.OpenOrCreate(DataFolder.OrNew(folder), "another");
        Assert.Equal(0, (await other.ReadAsync(cancellation: TestContext.Current.CancellationToken)).Version);
        Assert.IsType<AppendResult.Written>(await other.AppendAsync(0, [home.Events[0] with { Version = 0 }], TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task An_event_of_a_later_program_is_refused_in_words()
    {
        var home = new Household();
        await Open().AppendAsync(0, home.Events, TestContext.Current.CancellationToken);
        Sql(Path.Combine(folder, "ledger.sqlite"), """
            INSERT INTO events (cellar, version, id, type, line, digest)
            VALUES ('cellar', 5, 'x', 'package-smelled/1', '{"version":5,"id":"0198c0de-0000-7000-8000-000000000001","happened":null,"recorded":"2040-05-01T12:00:00+00:00","fact":{"type":"package-smelled/1"}}', '')
            """);
        var refused = await Assert.ThrowsAsync<Refusal>(async () => await Open().ReadAsync(cancellation: TestContext.Current.CancellationToken));
        Assert.Contains("package-smelled/1", refused.Message, StringComparison.Ordinal);
        Assert.Contains("update this program", refused.Message, StringComparison.Ordinal);
    }

    private static string? Sql(string file, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar()?.ToString();
    }
}
