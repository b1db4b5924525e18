using System.Text.Json;
using System.Text.RegularExpressions;
using Xunit;

namespace Undercroft.Tests.Shell;

/// <summary>What holds for every command: one JSON value, exit codes, one data folder, the same bytes for the same call.</summary>
public sealed partial class ContractTests : IDisposable
{
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    /// <summary>Calls that write and read, in an order in which all can be done.</summary>
    private static readonly string[][] Story =
    [
        ["place", "add", "House", "--altitude", "350m"],
        ["place", "add", "Closet", "--inside", "House", "--room", "cupboard"],
        ["add", "--blend", "Evening ribbon", "--leaf", "flue-cured 70%, burley 30%", "--cut", "ribbon", "--net", "50g", "--gross", "270g", "--container", "jar-237", "--count", "2", "--made", "2019~", "--sealed", "2020-03", "--place", "House/Closet", "--paid", "24EUR"],
        ["add"],
        ["show"],
        ["kinds"],
        ["kinds", "jar-473"],
        ["kinds", "burley"],
        ["kinds", "cellar"],
        ["kinds", "flake"],
        ["place", "show", "Closet"],
        ["history"],
        ["verify"],
        ["compare", "--mass", "250g", "--place", "Closet", "--draws", "32", "--years", "1"],
        ["ask", "--in", "jar-237", "--mass", "50g", "--draws", "32", "--years", "1"],
    ];

    [Fact]
    public async Task Json_is_one_value_in_camel_case_with_at_most_nine_digits()
    {
        foreach (var words in Story)
        {
            var ran = await cli.Run([.. words, "--json"]);
            Assert.True(ran.Exit == 0, ran.Error);
            Assert.Equal("", ran.Error);
            Assert.EndsWith("\n", ran.Out, StringComparison.Ordinal);
            Assert.DoesNotContain("\n", ran.Out.TrimEnd('\n', '\r'), StringComparison.Ordinal);
            using var document = JsonDocument.Parse(ran.Out);
            Check(document.RootElement, string.Join(' ', words));
        }
    }

    [Fact]
    public async Task The_same_calls_give_the_same_bytes()
    {
        using var twin = new Cli();
        foreach (var words in Story.Where(words => words[0] != "verify")) // the digest covers the events' own random IDs
        {
            var (mine, theirs) = (await cli.Run([.. words, "--json"]), await twin.Run([.. words, "--json"]));
            Assert.Equal(mine, theirs);
        }

        Assert.Equal(await cli.Run("verify"), await cli.Run("verify"));
        var id = (await cli.Json("show")).GetProperty("packages")[0].GetProperty("id").GetString()!;
        foreach (string[] words in new string[][] { ["weigh", id, "265g"], ["history", id], ["show", id], ["forecast", id, "--draws", "32"], ["undo", "3"], ["due"] })
            Assert.Equal(await cli.Run(words), await twin.Run(words));
    }

    [Fact]
    public async Task No_output_names_an_event_by_its_random_id()
    {
        foreach (var words in Story)
            await cli.Run(words);
        var id = (await cli.Json("show")).GetProperty("packages")[0].GetProperty("id").GetString()!;
        string[][] more =
        [
            ["weigh", id, "265g"], ["weigh", id, "900g"], ["open", id], ["take", id, "5g"], ["undo", "1"], ["undo", "5"], ["undo", "8"], ["undo"], ["undo", "11"], ["correct", "8", "--mass", "264g"],
            ["remove", id, "--as", "given"], ["open", id], ["history"], ["show"], ["due"],
        ];
        foreach (var words in more)
        {
            foreach (var form in new[] { words, [.. words, "--json"] })
            {
                var ran = await cli.Run(form);
                Assert.DoesNotMatch(Guids(), ran.Out + ran.Error);
            }
        }
    }

    [Fact]
    public async Task Printed_lines_end_without_blanks_and_keep_to_eighty_columns()
    {
        foreach (var words in Story)
        {
            var ran = await cli.Run(words);
            Assert.True(ran.Exit == 0, ran.Error);
            foreach (var line in ran.Out.Split('\n'))
            {
                Assert.Equal(line.TrimEnd(' '), line);
                Assert.True(line.Length <= 80 || !line.TrimStart().Contains(' ', StringComparison.Ordinal), $"{string.Join(' ', words)}: {line}");
            }
        }
    }

    [Fact]
    public async Task Nothing_is_written_outside_the_data_folder()
    {
        foreach (var words in Story)
            await cli.Run(words);
        Assert.True(File.Exists(Path.Combine(cli.Data, "ledger.sqlite")));
        Assert.Empty(cli.FilesOutside(cli.Data));
    }

