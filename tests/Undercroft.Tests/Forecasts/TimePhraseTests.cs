using Undercroft.Forecasts;
using Xunit;

namespace Undercroft.Tests.Forecasts;

/// <summary>Every range names its unit, and no end is a fraction of one.</summary>
public sealed class TimePhraseTests
{
    [Theory]
    [InlineData(270, 430, 670.0, "14 months (9–22 months)")]
    [InlineData(5, 9, 20.0, "9 days (5–20 days)")]
    [InlineData(3650, 7300, 11000.0, "20 years (10–30 years)")]
    [InlineData(0.7, 12, 67.0, "about 12 days (between a day and 10 weeks)")]
    [InlineData(3, 120, 1035.0, "about 4 months (between 3 days and 3 years)")]
    [InlineData(0, 365, null, "about 12 months (between now and beyond 30 years)")]
    [InlineData(200, 365, null, "about 12 months (between 7 months and beyond 30 years)")]
    [InlineData(0, 0.3, 3.0, "less than a day (between now and 3 days)")]
    [InlineData(430, 432, 434.0, "14 months")]
    public void A_range_names_its_units(double low, double middle, double? high, string said) => Assert.Equal(said, TimePhrase.WithRange(low, middle, high, "30 years"));

    [Theory]
    [InlineData(0, "less than a day")]
    [InlineData(1, "1 day")]
    [InlineData(21, "3 weeks")]
    [InlineData(430, "14 months")]
    [InlineData(7300, "20 years")]
    public void A_span_is_never_no_time(double days, string said) => Assert.Equal(said, TimePhrase.Of(days));
}
