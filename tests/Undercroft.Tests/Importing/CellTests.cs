using Undercroft.Importing.Cells;
using Xunit;

namespace Undercroft.Tests.Importing;

/// <summary>Single cells, as people write them.</summary>
public sealed class CellTests
{
    [Theory]
    [InlineData("2015", "2015")]
    [InlineData("'15", "2015")]
    [InlineData("'98", "1998")]
    [InlineData("Spring 2020", "2020-21")]
    [InlineData("summer '15", "2015-22")]
    [InlineData("Frühjahr 2019", "2019-21")]
    [InlineData("ca. 2012", "2012~")]
    [InlineData("~2012", "2012~")]
    [InlineData("2012?", "2012~")]
    [InlineData("2009 (?)", "2009~")]
    [InlineData("03.2014", "2014-03")]
    [InlineData("3/2014", "2014-03")]
    [InlineData("13/04/2013", "2013-04-13")]
    [InlineData("04/13/2013", "2013-04-13")]
    [InlineData("12.04.2013", "2013-04-12")]
    [InlineData("12. 4. 2013", "2013-04-12")]
    [InlineData("5/5/13", "2013-05-05")]
    [InlineData("2014/2016", "[2014..2016]")]
    [InlineData("2014-16", "[2014..2016]")]
    [InlineData("2012 or 2013", "[2012..2013]")]
    [InlineData("before 2012", "../2011")]
    [InlineData("since 2019", "2019/..")]
    [InlineData("201X", "[2010..2019]")]
    [InlineData("'90s", "[1990..1999]")]
    [InlineData("early 2015", "[2015-01..2015-04]")]
    [InlineData("Q3 2015", "[2015-07..2015-09]")]
    [InlineData("Apr-15", "2015-04")]
    [InlineData("April 12, 2015", "2015-04-12")]
    [InlineData("12th of April 2015", "2015-04-12")]
    [InlineData("март 2015", "2015-03")]
    [InlineData("2015年3月1日", "2015-03-01")]
    [InlineData("2015-06-03 00:00:00", "2015-06-03")]
    [InlineData("41365", "2013-04-01")]
    public void A_date_is_read_as_it_is_written(string text, string edtf) =>
        Assert.Equal(edtf, Assert.IsType<DateCell.Known>(DateText.Read(text, FixtureTests.Today, serial: true)).Date.Edtf);

    [Fact]
    public void Day_and_month_that_nothing_decides_keep_both_readings()
    {
        var either = Assert.IsType<DateCell.Either>(DateText.Read("12/04/2013", FixtureTests.Today));
        Assert.Equal(("2013-04-12", "2013-12-04"), (either.WhenDayFirst.Edtf, either.WhenMonthFirst.Edtf));
    }

    [Theory]
    [InlineData("31/02/2015")]
    [InlineData("2015-02-30")]
    [InlineData("15/15/2015")]
    [InlineData("Apr 15")]
    [InlineData("2015-21")]
    public void A_date_that_cannot_be_or_reads_two_ways_says_so(string text) => Assert.IsType<DateCell.Doubtful>(DateText.Read(text, FixtureTests.Today));

    [Theory]
    [InlineData("yesterday", "2026-05-31")]
    [InlineData("last year", "2025")]
    [InlineData("5 years ago", "2021")]
    [InlineData("two months ago", "2026-04")]
    [InlineData("last autumn", "2025-23")]
    [InlineData("letztes Jahr", "2025")]
    [InlineData("去年", "2025")]
    public void A_date_that_counts_from_the_day_of_writing_keeps_that(string text, string edtf) =>
        Assert.Equal(edtf, Assert.IsType<DateCell.Relative>(DateText.Read(text, new DateOnly(2026, 6, 1))).Date.Edtf);

    [Theory]
    [InlineData("old")]
    [InlineData("50g")]
    [InlineData("Harbour Flake")]
    public void What_is_no_date_stays_none(string text) => Assert.IsType<DateCell.None>(DateText.Read(text, FixtureTests.Today));

    [Theory]
    [InlineData("??")]
    [InlineData("unknown")]
    [InlineData("n/a")]
    [InlineData("-")]
    public void Unknown_is_said(string text) => Assert.IsType<DateCell.Unknown>(DateText.Read(text, FixtureTests.Today));

