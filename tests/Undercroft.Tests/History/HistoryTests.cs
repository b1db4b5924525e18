using System.Text.Json;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.History;

/// <summary>Looking back, correcting, taking back.</summary>
public sealed class HistoryTests : IDisposable
{
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task Undo_is_refused_naming_the_later_lines_that_rest_on_it()
    {
        await cli.Json("place", "add", "Closet"); // 1
        var id = await cli.Add("--net", "50g", "--sealed", "2020", "--place", "Closet"); // 2, 3
        await cli.Json("open", id); // 4
        await cli.Json("take", id, "5g"); // 5
        await cli.Json("close", id); // 6
        Assert.Contains("Line 4 (package opened) cannot be undone: later ones rest on it: line 5 (leaf taken), line 6 (package closed). Undo those first.", await cli.Refused(1, "undo", "4"), StringComparison.Ordinal);
        Assert.Contains("line 3 (packages added)", await cli.Refused(1, "undo", "1"), StringComparison.Ordinal);
        foreach (var number in new[] { "6", "5", "4", "3" })
            await cli.Json("undo", number);
        Assert.Contains("Line 3 (packages added) was undone already, by line 10 (event undone).", await cli.Refused(1, "undo", "3"), StringComparison.Ordinal);
        Assert.Empty((await cli.Json("show")).GetProperty("packages").EnumerateArray());
        var lines = (await cli.Json("history")).GetProperty("events").EnumerateArray().ToArray();
        Assert.Equal(10, lines.Length);
        Assert.Equal([true, false, false, false, false, false, true, true, true, true], lines.Select(line => line.GetProperty("holds").GetBoolean()));
        await cli.Json("undo", "10");
        Assert.Single((await cli.Json("show")).GetProperty("packages").EnumerateArray().ToArray());
    }

    [Fact]
    public async Task Undo_without_a_number_takes_back_the_last_act_whole()
    {
        await cli.Add("--net", "50g", "--place", "Closet"); // place, lot and packages in one act
        Assert.Equal("event-undone/1", (await cli.Json("undo")).GetProperty("event").GetProperty("type").GetString());
        Assert.All((await cli.Json("history")).GetProperty("events").EnumerateArray().SkipLast(1), line => Assert.False(line.GetProperty("holds").GetBoolean()));
        Assert.Contains("nothing to undo", await cli.Refused(1, "undo"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_correction_changes_what_is_shown_and_keeps_the_old_line()
    {
        var id = await cli.Add("--net", "50g", "--gross", "270g", "--sealed", "2020");
        await cli.Json("weigh", id, "300g");
        await cli.Json("correct", "3", "--mass", "269.5g", "--note", "misread");
        Assert.Empty((await cli.Json("show", id)).GetProperty("packages")[0].GetProperty("doubts").EnumerateArray());
        var lines = (await cli.Json("history", id)).GetProperty("events").EnumerateArray().ToArray();
        Assert.Equal(4, lines.Length);
        Assert.True(lines[2].GetProperty("corrected").GetBoolean());
        Assert.False(string.IsNullOrEmpty(lines[2].GetProperty("before").GetString()));
        Assert.NotEqual(lines[2].GetProperty("what").GetString(), lines[2].GetProperty("before").GetString());
        Assert.Contains("Line 3 corrected", lines[3].GetProperty("what").GetString(), StringComparison.Ordinal);
        await cli.Json("correct", "2", "--sealed", "2019", "--net", "52g");
        Assert.Equal("2019", (await cli.Json("show", id)).GetProperty("packages")[0].GetProperty("sealed").GetString());
        await cli.Json("open", id, "--on", "2022");
        Assert.Contains("line 6 (package opened) says 2022", await cli.Refused(1, "correct", "2", "--sealed", "2023"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task As_of_shows_what_was_true_then_by_the_knowledge_of_today()
    {
        var id = await cli.Add("--net", "50g", "--sealed", "2020-03-01");
        await cli.Json("open", id, "--on", "2022-06-01");
        await cli.Json("take", id, "10g", "--on", "2022-06-02");
        var then = (await cli.Json("show", id, "--as-of", "2021-03-01")).GetProperty("packages")[0];
        Assert.Equal(50, then.GetProperty("netG").GetDouble(), 1e-9);
        Assert.Equal(JsonValueKind.Null, then.GetProperty("opened").ValueKind);
        Assert.Equal(1, then.GetProperty("leafAge").GetProperty("fromYears").GetDouble(), 0.01);
        var now = (await cli.Json("show", id)).GetProperty("packages")[0];
        Assert.Equal(40, now.GetProperty("netG").GetDouble(), 1e-9);
        Assert.Equal("2022-06-01", now.GetProperty("opened").GetString());
        Assert.Empty((await cli.Json("show", "--as-of", "2019-01-01")).GetProperty("packages").EnumerateArray());
    }

    [Fact]
    public async Task Known_on_shows_what_the_ledger_said_then()
    {
        var id = await cli.Add("--net", "50g", "--sealed", "2020", "--today", "2024-01-01");
        await cli.Json("open", id, "--on", "2021", "--today", "2025-01-01");
        Assert.Equal(JsonValueKind.Null, (await cli.Json("show", id, "--known-on", "2024-06-01")).GetProperty("packages")[0].GetProperty("opened").ValueKind);
        Assert.Equal("2021", (await cli.Json("show", id, "--known-on", "2025-01-01")).GetProperty("packages")[0].GetProperty("opened").GetString());
        Assert.Equal(2, (await cli.Json("history", "--known-on", "2024-06-01")).GetProperty("events").GetArrayLength());
        Assert.Empty((await cli.Json("show", "--known-on", "2023-12-31")).GetProperty("packages").EnumerateArray());
        Assert.Contains("not a day", await cli.Refused(1, "show", "--as-of", "2026-02-30"), StringComparison.Ordinal);
        Assert.Contains("not a day", await cli.Refused(1, "history", "--known-on", "last year"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Today_is_the_day_of_facts_and_of_their_recording()
    {
        var id = await cli.Add("--net", "50g", "--sealed", "2020", "--today", "2024-01-01");
        await cli.Json("open", id, "--today", "2024-02-03");
        await cli.Json("close", id);
        var lines = (await cli.Json("history", id)).GetProperty("events").EnumerateArray().ToArray();
        Assert.Equal(("2024-02-03", "2024-02-03T12:00:00Z"), (lines[^2].GetProperty("happened").GetString(), lines[^2].GetProperty("recorded").GetString()));
        Assert.Equal((Cli.Today, Cli.Today + "T12:00:00Z"), (lines[^1].GetProperty("happened").GetString(), lines[^1].GetProperty("recorded").GetString()));
        Assert.Contains("not come yet", await cli.Refused(1, "open", id, "--on", "2024-01-02", "--today", "2024-01-01"), StringComparison.Ordinal);
    }
}
