using System.Text;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Undercroft.Ledger.Sqlite;
using Xunit;

namespace Undercroft.Tests.Ledger.Faults;

/// <summary>Bytes that nobody wrote.</summary>
public sealed class FlippedByteTests : IDisposable
{
    private readonly string root = Directory.CreateTempSubdirectory("undercroft-").FullName;

    private static int Flips => Environment.GetEnvironmentVariable("UNDERCROFT_LONG") == "1" ? 5000 : 150;

    public void Dispose() => Directory.Delete(root, recursive: true);

    [Fact]
    public async Task Any_flipped_byte_is_found_or_lies_where_nothing_is_kept()
    {
        var folder = await Made();
        var sound = Verification.Of(folder);
        Assert.Empty(sound.Problems);
        var bytes = await File.ReadAllBytesAsync(folder.Ledger, TestContext.Current.CancellationToken);
        var random = new Random(20260305);
        var (found, idle) = (0, 0);
        for (var i = 0; i < Flips; i++)
        {
            var changed = (byte[])bytes.Clone();
            changed[random.Next(changed.Length)] ^= (byte)(1 << random.Next(8));
            var copy = DataFolder.OrNew(Path.Combine(root, "copy"));
            await File.WriteAllBytesAsync(copy.Ledger, changed, TestContext.Current.CancellationToken);
            var verified = Verification.Of(copy);
            if (verified.Problems.Count > 0)
            {
                found++;
            }
            else
            {
                Assert.Equal((sound.Events, sound.Readings, sound.Digest), (verified.Events, verified.Readings, verified.Digest));
                idle++;
            }

            Directory.Delete(copy.Path, recursive: true);
        }

        Assert.True(found > Flips / 5, FormattableString.Invariant($"{found} found, {idle} where nothing is kept"));
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{found} found, {idle} where nothing is kept"));
    }

    [Theory]
    [InlineData("the third note", "Line 7")]
    [InlineData("\"Evening ribbon\"", "Line 3")]
    [InlineData("packages-added/1", "Line 4")]
    public async Task A_flipped_byte_of_a_line_is_named(string text, string line)
    {
        var folder = await Made();
        Flip(folder, Encoding.UTF8.GetBytes(text), 3);
        Assert.Contains(Verification.Of(folder).Problems, problem => problem.StartsWith(line, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_flipped_byte_of_a_reading_is_named_by_its_import()
    {
        var folder = await Made();
        Flip(folder, [0x9A, 0x99, 0x99, 0x99, 0x99, 0x29, 0x72, 0x40], 3); // 290.6 K as it lies in the file
        Assert.Contains(Verification.Of(folder).Problems, problem => problem.StartsWith("Line 8: the readings of logger.csv", StringComparison.Ordinal));
    }

    private static void Flip(DataFolder folder, byte[] text, int at)
    {
        var bytes = File.ReadAllBytes(folder.Ledger);
        var flipped = 0;
        for (var where = 0; bytes.AsSpan(where).IndexOf(text) is >= 0 and var next; where += next + text.Length, flipped++)
            bytes[where + next + at] ^= 1; // wherever it stands: pages keep pieces that are no longer used
        Assert.True(flipped > 0);
        File.WriteAllBytes(folder.Ledger, bytes);
    }

    private async Task<DataFolder> Made()
    {
        var folder = DataFolder.OrNew(Path.Combine(root, "data"));
        var home = new Household();
        using (var cellars = SqliteCellars.OpenOrCreate(folder))
        {
            await cellars.AppendAsync(0, [.. home.Events, Victim.Note(1, "the first note"), Victim.Note(2, "the second note"), Victim.Note(3, "the third note")], TestContext.Current.CancellationToken);
            await cellars.AppendAsync(7, Victim.Batch(home.Cupboard, 1, 500), TestContext.Current.CancellationToken);
        }

        return folder;
    }
}
