using System.Diagnostics;
using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Sqlite;
using Xunit;

namespace Undercroft.Tests.Ledger;

/// <summary>A writer is killed without warning, again and again; what it had acknowledged must be there.</summary>
public sealed class KillTests
{
    private const string Role = "UNDERCROFT_TESTS_WRITE_UNTIL_KILLED_INTO";

    /// <summary>A sample in the plain run, 1000 kills in the long one.</summary>
    private static int Kills => Environment.GetEnvironmentVariable("UNDERCROFT_LONG") == "1" ? 1000 : 3;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Killed_at_any_moment_it_keeps_every_acknowledged_event_and_no_half_backup()
    {
        if (Environment.GetEnvironmentVariable(Role) is { Length: > 0 } folder)
        {
            await WriteUntilKilled(folder);
            return;
        }

        var root = Directory.CreateTempSubdirectory("undercroft-").FullName;
        try
        {
            var random = new Random(20260303);
            var before = 0L;
            for (var kill = 0; kill < Kills; kill++)
            {
                await WriteAndKill(root, before + 3, TimeSpan.FromMilliseconds(random.Next(0, 60)));
                var data = DataFolder.Existing(Path.Combine(root, "data"));
                var verified = Verification.Of(data);
                Assert.Empty(verified.Problems);
                var acknowledged = Acknowledged(root);
                Assert.InRange(verified.Events, acknowledged, acknowledged + 3);
                before = verified.Events;
            }

            Assert.True(before > 3 * Kills);
            foreach (var zip in Directory.GetFiles(root, "*.zip"))
                Assert.True(Restoring.Into(Path.Combine(root, "back-" + Path.GetFileName(zip)), zip).Events > 0);
        }
        finally
        {
            Directory.Delete(root, recursive: true);
        }
    }

    private static async Task WriteAndKill(string root, long until, TimeSpan more)
    {
        var program = Path.Combine(AppContext.BaseDirectory, "Undercroft.Tests" + (OperatingSystem.IsWindows() ? ".exe" : ""));
        var start = new ProcessStartInfo(program, ["-noColor", "-method", $"{typeof(KillTests).FullName}.{nameof(Killed_at_any_moment_it_keeps_every_acknowledged_event_and_no_half_backup)}"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment[Role] = root;
        using var writer = Process.Start(start)!;
        var said = writer.StandardOutput.ReadToEndAsync(Stop);
        try
        {
            while (Acknowledged(root) < until && !writer.HasExited)
                await Task.Delay(5, Stop);
            Assert.False(writer.HasExited, writer.HasExited ? await said : "");
            await Task.Delay(more, Stop);
        }
        finally
        {
            writer.Kill(entireProcessTree: true);
            await writer.WaitForExitAsync(Stop);
        }
    }

    private static async Task WriteUntilKilled(string root)
    {
        var folder = DataFolder.OrNew(Path.Combine(root, "data"));
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        await using var acknowledged = new FileStream(Path.Combine(root, "acknowledged"), FileMode.Append, FileAccess.Write, FileShare.ReadWrite, bufferSize: 1);
        while (true)
        {
            var version = (await cellars.EventsAsync(0, Stop)).Count;
            CellarEvent[] lines = [.. Enumerable.Range(0, 3).Select(i => Household.New(1_000_000 + version + i, new Fact.Noted(new string('x', 3000))))];
            var written = Assert.IsType<AppendResult.Written>(await cellars.AppendAsync(version, lines, Stop));
            await acknowledged.WriteAsync(System.Text.Encoding.ASCII.GetBytes(written.Version.ToString(CultureInfo.InvariantCulture) + "\n"), Stop);
            if (written.Version % 15 == 0)
                Backup.Write(folder, Path.Combine(root, Guid.NewGuid().ToString("N") + ".zip"), lines[0].Recorded);
        }
    }

    /// <summary>The last version that was acknowledged in a whole line.</summary>
    private static long Acknowledged(string root)
    {
        var file = Path.Combine(root, "acknowledged");
        if (!File.Exists(file))
            return 0;
        using var reader = new StreamReader(new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite));
        return reader.ReadToEnd().Split('\n')[..^1].Select(line => long.Parse(line, CultureInfo.InvariantCulture)).LastOrDefault();
    }
}