    [Theory]
    [InlineData("50g", null, 50)]
    [InlineData("2x50g", 2, 50)]
    [InlineData("2 × 50 g", 2, 50)]
    [InlineData("50g x 2", 2, 50)]
    [InlineData("3 50g tins", 3, 50)]
    [InlineData("(2) 50g tins", 2, 50)]
    [InlineData("1 lb", null, 453.59237)]
    [InlineData("½ lb", null, 226.796185)]
    [InlineData("1/2 lb", null, 226.796185)]
    [InlineData("half a pound", null, 226.796185)]
    [InlineData("1 1/2 oz", null, 42.5242846875)]
    [InlineData("8 oz", null, 226.796185)]
    [InlineData("2 oz tin", null, 56.69904625)]
    [InlineData("2 oz (57 g)", null, 56.69904625)]
    [InlineData("1 lb 2 oz", null, 510.29141625)]
    [InlineData("1.234,50 g", null, 1234.5)]
    [InlineData("1,234 g", null, 1234)]
    [InlineData("1.234 kg", null, 1234)]
    [InlineData("0,5 kg", null, 500)]
    [InlineData("1 000 g", null, 1000)]
    [InlineData("５０ｇ", null, 50)]
    [InlineData("100 гр.", null, 100)]
    [InlineData("16 g left", null, 16)]
    [InlineData("2 банки по 50 г", null, 50)]
    public void An_amount_is_read_with_its_count(string text, int? count, double grams)
    {
        var portion = Assert.Single(QuantityScan.Of(text, CellSetting.Open).Portions);
        Assert.Equal(count, portion.Count);
        Assert.Equal(grams, portion.Amount!.Value.Grams, 9);
    }

    [Theory]
    [InlineData("8oz jar", 236.5882365, null)]
    [InlineData("16 fl oz jar", 473.176473, null)]
    [InlineData("4 pint jars", 473.176473, 4)]
    [InlineData("2 quart jar", 1892.705892, null)]
    [InlineData("half-pint jar", 236.5882365, null)]
    [InlineData("two 8oz jars", 236.5882365, 2)]
    [InlineData("500 ml jar", 500, null)]
    public void A_jar_has_a_volume_and_no_weight(string text, double ml, int? count)
    {
        var read = QuantityScan.Of(text, CellSetting.Open);
        Assert.Empty(read.Portions);
        Assert.Equal(VesselKind.Jar, read.Vessel!.Kind);
        Assert.Equal(ml, read.Vessel.Ml!.Value, 6);
        Assert.Equal(count, read.Vessel.Count);
    }

    [Fact]
    public void A_number_without_a_unit_is_no_amount()
    {
        var read = QuantityScan.Of("50", CellSetting.Open);
        Assert.Empty(read.Portions);
        Assert.Equal(50, read.Bare);
        Assert.Equal(50, Assert.Single(QuantityScan.Of("50", new CellSetting(GramsPerUnit: 1)).Portions).Amount!.Value.Grams);
    }

    [Theory]
    [InlineData("10.000 g")]
    [InlineData("jar 8oz")]
    [InlineData("2 100g tins")]
    public void What_reads_two_ways_is_a_doubt(string text) => Assert.NotEmpty(QuantityScan.Of(text, CellSetting.Open).Doubts);

    [Theory]
    [InlineData("$9.50 ea", 9.5, "$", Share.Each)]
    [InlineData("9,50 €", 9.5, "EUR", Share.Unsaid)]
    [InlineData("EUR 1.234,50", 1234.5, "EUR", Share.Unsaid)]
    [InlineData("$12 total", 12, "$", Share.Total)]
    public void A_price_is_read(string text, double value, string currency, Share share)
    {
        var price = QuantityScan.Of(text, CellSetting.Open).Price!;
        Assert.Equal(((decimal)value, currency, share), (price.Value, price.Currency, price.Share));
    }

    [Theory]
    [InlineData("\"", true)]
    [InlineData("do.", true)]
    [InlineData("ditto", true)]
    [InlineData("″", true)]
    [InlineData("Harbour", false)]
    [InlineData("-", false)]
    public void A_ditto_mark_is_known(string text, bool expected) => Assert.Equal(expected, SmallWords.IsDitto(text));

    /// <summary>Counts of prices beyond all sense once broke the reader off.</summary>
    [Theory]
    [InlineData("3 x 999999999999 €")]
    [InlineData("2 @ $5000000000")]
    public void A_price_that_cannot_be_one_is_left_open(string text) => Assert.Null(QuantityScan.Of(text, CellSetting.Open, false).Price);

    [Fact]
    public void A_count_of_prices_is_a_price_each() => Assert.Equal(Share.Each, QuantityScan.Of("3 x 12 €", CellSetting.Open, false).Price?.Share);
}