    [Fact]
    public async Task The_option_names_the_data_folder_before_the_variable_does()
    {
        cli.Environment["UNDERCROFT_DATA"] = "by-variable";
        await cli.Json("add", "--blend", "One");
        await cli.Json("add", "--blend", "Two", "--data", "by-option");
        Assert.Equal("One", Blend(await cli.Json("show")));
        Assert.Equal("Two", Blend(await cli.Json("show", "--data", Path.Combine(cli.Work, "by-option"))));
        cli.Environment.Clear();
        Assert.False(Directory.Exists(cli.Data));
        Assert.Equal("One", Blend(await cli.Json("show", "--data", "by-variable")));

        static string? Blend(JsonElement shown) => Assert.Single(shown.GetProperty("packages").EnumerateArray().ToArray()).GetProperty("blend").GetString();
    }

    [Theory]
    [InlineData("show")]
    [InlineData("due")]
    [InlineData("history")]
    [InlineData("forecast")]
    [InlineData("weigh", "AAAAA", "50g")]
    [InlineData("undo")]
    [InlineData("verify")]
    [InlineData("place", "show", "Closet")]
    [InlineData("backup", "--out", "b.zip")]
    [InlineData("export", "--out", "out")]
    public async Task Reading_a_folder_that_does_not_exist_is_refused_and_creates_nothing(params string[] words)
    {
        Assert.Contains("does not exist", await cli.Refused(1, words), StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFileSystemEntries(cli.Work));
    }

    [Theory]
    [InlineData("add", "--net", "50")]
    [InlineData("add", "--sealed", "2030")]
    [InlineData("place", "add", " ")]
    public async Task What_is_refused_begins_no_cellar(params string[] words)
    {
        await cli.Refused(1, words);
        Assert.Empty(Directory.EnumerateFileSystemEntries(cli.Work));
    }

    [Fact]
    public async Task A_folder_that_is_no_cellar_is_refused_and_left_as_it_is()
    {
        Directory.CreateDirectory(cli.Data);
        await File.WriteAllTextAsync(Path.Combine(cli.Data, "letter.txt"), "mine", TestContext.Current.CancellationToken);
        Assert.Contains("no ledger.sqlite", await cli.Refused(1, "show"), StringComparison.Ordinal);
        Assert.Contains("holds other things", await cli.Refused(1, "add", "--blend", "One"), StringComparison.Ordinal);
        Assert.Contains("holds other things", await cli.Refused(1, "demo"), StringComparison.Ordinal);
        Assert.Equal(["letter.txt"], Directory.EnumerateFileSystemEntries(cli.Data).Select(Path.GetFileName));
    }

    [Fact]
    public async Task A_file_that_is_no_ledger_is_refused()
    {
        Directory.CreateDirectory(cli.Data);
        await File.WriteAllTextAsync(Path.Combine(cli.Data, "ledger.sqlite"), new string('x', 5000), TestContext.Current.CancellationToken);
        await cli.Refused(1, "show");
        await cli.Refused(1, "add");
    }

    [Theory]
    [InlineData("--today", "2026-02-30")]
    [InlineData("--today", "today")]
    [InlineData("--nonsense")]
    [InlineData("--data")]
    public async Task Wrong_usage_exits_2_and_changes_nothing(params string[] options)
    {
        await cli.Refused(2, ["add", "--blend", "One", .. options]);
        await cli.Refused(2, ["show", .. options]);
        Assert.Empty(Directory.EnumerateFileSystemEntries(cli.Work));
    }

    [Theory]
    [InlineData]
    [InlineData("nonsense")]
    [InlineData("weigh")]
    [InlineData("place")]
    [InlineData("backup")]
    [InlineData("add", "--count", "two")]
    public async Task A_call_that_cannot_be_read_exits_2(params string[] words) => await cli.Refused(2, words);

    private static void Check(JsonElement value, string where)
    {
        switch (value.ValueKind)
        {
            case JsonValueKind.Object:
                foreach (var member in value.EnumerateObject())
                {
                    Assert.True(CamelCase().IsMatch(member.Name), $"{where}: {member.Name}");
                    Check(member.Value, where);
                }

                break;
            case JsonValueKind.Array:
                foreach (var each in value.EnumerateArray())
                    Check(each, where);
                break;
            case JsonValueKind.Number:
                var digits = value.GetRawText().Split('e', 'E')[0].Replace("-", "", StringComparison.Ordinal).Replace(".", "", StringComparison.Ordinal).TrimStart('0');
                Assert.True(digits.TrimEnd('0').Length <= 9, $"{where}: {value.GetRawText()}");
                break;
        }
    }

    [GeneratedRegex("^[a-z][A-Za-z0-9]*$")]
    private static partial Regex CamelCase();

    [GeneratedRegex("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")]
    private static partial Regex Guids();
}
