using Undercroft.Demo;
using Undercroft.Forecasts.Due;
using Undercroft.Ledger;
using Xunit;

namespace Undercroft.Tests.Demo;

public sealed class DemoHouseholdTests
{
    private static readonly Cellar Cellar = Cellar.Fold(DemoHousehold.Events());

    [Fact]
    public void It_is_a_household_of_fifteen_years_in_four_places()
    {
        Assert.True(Cellar.Here.Count() >= 60);
        Assert.Equal(4, Cellar.Here.Select(package => package.Place).Distinct().Count());
        Assert.InRange(DemoHousehold.Day.Year - Cellar.Here.Min(package => package.Since).Year, 15, 16);
        Assert.True(Cellar.IsDemo);
        Assert.Equal(DemoHousehold.Day, Cellar.DemoDay);
    }

    [Fact]
    public void The_same_seed_tells_the_same_story()
    {
        Assert.Equal(DemoHousehold.Events(1).Select(line => line.Fact.ToString()), DemoHousehold.Events(1).Select(line => line.Fact.ToString()));
        Assert.NotEqual(DemoHousehold.Events(1).Select(line => line.Fact.ToString()), DemoHousehold.Events(2).Select(line => line.Fact.ToString()));
    }

    [Theory]
    [InlineData("bulk bag")]
    [InlineData("lid loose")]
    [InlineData("bulge")]
    [InlineData("open for")]
    [InlineData("unlined tin")]
    public void Its_story_shows_on_the_due_list(string reason) =>
        Assert.Contains(DueList.Of(Cellar, DemoHousehold.Day, 30).Items, item => item.Reason.Contains(reason, StringComparison.Ordinal));

    [Fact]
    public void It_names_nothing_odd() => Assert.Empty(Doubts.In(Cellar));
}
