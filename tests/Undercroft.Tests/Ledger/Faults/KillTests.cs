using System.Diagnostics;
using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Xunit;

namespace Undercroft.Tests.Ledger.Faults;

/// <summary>A writer is killed without warning, again and again, at whatever it is doing; what it had acknowledged must be there, and nothing half-done.</summary>
public sealed class KillTests
{
    private const int KillsPerLedger = 25;

    /// <summary>A sample in the plain run, 1000 kills in the long one.</summary>
    private static int Kills => Environment.GetEnvironmentVariable("UNDERCROFT_LONG") == "1" ? 1000 : 6;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Killed_at_any_moment_it_keeps_what_it_acknowledged_and_nothing_half_done()
    {
        var random = new Random(20260303);
        var count = new Dictionary<string, int>();
        for (var ledger = 0; ledger * KillsPerLedger < Kills; ledger++)
        {
            var root = Directory.CreateTempSubdirectory("undercroft-").FullName;
            try
            {
                var before = (Events: 1L, Readings: 0L); // the founding line, which stands once a life says that it is ready
                for (var kill = 0; kill < Math.Min(KillsPerLedger, Kills - (ledger * KillsPerLedger)); kill++)
                {
                    var life = (ledger * KillsPerLedger) + kill;
                    before = Survived(root, await LiveAndDie(root, life, random.Next(0, 120)), before, count);
                    Add(count, "killed");
                }
            }
            finally
            {
                Directory.Delete(root, recursive: true);
            }

            await Told(count);
        }

        Assert.Equal(Kills, count["killed"]);
        Assert.True(count.GetValueOrDefault("lines") > 0);
    }

    /// <summary>What one life said before it was killed.</summary>
    private static async Task<List<string>> LiveAndDie(string root, int life, int afterMilliseconds)
    {
        using var victim = Process.Start(Victim.Start("writes", root, life))!;
        var error = victim.StandardError.ReadToEndAsync(Stop);
        List<string> said = [];
        try
        {
            var first = await victim.StandardOutput.ReadLineAsync(Stop);
            Assert.True(first == "ready", first + (first is null ? await error : ""));
            await Task.Delay(afterMilliseconds, Stop);
        }
        finally
        {
            victim.Kill();
        }

        // What it said before it died is in the pipe; a line without its end was not said.
        var rest = await victim.StandardOutput.ReadToEndAsync(Stop);
        await victim.WaitForExitAsync(Stop);
        said.AddRange(rest.Split('\n')[..^1]);
        return said;
    }

    private static (long Events, long Readings) Survived(string root, List<string> said, (long Events, long Readings) before, Dictionary<string, int> count)
    {
        var (version, batches) = (before.Events, 0L);
        foreach (var line in said)
        {
            var (word, rest) = line.Split(' ') is [var first, var second] ? (first, second) : throw new InvalidOperationException(line);
            Add(count, word);
            if (word is "lines" or "batch")
                version = long.Parse(rest, CultureInfo.InvariantCulture);
            if (word == "batch")
                batches++;
            if (word == "backup")
                Assert.True(File.Exists(Path.Combine(root, rest)), $"{rest} was acknowledged and is not there.");
        }

        var verified = Verification.Of(DataFolder.Existing(Path.Combine(root, "data")));
        Assert.Empty(verified.Problems);
        Assert.InRange(verified.Events, version, version + 3);
        var acknowledged = before.Readings + (batches * Victim.ReadingsPerBatch);
        Assert.True(verified.Readings == acknowledged || verified.Readings == acknowledged + Victim.ReadingsPerBatch, $"{verified.Readings} readings, {acknowledged} acknowledged");
        if (verified.Events > version)
            Add(count, "written and not acknowledged any more");

        foreach (var old in Directory.GetDirectories(root, "old-*"))
        {
            if (said.Contains("old " + Path.GetFileName(old)))
            {
                if (!said.Contains("upgraded " + Path.GetFileName(old)))
                    Add(count, "killed within an upgrade");
                SchemaTests.IsWhole(DataFolder.Existing(old), schema: 2);
            }

            Directory.Delete(old, recursive: true);
        }

        foreach (var zip in Directory.GetFiles(root, "*.zip"))
        {
            var into = zip + "-back";
            Assert.InRange(Restoring.Into(into, zip).Events, 1, verified.Events);
            Directory.Delete(into, recursive: true);
            File.Delete(zip);
        }

        foreach (var half in Directory.GetFiles(root, "*.half-*"))
        {
            Add(count, "killed within a backup");
            File.Delete(half);
        }

        return (verified.Events, verified.Readings);
    }

    /// <summary>Counts so far, into a file where one is named: a long run that is stopped has still said how far it came.</summary>
    private static async Task Told(Dictionary<string, int> count)
    {
        string[] lines = [.. count.OrderBy(pair => pair.Key, StringComparer.Ordinal).Select(pair => string.Create(CultureInfo.InvariantCulture, $"{pair.Value} {pair.Key}"))];
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(", ", lines));
        if (Environment.GetEnvironmentVariable("UNDERCROFT_COUNTS") is { Length: > 0 } file)
            await File.WriteAllLinesAsync(file, lines, Stop);
    }

    private static void Add(Dictionary<string, int> count, string what) => count[what] = count.GetValueOrDefault(what) + 1;
}
