using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Sqlite;
using Xunit;

namespace Undercroft.Tests.Ledger.Faults;

/// <summary>A disk of six megabytes fills up.</summary>
public sealed class FullDisk
{
    [Fact]
    public async Task A_full_disk_is_told_and_costs_nothing_that_was_acknowledged()
    {
        var root = Directory.CreateTempSubdirectory("undercroft-").FullName;
        try
        {
            var said = await Victim.Run("full", root, shell: "mount -t tmpfs -o size=6m tmpfs \"$ROOT\"");
            Assert.Equal(
                [
                    "append refused: The disk is full", "nothing lost after append", "import refused: The disk is full", "nothing lost after import",
                    "backup refused", "upgrade refused: The disk is full", "old file as it was", "goes on with room", "upgraded with room",
                ],
                said);
        }
        finally
        {
            Directory.Delete(root, recursive: true);
        }
    }

    /// <summary>What happens on the small disk.</summary>
    internal static void Live(string root)
    {
        var ballast = Path.Combine(root, "ballast");
        File.WriteAllBytes(ballast, new byte[1_500_000]);
        var old = DataFolder.OrNew(Path.Combine(root, "old"));
        File.Copy(Victim.Fixture(1), old.Ledger);
        var folder = DataFolder.OrNew(Path.Combine(root, "data"));
        var place = new PlaceId(ShortId.From(0).First());
        var acknowledged = 0L;
        using (var cellars = SqliteCellars.OpenOrCreate(folder))
        {
            acknowledged = ((AppendResult.Written)Victim.Done(cellars.AppendAsync(0, [Household.New(1, new Undercroft.Ledger.Events.Fact.PlaceAdded(place, "Cellar"))]))).Version;
            Refused("append", () =>
            {
                while (true)
                    acknowledged = ((AppendResult.Written)Victim.Done(cellars.AppendAsync(acknowledged, [Victim.Note(acknowledged + 1, new string('x', 9000))]))).Version;
            });
            Sound("append");
            Refused("import", () => Victim.Done(cellars.AppendAsync(acknowledged, Victim.Batch(place, 1, 200_000))));
            Sound("import");
            using (var fill = new FileStream(Path.Combine(root, "fill"), FileMode.CreateNew, FileAccess.Write, FileShare.None, bufferSize: 0))
                Fill(fill);
            var refusal = Refusal(() => Backup.Write(folder, Path.Combine(root, "b.zip"), DateTimeOffset.UnixEpoch));
            Victim.Say(refusal.Length > 0 && Directory.GetFiles(root, "b.zip*").Length == 0 ? "backup refused" : $"backup left something: {refusal}");
            Refused("upgrade", () => SqliteCellars.Open(old).Dispose());
            Victim.Say(File.ReadAllBytes(old.Ledger).AsSpan().SequenceEqual(File.ReadAllBytes(Victim.Fixture(1))) ? "old file as it was" : "old file changed");
            File.Delete(ballast);
            File.Delete(Path.Combine(root, "fill"));
            acknowledged = ((AppendResult.Written)Victim.Done(cellars.AppendAsync(acknowledged, [Victim.Note(acknowledged + 1, "room again")]))).Version;
            Victim.Say(Found() == (acknowledged, 0) ? "goes on with room" : "does not go on");
        }

        SchemaTests.IsWhole(old);
        Victim.Say("upgraded with room");

        void Sound(string after) => Victim.Say(Found() == (acknowledged, 0) ? $"nothing lost after {after}" : $"{Found()} found, {acknowledged} acknowledged after {after}");

        (long Events, int Problems) Found()
        {
            var verified = Verification.Of(folder);
            return (verified.Events, verified.Problems.Count);
        }
    }

    private static void Refused(string what, Action act) => Victim.Say($"{what} refused: {Refusal(act).Split(':')[0]}");

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

    private static void Fill(FileStream file)
    {
        var block = new byte[512];
        try
        {
            while (true)
                file.Write(block);
        }
        catch (IOException)
        {
        }
    }
}
