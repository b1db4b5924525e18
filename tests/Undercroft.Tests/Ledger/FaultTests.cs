using CsCheck;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Sqlite;
using Xunit;

namespace Undercroft.Tests.Ledger;

/// <summary>What is left when a program stops in the middle, and what happens to bytes that nobody wrote.</summary>
public sealed class FaultTests : IDisposable
{
    private readonly string root = Directory.CreateTempSubdirectory("undercroft-").FullName;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(root, recursive: true);

    [Fact]
    public async Task A_program_that_stops_within_an_append_leaves_every_acknowledged_event_and_nothing_of_the_rest()
    {
        var folder = DataFolder.OrNew(Path.Combine(root, "data"));
        var home = new Household();
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        await cellars.AppendAsync(0, home.Events, Stop);

        using var writer = new SqliteConnection($"Data Source={folder.Ledger};Pooling=False");
        writer.Open();
        using var small = writer.CreateCommand();
        small.CommandText = "PRAGMA cache_size = 5"; // so that the half-done append reaches the disk
        small.ExecuteNonQuery();
        using var transaction = writer.BeginTransaction(deferred: false);
        for (var i = 0; i < 200; i++)
        {
            using var insert = writer.CreateCommand();
            insert.Transaction = transaction;
            insert.CommandText = "INSERT INTO events (cellar, version, id, type, line, digest) VALUES ('cellar', $version, $version, 'noted/1', printf('%2000c', 'x'), '')";
            insert.Parameters.AddWithValue("$version", 5 + i);
            insert.ExecuteNonQuery();
        }

        Assert.True(new FileInfo(folder.Ledger + "-wal").Length > 200 * 2000);

        // What the disk holds at this moment is what a killed program would leave.
        var left = Copy(folder.Path, "left");
        var verified = Verification.Of(left);
        Assert.Empty(verified.Problems);
        Assert.Equal(4, verified.Events);
        using var again = SqliteCellars.Open(left);
        Assert.IsType<AppendResult.Written>(await again.AppendAsync(4, [home.Next(new Fact.Noted("goes on"))], Stop));
    }

    [Fact]
    public async Task A_log_cut_anywhere_leaves_a_sound_beginning_of_the_ledger()
    {
        var folder = DataFolder.OrNew(Path.Combine(root, "data"));
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        var home = new Household();
        await cellars.AppendAsync(0, home.Events, Stop);
        for (var i = 0; i < 20; i++)
            await cellars.AppendAsync(4 + i, [Household.New(100 + i, new Fact.Noted("note " + i))], Stop);
        var log = await File.ReadAllBytesAsync(folder.Ledger + "-wal", Stop);
        Assert.True(log.Length > 20 * 4096);

        var random = new Random(20260301);
        var most = 0L;
        for (var i = 0; i < 25; i++)
        {
            var left = Copy(folder.Path, FormattableString.Invariant($"cut{i}"));
            await File.WriteAllBytesAsync(left.Ledger + "-wal", log[..random.Next(log.Length)], Stop);
            var verified = Verification.Of(left);
            most = Math.Max(most, verified.Events);
            Assert.InRange(verified.Events, 0, 24);
            if (verified.Events > 0) // else cut before the file was begun, which is told as a problem
                Assert.Empty(verified.Problems);
        }

        Assert.True(most > 4);
    }

    [Fact]
    public async Task The_clock_set_back_changes_no_order()
    {
        var folder = DataFolder.OrNew(Path.Combine(root, "data"));
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        var home = new Household();
        await cellars.AppendAsync(0, home.Events, Stop);
        var back = home.Next(new Fact.Noted("after")) with { Recorded = home.AddCupboard.Recorded.AddYears(-3) };
        Assert.IsType<AppendResult.Written>(await cellars.AppendAsync(4, [back], Stop));
        Assert.Equal("after", ((Fact.Noted)(await cellars.EventsAsync(4, Stop)).Single().Fact).Text);
        Assert.Empty(Verification.Of(folder).Problems);
    }

    [Fact]
    public void Lines_with_any_bytes_changed_are_read_or_refused_and_nothing_else()
    {
        var stored = File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Ledger", "events.jsonl"));
        Gen.Select(Gen.Int[0, stored.Length - 1], Gen.Int[0, 10_000], Gen.Char, Gen.Int[0, 2]).Sample(
            (which, where, letter, how) =>
            {
                var line = stored[which];
                var at = where % line.Length;
                var changed = how switch
                {
                    0 => line[..at] + letter + line[(at + 1)..],
                    1 => line[..at] + line[(at + 1)..],
                    _ => line[..at] + letter + line[at..],
                };
                try
                {
                    var read = EventLine.Read(changed);
                    Assert.Equal(EventLine.Write(read), EventLine.Write(EventLine.Read(EventLine.Write(read))));
                }
                catch (InvalidDataException)
                {
                }
            },
            seed: Gens.Seed,
            iter: 20_000);
    }

    [Fact]
    public async Task A_backup_with_any_byte_changed_is_restored_the_same_or_refused()
    {
        var folder = DataFolder.OrNew(Path.Combine(root, "data"));
        var home = new Household();
        using (var cellars = SqliteCellars.OpenOrCreate(folder))
            await cellars.AppendAsync(0, home.Events, Stop);
        var zip = Path.Combine(root, "cellar.zip");
        var made = Backup.Write(folder, zip, home.AddJars.Recorded);
        var sound = await File.ReadAllBytesAsync(zip, Stop);
        var random = new Random(20260302);
        for (var i = 0; i < 100; i++)
        {
            var changed = (byte[])sound.Clone();
            changed[random.Next(changed.Length)] ^= (byte)(1 << random.Next(8));
            await File.WriteAllBytesAsync(zip, changed, Stop);
            var into = Path.Combine(root, FormattableString.Invariant($"back{i}"));
            try
            {
                Restoring.Into(into, zip);
                var verified = Verification.Of(DataFolder.Existing(into));
                Assert.Empty(verified.Problems);
                Assert.Equal(made.Digest, verified.Digest);
            }
            catch (Refusal)
            {
                Assert.False(Directory.Exists(into));
            }
        }

        Assert.Empty(Directory.GetFileSystemEntries(root, "*.half-*"));
    }

    private DataFolder Copy(string from, string to)
    {
        var target = Directory.CreateDirectory(Path.Combine(root, to)).FullName;
        foreach (var file in Directory.GetFiles(from).Where(file => !file.EndsWith("-shm", StringComparison.Ordinal)))
            File.Copy(file, Path.Combine(target, Path.GetFileName(file)));
        return DataFolder.Existing(target);
    }
}
