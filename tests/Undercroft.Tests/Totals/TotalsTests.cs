using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Sqlite;
using Undercroft.Tests.Shell;
using Undercroft.Totals;
using Xunit;

namespace Undercroft.Tests.Totals;

public sealed class TotalsTests
{
    [Fact]
    public async Task Leaf_is_summed_as_a_range_and_what_nobody_weighed_is_not_nothing()
    {
        using var cli = new Cli();
        await cli.Add("--leaf", "burley", "--net", "100g");
        await cli.Add("--leaf", "burley", "--net", "40g..60g");
        await cli.Add("--leaf", "burley");
        await cli.Add("--leaf", "flue-cured 75%, oriental 25%", "--net", "200g");
        await cli.Add("--leaf", "flue-cured, oriental", "--net", "10g");
        await cli.Add("--net", "5g");
        var totals = await Of(cli);
        Assert.Equal((355, 375), (totals.LowG, totals.HighG), Close);
        Assert.Equal(1, totals.UnknownPackages);
        Assert.Equal(
            [("burley", 140.0, 160.0, 1), ("flue-cured", 150, 150, 0), ("oriental", 50, 50, 0), ("several", 10, 10, 0), ("unknown", 5, 5, 0)],
            totals.Rows.Select(row => (row.Leaf, Math.Round(row.LowG, 6), Math.Round(row.HighG, 6), row.UnknownPackages)));
        Assert.Equal(totals.HighG, totals.Rows.Sum(row => row.HighG), 6);
        Assert.Null(totals.Lasts);
    }

    [Theory]
    [InlineData("10g", 520, 520)] // weeks: 5200 g at 10 g a week
    [InlineData("10g..20g", 260, 520)]
    [InlineData("~10g", 520 / 1.1, 520 / 0.9)]
    public async Task It_lasts_the_least_at_the_fastest_and_the_longest_at_the_slowest(string pace, double fromWeeks, double toWeeks)
    {
        using var cli = new Cli();
        await cli.Add("--net", "5.2kg");
        var lasts = (await Of(cli, pace)).Lasts!;
        Assert.Equal((fromWeeks * 7 / 365.2425, toWeeks * 7 / 365.2425), (lasts.FromYears, lasts.ToYears!.Value), Close);
    }

    [Fact]
    public async Task A_stated_pace_serves_until_another_is_tried()
    {
        using var cli = new Cli();
        await cli.Add("--net", "520g");
        Assert.Contains("State a pace", (await Of(cli)).Verdict, StringComparison.Ordinal);
        await cli.Json("pace", "20g");
        Assert.Equal(20, (await Of(cli)).PaceLowGPerWeek!.Value, 6);
        Assert.Equal(10, (await Of(cli, "10g")).PaceLowGPerWeek!.Value, 6);
        await cli.Refused(1, "pace", "unknown");
        await cli.Refused(1, "pace", "fast");
        await cli.Json("undo");
        Assert.Null((await Of(cli)).PaceLowGPerWeek);
    }

    [Theory]
    [InlineData(0.5, 0.5, "0.5 years")]
    [InlineData(1, 1, "1 year")]
    [InlineData(3.14, 4, "3.1 to 4 years")]
    [InlineData(11.9, 15.2, "12 to 15 years")]
    public void A_span_reads_as_people_say_it(double from, double to, string words) => Assert.Equal(words, LeafTotals.Words(new(from, to)));

    private static bool Close((double, double) a, (double, double) b) => Math.Abs(a.Item1 - b.Item1) < 1e-6 && Math.Abs(a.Item2 - b.Item2) < 1e-6;

    private static async Task<LeafTotals> Of(Cli cli, string? pace = null)
    {
        using var cellars = SqliteCellars.Open(DataFolder.Existing(cli.Data));
        return LeafTotals.Of(await cellars.ReadAsync(View.Now, TestContext.Current.CancellationToken), pace is null ? null : StatedMass.Parse(pace));
    }
}
