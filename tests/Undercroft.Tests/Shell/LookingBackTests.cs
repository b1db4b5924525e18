using System.CommandLine;
using System.Globalization;
using Undercroft.Shell;
using Xunit;

namespace Undercroft.Tests.Shell;

/// <summary>Every command that reads can look back, and what it says of a day is what it said on that day.</summary>
public sealed class LookingBackTests : IDisposable
{
    private const string Then = "2024-06-30";

    private readonly Cli cli = new();

    /// <summary>Commands that have no past to look at, and why. A new command either looks back or is named here.</summary>
    private static readonly Dictionary<string, string> Without = new()
    {
        ["writes"] = "add|place add|place climate|place check-hygrometer|weigh|humidity|look|measure|open|close|take|water|move|repack|remove|split|several|pace|correct|undo|note|import sheet|import logger|own film|own container|practice on|practice off|demo|restore",
        ["asks what to do now, and writes what was done"] = "condition|trouble|doubts|place freeze",
        ["has two days of its own"] = "changes",
        ["keeps or checks the whole ledger"] = "backup|verify",
        ["needs no records"] = "ask|solve",
        ["is a door"] = "serve|access list|access password|access code|access revoke|access token",
    };

    public void Dispose() => cli.Dispose();

    [Fact]
    public void Every_command_looks_back_or_says_why_not()
    {
        var excused = Without.Values.SelectMany(paths => paths.Split('|')).Order(StringComparer.Ordinal).ToArray();
        var line = new CommandLine(new Terminal(TextWriter.Null, TextWriter.Null, TimeProvider.System, _ => null, cli.Work));
        var all = Leaves(Commands.In(line), "").Where(leaf => !leaf.Path.StartsWith("calc ", StringComparison.Ordinal)).ToArray();
        Assert.Equal(excused, all.Where(leaf => !LooksBack(leaf.Command)).Select(leaf => leaf.Path).Order(StringComparer.Ordinal));
        Assert.True(all.Length - excused.Length >= 20);
    }

