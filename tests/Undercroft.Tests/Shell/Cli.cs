using System.Text.Json;
using Undercroft.Shell;
using Xunit;

namespace Undercroft.Tests.Shell;

/// <summary>What one call printed, and how it ended.</summary>
public sealed record Ran(int Exit, string Out, string Error);

/// <summary>Runs the whole command tree as the program does, without a process: a folder of its own, writers in memory, a clock that stands.</summary>
public sealed class Cli : IDisposable
{
    /// <summary>The clock stands at noon UTC of this day.</summary>
    public const string Today = "2026-05-01";

    private readonly string root = Directory.CreateTempSubdirectory("undercroft-cli").FullName;

    public Cli() => Directory.CreateDirectory(Work);

    /// <summary>Where the person stands.</summary>
    public string Work => Path.Combine(root, "work");

    /// <summary>The data folder of a call that names none.</summary>
    public string Data => Path.Combine(Work, Call.DefaultFolder);

    /// <summary>Environment variables of the calls.</summary>
    public Dictionary<string, string> Environment { get; } = [];

    public void Dispose() => Directory.Delete(root, recursive: true);

    /// <summary>Every file and folder below the one that holds the working directory, with the data folder of that name left out.</summary>
    public string[] FilesOutside(string data) =>
        [.. Directory.EnumerateFileSystemEntries(root, "*", SearchOption.AllDirectories).Where(entry => entry != Work && entry != data && !entry.StartsWith(data + Path.DirectorySeparatorChar, StringComparison.Ordinal)).Order(StringComparer.Ordinal)];

    /// <summary>One call.</summary>
    public async Task<Ran> Run(params string[] words)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var line = new CommandLine(new Terminal(output, error, new StandingClock(), name => Environment.GetValueOrDefault(name), Work));
        var exit = await line.Run(Commands.In(line), words);
        return new(exit, output.ToString(), error.ToString());
    }

    /// <summary>A call that is done; its answer is exactly one JSON value on standard output.</summary>
    public async Task<JsonElement> Json(params string[] words)
    {
        var ran = await Run([.. words, "--json"]);
        Assert.True(ran.Exit == 0, $"{string.Join(' ', words)}: exit {ran.Exit}, {ran.Error}");
        using var document = JsonDocument.Parse(ran.Out);
        return document.RootElement.Clone();
    }

    /// <summary>A call that is refused (1) or wrongly used (2): nothing on standard output, a reason without a stack trace on standard error. Returns the reason.</summary>
    public async Task<string> Refused(int exit, params string[] words)
    {
        var ran = await Run(words);
        Assert.True(ran.Exit == exit, $"{string.Join(' ', words)}: exit {ran.Exit} instead of {exit}; {ran.Out}{ran.Error}");
        Assert.Equal("", ran.Out);
        Assert.NotEqual("", ran.Error.Trim());
        Assert.DoesNotContain("fault of the program", ran.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", ran.Error, StringComparison.Ordinal);
        return ran.Error;
    }

    /// <summary>Adds one package and gives its ID.</summary>
    public async Task<string> Add(params string[] words)
    {
        var answer = await Json(["add", .. words]);
        return answer.GetProperty("ids")[0].GetString()!;
    }

    private sealed class StandingClock : TimeProvider
    {
        public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

        public override DateTimeOffset GetUtcNow() => new(2026, 5, 1, 12, 0, 0, TimeSpan.Zero);
    }
}
