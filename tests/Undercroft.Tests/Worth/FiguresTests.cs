using Undercroft.Ledger;
using Undercroft.Ledger.Sqlite;
using Undercroft.Tests.Shell;
using Undercroft.Worth;
using Xunit;

namespace Undercroft.Tests.Worth;

public sealed class FiguresTests
{
    [Fact]
    public async Task Three_figures_stay_apart_and_currencies_are_never_added()
    {
        using var cli = new Cli();
        var first = await cli.Add("--blend", "A", "--net", "100g", "--paid", "40EUR");
        await cli.Add("--blend", "B", "--net", "50g", "--paid", "20..30GBP");
        await cli.Add("--blend", "C", "--net", "50g");
        await cli.Json("value", first, "--replace", "60EUR", "--sale", "10..30EUR");
        var figures = await Of(cli);
        Assert.Equal([("EUR", 40.0, 40.0), ("GBP", 20, 30)], figures.Paid.Sums.OrderBy(sum => sum.Currency, StringComparer.Ordinal).Select(sum => (sum.Currency, sum.Low, sum.High)));
        Assert.Equal(1, figures.Paid.UnknownLots);
        Assert.Equal([("EUR", 60.0, 60.0)], figures.Replace.Sums.Select(sum => (sum.Currency, sum.Low, sum.High)));
        Assert.Equal([("EUR", 10.0, 30.0)], figures.Sale.Sums.Select(sum => (sum.Currency, sum.Low, sum.High)));
        Assert.Equal(2, figures.Sale.UnknownLots);
        Assert.Contains("licence", figures.Caution, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_gone_is_not_counted()
    {
        using var cli = new Cli();
        var ids = (await cli.Json("add", "--net", "50g", "--count", "4", "--paid", "40EUR")).GetProperty("ids");
        await cli.Json("remove", ids[0].GetString()!, "--as", "finished");
        await cli.Json("take", ids[1].GetString()!, "25g");
        Assert.Equal(40 * 125.0 / 200, Assert.Single((await Of(cli)).Paid.Sums).High, 6);
    }

    [Fact]
    public async Task Splitting_a_bag_changes_no_figure()
    {
        using var cli = new Cli();
        var bag = await cli.Add("--net", "454g", "--container", "bag-bulk", "--paid", "46EUR");
        var split = await cli.Json("split", bag, "--container", "jar-473", "--count", "4");
        Assert.Equal(4, split.GetProperty("ids").GetArrayLength());
        Assert.Equal(46, Assert.Single((await Of(cli)).Paid.Sums).High, 6);
        using var cellars = SqliteCellars.Open(DataFolder.Existing(cli.Data));
        var cellar = await cellars.ReadAsync(View.Now, TestContext.Current.CancellationToken);
        Assert.Equal(454, MassTotal.Of(cellar.Here).High.Grams, 6);
        Assert.All(cellar.Here, package => Assert.Equal(113.5, package.BookNet.Mid!.Value.Grams, 6));
        await cli.Json("undo");
        Assert.Equal(bag, (await cli.Json("show")).GetProperty("packages")[0].GetProperty("id").GetString());
        Assert.Equal(1, (await cli.Json("show")).GetProperty("packages").GetArrayLength());
    }

    [Fact]
    public async Task A_part_of_a_bag_may_be_split_off_and_no_more_than_is_in_it()
    {
        using var cli = new Cli();
        var bag = await cli.Add("--net", "454g", "--container", "bag-bulk");
        await cli.Refused(1, "split", bag, "--container", "jar-473", "--count", "5", "--each", "110g");
        await cli.Json("split", bag, "--container", "jar-473", "--count", "2", "--each", "110g");
        Assert.Equal(234, (await cli.Json("show", bag)).GetProperty("packages")[0].GetProperty("netG").GetDouble(), 6);
        await cli.Refused(1, "split", bag, "--container", "jar-473", "--count", "0");
        await cli.Refused(1, "split", bag, "--container", "jar-9999", "--count", "2");
    }

    [Fact]
    public async Task Splitting_a_part_off_changes_no_figure_either_on_the_page_or_on_paper()
    {
        using var cli = new Cli();
        var bag = await cli.Add("--net", "454g", "--container", "bag-bulk", "--paid", "45.40EUR");
        await cli.Json("split", bag, "--container", "jar-473", "--count", "2", "--each", "110g");
        Assert.Equal(45.4, Assert.Single((await Of(cli)).Paid.Sums).High, 6);
        Assert.Equal([11m, 11m, 23.4m], await OnPaper(cli));
        await cli.Json("split", bag, "--container", "jar-237", "--count", "3");
        Assert.Equal(45.4, Assert.Single((await Of(cli)).Paid.Sums).High, 6);
        Assert.Equal([7.8m, 7.8m, 7.8m, 11m, 11m], await OnPaper(cli));
        var totals = await cli.Json("totals");
        Assert.Equal(5, totals.GetProperty("packages").GetInt32());
    }

    [Fact]
    public async Task Leaf_bought_at_once_is_shared_out_over_the_jars_it_went_into()
    {
        using var cli = new Cli();
        var added = await cli.Json("add", "--all", "400g", "--count", "4", "--container", "jar-237", "--paid", "40EUR");
        Assert.Equal(4, added.GetProperty("ids").GetArrayLength());
        Assert.All((await cli.Json("show")).GetProperty("packages").EnumerateArray(), package => Assert.Equal(100, package.GetProperty("netG").GetDouble(), 6));
        Assert.Equal([10m, 10m, 10m, 10m], await OnPaper(cli));
        await cli.Refused(1, "add", "--all", "400g", "--net", "100g", "--count", "4");
    }

    /// <summary>What was paid for each package that is here, as hand-over and claim have it, from the least.</summary>
    private static async Task<IEnumerable<decimal>> OnPaper(Cli cli)
    {
        using var cellars = SqliteCellars.Open(DataFolder.Existing(cli.Data));
        var cellar = await cellars.ReadAsync(View.Now, TestContext.Current.CancellationToken);
        return [.. cellar.Here.Select(package => Math.Round(Undercroft.Printing.Prices.Paid(cellar, package)!.High, 6)).Order()];
    }

    [Fact]
    public async Task A_figure_needs_a_lot_and_money()
    {
        using var cli = new Cli();
        var id = await cli.Add("--net", "50g");
        await cli.Refused(1, "value", id, "--replace", "sixty");
        await cli.Refused(1, "value", "ZZZZZ", "--replace", "60EUR");
        await cli.Refused(2, "value", "--replace", "60EUR");
    }

    private static async Task<Figures> Of(Cli cli)
    {
        using var cellars = SqliteCellars.Open(DataFolder.Existing(cli.Data));
        return Figures.Of(await cellars.ReadAsync(View.Now, TestContext.Current.CancellationToken));
    }
}
