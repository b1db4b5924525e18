using Undercroft.Forecasts.Beliefs;
using Xunit;

namespace Undercroft.Tests.Forecasts;

public sealed class FindingsTests
{
    /// <summary>Bayes: of 100 draws 40 had failed; seen well with chance 0.3 against 1, 12 / (12 + 60) of the new draws have, 16.7.</summary>
    [Fact]
    public void A_look_that_finds_all_well_weighs_the_failed_draws_and_does_not_remove_them()
    {
        double[] days = [.. Enumerable.Range(0, 100).Select(n => n < 40 ? 100.0 + n : 5000.0 + n)];
        Findings.FoundWell(days, day: 1000, overlooked: 0.3);
        Assert.Equal(16, days.Count(day => day <= 1000));
        Assert.All(days, day => Assert.True(double.IsFinite(day))); // the others take the later failures of those found sound, not "never"
    }

    [Theory]
    [InlineData(0.0, 0)]
    [InlineData(1.0, 40)]
    public void A_look_that_overlooks_nothing_clears_and_one_that_overlooks_all_says_nothing(double overlooked, int left)
    {
        double[] days = [.. Enumerable.Range(0, 100).Select(n => n < 40 ? 100.0 : double.PositiveInfinity)];
        Findings.FoundWell(days, day: 1000, overlooked);
        Assert.Equal(left, days.Count(day => day <= 1000));
    }

    [Fact]
    public void Where_every_draw_had_failed_a_fallible_look_leaves_them_all()
    {
        double[] days = [.. Enumerable.Repeat(10.0, 50)];
        Findings.FoundWell(days, day: 1000, overlooked: 0.3);
        Assert.All(days, day => Assert.Equal(10.0, day));
    }
}