    [Fact]
    public async Task What_is_said_of_a_day_is_what_was_said_on_it()
    {
        var (jar, tin) = await UntilThen();
        var calls = Calls(jar, tin);
        List<string> said = [];
        foreach (var words in calls)
            said.Add(await Said([.. words, "--today", Then]));
        await AfterThen(jar, tin);
        List<string> wrong = [];
        for (var i = 0; i < calls.Length; i++)
        {
            var now = await Said([.. calls[i], "--today", "2026-05-01"]);
            if (now == said[i] && calls[i][0] is not "kinds")
                wrong.Add($"{string.Join(' ', calls[i])} says the same two years later");
            if (said[i] != await Said([.. calls[i], "--known-on", Then, "--today", Then]))
                wrong.Add($"{string.Join(' ', calls[i])} --known-on says something else");
            if (calls[i][0] != "history" && said[i] != await Said([.. calls[i], "--as-of", Then, "--today", "2026-05-01"])) // history tells of the lines, later ones too
                wrong.Add($"{string.Join(' ', calls[i])} --as-of says something else:\n{said[i]}\n{await Said([.. calls[i], "--as-of", Then, "--today", "2026-05-01"])}");
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Fact]
    public async Task A_figure_cannot_be_stated_in_the_past()
    {
        var id = await cli.Add("--net", "50g", "--container", "jar-237");
        Assert.Contains("only look back", await cli.Refused(2, "value", id, "--sale", "20EUR", "--as-of", Then), StringComparison.Ordinal);
    }

    private static string[][] Calls(string jar, string tin) =>
    [
        ["show"], ["show", jar], ["history"], ["totals"], ["value"], ["due"], ["forecast", jar, "--draws", "32", "--years", "2"], ["identify", "--container", "jar-237"],
        ["place", "show", "Cupboard"], ["place", "compare", "Cupboard", "Attic"], ["place", "sensors"], ["place", "spell", "Cupboard", "--from", "2024-06-10", "--to", "2024-06-12"],
        ["compare", "jar-473", "bag-zip", "--place", "Cupboard", "--draws", "32", "--years", "2"], ["beliefs", "glass-perfect", "--place", "Cupboard"], ["practice", "show"], ["kinds", "jar-473"],
        ["calendar"], ["print", "labels"], ["print", "round"], ["print", "packing"], ["print", "handover"], ["print", "claim"], ["print", "provenance", tin],
    ];

    private async Task<(string Jar, string Tin)> UntilThen()
    {
        await On("2024-01-10", "place", "add", "Cupboard", "--room", "cupboard");
        await On("2024-01-10", "place", "add", "Attic", "--room", "attic");
        var jar = (await cli.Json("add", "--blend", "Evening ribbon", "--leaf", "burley", "--cut", "ribbon", "--net", "50g", "--gross", "270g", "--container", "jar-237", "--made", "2019", "--sealed", "2023-05", "--place", "Cupboard", "--paid", "24EUR", "--today", "2024-01-10")).GetProperty("ids")[0].GetString()!;
        var tin = (await cli.Json("add", "--blend", "Old flake", "--leaf", "flue-cured", "--cut", "flake", "--net", "50g", "--container", "tin-slip", "--made", "2015", "--place", "Attic", "--today", "2024-01-10")).GetProperty("ids")[0].GetString()!;
        await On("2024-02-01", "pace", "20g");
        await On("2024-03-01", "weigh", jar, "269.5g");
        await Log("2024-06-01", 29, 19);
        return (jar, tin);
    }

    private async Task AfterThen(string jar, string tin)
    {
        await Log("2024-07-01", 300, 27);
        await On("2025-05-01", "add", "--blend", "Late arrival", "--net", "100g", "--container", "bag-zip", "--place", "Cupboard");
        await On("2025-06-01", "weigh", jar, "266g");
        await On("2025-06-01", "open", tin);
        await On("2025-06-01", "take", tin, "10g");
        await On("2025-06-02", "move", tin, "Cupboard");
        await On("2025-06-03", "value", jar, "--replace", "60EUR");
        await On("2025-06-04", "pace", "50g");
        await On("2025-06-05", "place", "climate", "Attic", "--temperature", "5C..40C");
        await On("2025-06-06", "practice", "off", "loose-to-glass");
        await On("2025-06-07", "note", jar, "Smells of figs.");
    }

    private async Task On(string day, params string[] words) => await cli.Json([.. words, "--today", day]);

    /// <summary>A logger in the cupboard, four readings a day.</summary>
    private async Task Log(string first, int days, double mean)
    {
        var day = DateTime.Parse(first, CultureInfo.InvariantCulture);
        var lines = Enumerable.Range(0, days * 4).Select(i => string.Create(CultureInfo.InvariantCulture, $"{day.AddHours(6 * i):yyyy-MM-dd HH:mm:ss},{mean + Math.Sin(Math.PI * i / 2):0.0},{55 + 3 * Math.Cos(i / 9.0):0.0}"));
        var file = Path.Combine(cli.Work, "log.csv");
        await File.WriteAllLinesAsync(file, ["time,temperature C,humidity %", .. lines], TestContext.Current.CancellationToken);
        await On(day.AddDays(days).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), "import", "logger", file, "--place", "Cupboard", "--zone", "UTC");
    }

    /// <summary>What a command says, or the paper that it writes.</summary>
    private async Task<string> Said(string[] words)
    {
        if (words[0] is not ("print" or "calendar"))
            return (await cli.Json(words)).GetRawText();
        var file = Path.Combine(cli.Work, words[0] == "print" ? "paper.pdf" : "shelf.ics");
        await cli.Json([.. words, "--out", file]);
        return Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken)));
    }

    private static bool LooksBack(Command command) => command.Options.Select(option => option.Name).Intersect(["--as-of", "--known-on"]).Count() == 2;

    private static IEnumerable<(string Path, Command Command)> Leaves(Command command, string path) => command.Subcommands.Count == 0
        ? [(path, command)]
        : command.Subcommands.SelectMany(inner => Leaves(inner, path.Length == 0 ? inner.Name : $"{path} {inner.Name}"));
}
