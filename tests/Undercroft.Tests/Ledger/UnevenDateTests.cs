using CsCheck;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Xunit;

namespace Undercroft.Tests.Ledger;

public class UnevenDateTests
{
    [Theory]
    [InlineData("2015-06-30", "2015-06-30", "2015-06-30", "2015-06-30")]
    [InlineData("2015-06", "2015-06-01", "2015-06-30", "2015-06")]
    [InlineData("2016-02", "2016-02-01", "2016-02-29", "2016-02")]
    [InlineData("2015", "2015-01-01", "2015-12-31", "2015")]
    [InlineData("2015-21", "2015-03-01", "2015-05-31", "2015-21")]
    [InlineData("2015-22", "2015-06-01", "2015-08-31", "2015-22")]
    [InlineData("2015-23", "2015-09-01", "2015-11-30", "2015-23")]
    [InlineData("2015-24", "2015-12-01", "2016-02-29", "2015-24")]
    [InlineData("2015~", "2014-01-01", "2016-12-31", "2015~")]
    [InlineData("2015-06?", "2015-05-01", "2015-07-31", "2015-06?")]
    [InlineData("2015-06-30%", "2015-06-27", "2015-07-03", "2015-06-30%")]
    [InlineData("201X", "2010-01-01", "2019-12-31", "201X")]
    [InlineData("201x~", "2005-01-01", "2024-12-31", "201X~")]
    [InlineData("[2014..2016]", "2014-01-01", "2016-12-31", "[2014..2016]")]
    [InlineData("2014/2016", "2014-01-01", "2016-12-31", "[2014..2016]")]
    [InlineData("2014-03..2016~", "2014-03-01", "2017-12-31", "[2014-03..2016~]")]
    [InlineData("[..2012]", null, "2012-12-31", "[..2012]")]
    [InlineData("../2012", null, "2012-12-31", "[..2012]")]
    [InlineData("[2012..]", "2012-01-01", null, "[2012..]")]
    [InlineData("2012/..", "2012-01-01", null, "[2012..]")]
    [InlineData("unknown", null, null, "unknown")]
    [InlineData("", null, null, "unknown")]
    [InlineData("??", null, null, "unknown")]
    public void Reads_what_people_and_iso8601_2_write(string text, string? earliest, string? latest, string canonical)
    {
        Assert.True(UnevenDate.TryParse(text, out var date, out var why), why);
        Assert.Equal(Day(earliest), date.Earliest);
        Assert.Equal(Day(latest), date.Latest);
        Assert.Equal(canonical, date.ToString());
        Assert.Equal(canonical != "unknown", date.IsKnown);
    }

    [Theory]
    [InlineData("2015-02-30", "that month has 28 days")]
    [InlineData("2015-13", "months run from 01 to 12")]
    [InlineData("2015-25", "21 to 24 are spring, summer, autumn and winter")]
    [InlineData("2015-00-10", "months run from 01 to 12")]
    [InlineData("0000", "years run from 0001")]
    [InlineData("2016/2014", "write the earlier date first")]
    [InlineData("03/04/2015", "is not a date")]
    [InlineData("2015/06", "is not a date")]
    [InlineData("yesterday", "Write 2015")]
    [InlineData("2015-06\n", null)]
    public void Refuses_with_the_reason(string text, string? reason)
    {
        if (reason is null)
        {
            Assert.Equal("2015-06", UnevenDate.Parse(text).ToString());
            return;
        }

        Assert.False(UnevenDate.TryParse(text, out var date, out var why));
        Assert.Equal(UnevenDate.Unknown, date);
        Assert.Contains(reason, why, StringComparison.Ordinal);
        Assert.Contains(reason, Assert.Throws<Refusal>(() => UnevenDate.Parse(text)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Midpoint_lies_between_the_ends_and_open_ends_count_as_the_known_one()
    {
        Assert.Equal(new DateOnly(2015, 7, 2), UnevenDate.Parse("2015").Midpoint);
        Assert.Equal(new DateOnly(2015, 7, 2), UnevenDate.Parse("2015~").Midpoint);
        Assert.Equal(new DateOnly(2012, 12, 31), UnevenDate.Parse("[..2012]").Midpoint);
        Assert.Equal(new DateOnly(2012, 1, 1), UnevenDate.Parse("[2012..]").Midpoint);
        Assert.Null(UnevenDate.Unknown.Midpoint);
    }

    [Fact]
    public void Certainty_needs_both_dates_to_leave_no_overlap()
    {
        Assert.True(UnevenDate.Parse("2014").CertainlyBefore(UnevenDate.Parse("2015")));
        Assert.False(UnevenDate.Parse("2014~").CertainlyBefore(UnevenDate.Parse("2015")));
        Assert.False(UnevenDate.Parse("[..2012]").CertainlyBefore(UnevenDate.Parse("[..2015]")));
        Assert.False(UnevenDate.Unknown.CertainlyBefore(UnevenDate.Parse("2015")));
    }

    [Theory]
    [InlineData("2016-03-01", "10 years")]
    [InlineData("2015~", "9 to 12 years")]
    [InlineData("2026-02-01", "28 days")]
    [InlineData("2025-12", "2 to 3 months")]
    [InlineData("2025", "2 to 14 months")]
    [InlineData("[..2012]", "at least 13 years")]
    [InlineData("[2020..]", "at most 6 years")]
    [InlineData("2026", "at most 59 days")]
    [InlineData("unknown", "unknown")]
    public void An_age_is_as_uneven_as_its_date(string since, string told) =>
        Assert.Equal(told, Age.On(UnevenDate.Parse(since), new DateOnly(2026, 3, 1)).ToString());

    [Fact]
    public void Printing_and_reading_back_gives_the_same_date()
    {
        Gens.Date.Sample(
            date =>
            {
                Assert.True(UnevenDate.TryParse(date.ToString(), out var again, out var why), why);
                Assert.Equal(date, again);
                if (date is { Earliest: { } first, Latest: { } last, Midpoint: { } middle })
                    Assert.True(first <= middle && middle <= last);
            },
            seed: Gens.Seed);
    }

    [Fact]
    public void Never_throws_on_any_text()
    {
        Gen.String.Array[0, 3].Select(parts => string.Join("..", parts))
            .Sample(text => UnevenDate.TryParse(text, out _, out var why) == (why.Length == 0), seed: Gens.Seed);
    }

    private static DateOnly? Day(string? text) => text is null ? null : DateOnly.ParseExact(text, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
}
