using Undercroft.Forecasts;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Due;

/// <summary>Reasons and days agree with each other and with what anybody can see.</summary>
public sealed class DueWordsTests : IDisposable
{
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    /// <summary>A first look after sealing was missed, years ago; whoever opened it saw it.</summary>
    [Fact]
    public async Task What_stands_open_is_not_overdue_since_before_it_was_opened()
    {
        var id = await cli.Add("--net", "50g", "--container", "jar-237", "--sealed", "2015-03-01");
        await cli.Json("open", id, "--on", "2026-03-01");
        var item = (await cli.Json("due")).GetProperty("items")[0];
        Assert.StartsWith("open for", item.GetProperty("reason").GetString(), StringComparison.Ordinal);
        Assert.InRange(item.GetProperty("dueDay").GetString()!, "2026-03-01", Cli.Today);
    }

    [Fact]
    public async Task Leaf_that_has_come_to_the_air_around_it_is_not_said_to_be_well_sealed()
    {
        var id = await cli.Add("--net", "50g", "--container", "bag-zip", "--sealed", "2015-03-01");
        var shown = string.Join(' ', (await cli.Run("forecast", id)).Out.Split('\n', StringSplitOptions.TrimEntries));
        Assert.Contains("come into balance with the air around it", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("hardly any water", shown, StringComparison.Ordinal);
        var tight = await cli.Add("--net", "50g", "--container", "jar-237", "--sealed", "2025-03-01");
        Assert.DoesNotContain("balance with the air", string.Join(' ', (await cli.Run("forecast", tight)).Out.Split('\n', StringSplitOptions.TrimEntries)), StringComparison.Ordinal);
    }

    /// <summary>Only the year is known from which the look counts: a day of July would be made up. Nobody could look before it was written down.</summary>
    [Fact]
    public async Task What_counts_from_a_rough_year_is_due_since_about_a_year_and_new_records_are_not_blamed()
    {
        await cli.Add("--net", "50g", "--container", "jar-237", "--sealed", "2019~");
        var item = (await cli.Json("due")).GetProperty("items")[0];
        Assert.Equal("year", item.GetProperty("dueKnownTo").GetString());
        Assert.Matches(@"^20\d\d-\d\d-\d\d$", item.GetProperty("dueDay").GetString());
        Assert.Contains(item.GetProperty("dueWords").GetString(), new[] { "never looked at", "due now" });
        Assert.DoesNotContain("due since", (await cli.Run("due")).Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2019-06-01", "day", "due since 2019-06-0")]
    [InlineData("2019-06", "month", "due since about 2019-0")]
    [InlineData("2019", "year", "due since about 20")]
    [InlineData("2019~", "year", "due since about 20")]
    [InlineData("201X", "decade", "due since about the 201")]
    public void A_day_is_told_as_finely_as_the_date_it_counts_from(string sealedOn, string known, string said)
    {
        var since = UnevenDate.Parse(sealedOn);
        var due = LookDue.After(since.Midpoint!.Value, since, 1);
        Assert.Equal(known, CodeWords.Of(due.KnownTo));
        Assert.StartsWith(said, due.Said(new(2026, 5, 1)), StringComparison.Ordinal);
        Assert.StartsWith("due by ", due.Said(new(2010, 5, 1)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_look_of_a_rough_year_makes_the_next_one_due_since_about_a_year()
    {
        var id = await cli.Add("--net", "50g", "--container", "jar-237", "--sealed", "2015");
        await cli.Json("look", id, "--on", "2019");
        var item = (await cli.Json("due")).GetProperty("items")[0];
        Assert.Equal("year", item.GetProperty("dueKnownTo").GetString());
        Assert.Matches("^due since about 20(19|20|21)$", item.GetProperty("dueWords").GetString());
        Assert.Contains("due since about 20", (await cli.Run("due")).Out, StringComparison.Ordinal);
    }
}
