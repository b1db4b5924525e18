using System.Text.Json;
using Undercroft.History;
using Undercroft.Ledger.Dates;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.History;

/// <summary>What changed since a day; who says so, and how precisely.</summary>
public sealed class ChangesTests : IDisposable
{
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task What_came_went_moved_and_was_opened_since_a_day()
    {
        var (old, gone, fresh) = await Year();
        var found = await cli.Json("changes", "--since", "2025-05-01");
        Assert.Equal("Since 2025-05-01: 1 came, 1 went, 1 moved, 1 opened.", found.GetProperty("verdict").GetString());
        Assert.Equal([fresh], Ids(found, "came"));
        Assert.Equal([gone], Ids(found, "went"));
        Assert.Equal("given", found.GetProperty("went")[0].GetProperty("to").GetString());
        Assert.Equal([old], Ids(found, "moved"));
        Assert.Equal(("Closet", "Loft"), (found.GetProperty("moved")[0].GetProperty("from").GetString(), found.GetProperty("moved")[0].GetProperty("to").GetString()));
        Assert.Equal([old], Ids(found, "opened"));
        Assert.Equal((100, 50), (found.GetProperty("before").GetProperty("lowG").GetDouble(), found.GetProperty("after").GetProperty("lowG").GetDouble()));
        Assert.Equal("Nothing changed since 2025-12-31.", (await cli.Json("changes", "--since", "2025-12-31")).GetProperty("verdict").GetString());
        Assert.Contains("is after", await cli.Refused(1, "changes", "--since", "2027-01-01"), StringComparison.Ordinal);
        Assert.Contains("is not a day", await cli.Refused(1, "changes", "--since", "last year"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_learned_since_a_day_is_another_question()
    {
        await Year(); // all of it is written down on the present day of these tests
        var learned = await cli.Json("changes", "--since", "2026-04-30", "--known");
        Assert.Equal(2, Ids(learned, "came").Length);
        Assert.Equal(0, learned.GetProperty("before").GetProperty("packages").GetInt32());
        Assert.Equal("Nothing changed since 2026-04-30.", (await cli.Json("changes", "--since", "2026-04-30")).GetProperty("verdict").GetString());
    }

    [Fact]
    public async Task Every_reading_command_looks_back()
    {
        var (old, gone, fresh) = await Year();
        foreach (var words in new string[][] { ["show"], ["forecast", "--draws", "32", "--years", "1"] })
        {
            Assert.Equal(new[] { gone, old }.Order(StringComparer.Ordinal), Ids(await cli.Json([.. words, "--as-of", "2025-05-01"]), "packages").Order(StringComparer.Ordinal));
            Assert.Empty(Ids(await cli.Json([.. words, "--known-on", "2026-04-30"]), "packages"));
        }

        Assert.DoesNotContain(fresh, Ids(await cli.Json("due", "--as-of", "2025-05-01", "--minutes", "100"), "items"));
        Assert.Equal("Nothing stands here yet.", (await cli.Json("due", "--known-on", "2026-04-30")).GetProperty("verdict").GetString());
        Assert.Equal(2, (await cli.Json("place", "show", "Closet", "--as-of", "2025-05-01")).GetProperty("packages").GetInt32());
        await cli.Json("export", "--out", "then", "--as-of", "2025-05-01");
        var packages = await File.ReadAllTextAsync(Path.Combine(cli.Work, "then", "packages.csv"), TestContext.Current.CancellationToken);
        Assert.Contains(gone, packages, StringComparison.Ordinal);
        Assert.DoesNotContain(fresh, packages, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(cli.Work, "then", "events.jsonl")));
    }

    [Fact]
    public async Task The_history_says_who_says_so_and_how_precisely_the_day_is_known()
    {
        var id = await cli.Add("--net", "~50g", "--sealed", "2020");
        await cli.Json("weigh", id, "300g", "--on", "2021-03");
        var lines = (await cli.Json("history")).GetProperty("events").EnumerateArray().ToArray();
        Assert.Equal(("weighed", "month"), (lines[2].GetProperty("source").GetString(), lines[2].GetProperty("precision").GetString()));
        Assert.Contains("[weighed; written 2026-05-01]", (await cli.Run("history")).Out.Replace(Environment.NewLine, " ", StringComparison.Ordinal).Replace("  ", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2020-05-01", "day")]
    [InlineData("2020-02", "month")]
    [InlineData("2020-21", "season")]
    [InlineData("2020", "year")]
    [InlineData("202X", "decade")]
    [InlineData("2020~", "about")]
    [InlineData("2020-05-01?", "about")]
    [InlineData("[2014..2016]", "between")]
    [InlineData("[..2012]", "open")]
    [InlineData("", "unknown")]
    public void A_date_is_as_precise_as_it_is_written(string date, string precision) => Assert.Equal(precision, Telling.Precision(UnevenDate.Parse(date)));

    private static string[] Ids(JsonElement found, string part) => [.. found.GetProperty(part).EnumerateArray().Select(package => package.GetProperty("id").GetString()!)];

    private async Task<(string Old, string Gone, string Fresh)> Year()
    {
        await cli.Json("place", "add", "Closet");
        await cli.Json("place", "add", "Loft");
        var old = await cli.Add("--net", "50g", "--sealed", "2020-01-01", "--place", "Closet");
        var gone = await cli.Add("--net", "50g", "--sealed", "2020-01-02", "--place", "Closet");
        await cli.Json("move", old, "Loft", "--on", "2025-08-01");
        await cli.Json("open", old, "--on", "2025-09-01");
        await cli.Json("remove", gone, "--as", "given", "--on", "2025-10-01");
        var fresh = await cli.Add("--sealed", "2025-11-01", "--place", "Closet");
        return (old, gone, fresh);
    }
}
