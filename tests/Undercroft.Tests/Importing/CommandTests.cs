using System.Text.Json;
using Undercroft.Importing;
using Undercroft.Shell;
using Xunit;

namespace Undercroft.Tests.Importing;

/// <summary>The door <c>import sheet</c>: names of the JSON, exit codes, nothing written where it should not.</summary>
public sealed class CommandTests : IDisposable
{
    private readonly string root = Directory.CreateTempSubdirectory("undercroft-import").FullName;

    public void Dispose() => Directory.Delete(root, recursive: true);

    [Fact]
    public async Task Json_holds_the_account_by_its_names()
    {
        var (exit, output, _) = await Run("import", "sheet", Path.Combine(FixtureTests.Folder, "quantities.csv"), "--json", "--today", "2026-11-24");
        Assert.Equal(0, exit);
        var account = JsonDocument.Parse(output).RootElement;
        Assert.Equal((10, 8, 2, 14), (Number("rowsRead"), Number("rowsUnderstood"), Number("rowsDoubtful"), Number("packagesAdded")));
        Assert.Equal(account.GetProperty("gramsRead").GetDouble(), account.GetProperty("gramsAdded").GetDouble());
        Assert.Equal([6, 11], account.GetProperty("doubts").EnumerateArray().Select(doubt => doubt.GetProperty("row").GetInt32()));
        Assert.All(account.GetProperty("doubts").EnumerateArray(), doubt => Assert.NotEmpty(doubt.GetProperty("reason").GetString()!));

        int Number(string name) => account.GetProperty(name).GetInt32();
    }

    [Fact]
    public async Task A_dry_run_creates_no_folder()
    {
        var (exit, output, _) = await Run("import", "sheet", Path.Combine(FixtureTests.Folder, "plain.csv"), "--dry-run");
        Assert.Equal(0, exit);
        Assert.Contains("Would add 4 packages", output, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Data));
    }

    [Fact]
    public async Task What_is_no_sheet_is_refused_and_creates_no_folder()
    {
        var file = Path.Combine(root, "picture.csv");
        await File.WriteAllBytesAsync(file, [0x89, 0x50, 0x4E, 0x47, 1, 2, 3], TestContext.Current.CancellationToken);
        var (exit, output, error) = await Run("import", "sheet", file, "--json");
        Assert.Equal((1, ""), (exit, output));
        Assert.Contains("picture", error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Data));
    }

    [Fact]
    public async Task A_saved_map_is_read_again()
    {
        var map = Path.Combine(root, "map.json");
        var sheet = Path.Combine(FixtureTests.Folder, "german.csv");
        Assert.Equal(0, (await Run("import", "sheet", sheet, "--dry-run", "--save-map", map)).Exit);
        var (exit, output, _) = await Run("import", "sheet", sheet, "--dry-run", "--map", map, "--json");
        Assert.Equal(0, exit);
        Assert.Equal(7, JsonDocument.Parse(output).RootElement.GetProperty("packagesAdded").GetInt32());
        Assert.Equal(1, (await Run("import", "sheet", sheet, "--map", Path.Combine(root, "none.json"))).Exit);
        Assert.Equal(2, (await Run("import", "sheet", sheet, "--changed", "perhaps")).Exit);
    }

    private string Data => Path.Combine(root, "data");

    private async Task<(int Exit, string Output, string Error)> Run(params string[] words)
    {
        var output = new StringWriter();
        var error = new StringWriter();
        var line = new CommandLine(new Terminal(output, error, TimeProvider.System, _ => null, root));
        var exit = await line.Run(line.Tree(CommandLine.Group("import", "Bring in what was written elsewhere.", ImportSheetCommand.In(line))), [.. words, "--data", Data]);
        return (exit, output.ToString(), error.ToString());
    }
}
