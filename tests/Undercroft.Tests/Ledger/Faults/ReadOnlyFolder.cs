using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Undercroft.Ledger.Sqlite;
using Xunit;

namespace Undercroft.Tests.Ledger.Faults;

/// <summary>A cellar on something that cannot be written, such as a disc or a copy that somebody locked.</summary>
public sealed class ReadOnlyFolder
{
    [Theory]
    [InlineData("closed", "reads 5 lines")]
    [InlineData("left open", "reads 5 lines")]
    public async Task A_folder_that_cannot_be_written_is_read_and_every_write_refused_in_words(string how, string reads)
    {
        var root = Directory.CreateTempSubdirectory("undercroft-").FullName;
        try
        {
            var home = new Household();
            var cellars = SqliteCellars.OpenOrCreate(DataFolder.OrNew(Path.Combine(root, "data")));
            try
            {
                await cellars.AppendAsync(0, [.. home.Events, Victim.Note(1, "one")], TestContext.Current.CancellationToken);
                if (how == "closed")
                    cellars.Dispose();
                var said = await Victim.Run("read-only", root, shell: "mount --bind \"$ROOT\" \"$ROOT\"; mount -o remount,ro,bind \"$ROOT\"");
                Assert.Equal([reads, "verify finds 5 lines and 0 problems", "append refused: cannot be written", "backup into it refused", "export into it refused"], said);
            }
            finally
            {
                cellars.Dispose();
            }
        }
        finally
        {
            Directory.Delete(root, recursive: true);
        }
    }

    /// <summary>What happens in the locked folder.</summary>
    internal static void Live(string root)
    {
        var folder = DataFolder.Existing(Path.Combine(root, "data"));
        using var cellars = SqliteCellars.Open(folder);
        var cellar = Victim.Done(cellars.ReadAsync());
        Victim.Say(FormattableString.Invariant($"reads {cellar.Version} lines"));
        var verified = Verification.Of(folder);
        Victim.Say(FormattableString.Invariant($"verify finds {verified.Events} lines and {verified.Problems.Count} problems"));
        Victim.Say($"append refused: {(Refusal(() => Victim.Done(cellars.AppendAsync(5, [Victim.Note(2, "two")]))).Contains("cannot be written", StringComparison.Ordinal) ? "cannot be written" : "in other words")}");
        Victim.Say($"backup into it {(Refusal(() => Backup.Write(folder, Path.Combine(root, "b.zip"), DateTimeOffset.UnixEpoch)).Length > 0 ? "refused" : "done")}");
        Victim.Say($"export into it {(Refusal(() => Export.Into(folder, Path.Combine(root, "out"))).Length > 0 ? "refused" : "done")}");
    }

    private static string Refusal(Action act)
    {
        try
        {
            act();
            return "";
        }
        catch (Refusal refusal)
        {
            return refusal.Message;
        }
    }
}
