using Undercroft.Forecasts;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Story;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Xunit;

namespace Undercroft.Tests.Forecasts;

/// <summary>What happens to a package on one day happens all of it, in whatever order.</summary>
public sealed class SameDayTests
{
    private static readonly ForecastAsk Ask = new(new(2026, 5, 16), Years: 2, Draws: 64) { WaterOnly = true };

    [Fact]
    public void Leaf_that_was_taken_is_gone_though_the_package_was_moved_the_same_day()
    {
        var (stayed, one) = Opened();
        var (moved, other) = Opened();
        moved.Say("2026-05-10", new Fact.PackageMoved(other, moved.Cellar.Packages[other].Place!.Value));
        Assert.Equal(Forecaster.Of(stayed.Cellar, one, Ask).Stake.Grams, Forecaster.Of(moved.Cellar, other, Ask).Stake.Grams, 0.05);
        Assert.InRange(Forecaster.Of(moved.Cellar, other, Ask).Stake.Grams, 35, 42);
    }

    [Fact]
    public void A_package_is_in_use_since_it_was_opened_whatever_came_after()
    {
        var (cellar, id) = Opened();
        cellar.Say("2026-05-14", new Fact.PackageMoved(id, cellar.Cellar.Packages[id].Place!.Value));
        Assert.Contains(Forecaster.Of(cellar.Cellar, id, Ask).Reasons, reason => reason.Contains("in use since 2026-04-10", StringComparison.Ordinal));
        Assert.Equal(new DateOnly(2026, 4, 10), PackageStory.Of(cellar.Cellar, cellar.Cellar.Packages[id], Ask.Today) is var story ? story.FirstDay.AddDays((int)story.OpenSince) : default);
    }

    [Fact]
    public void Two_packages_of_which_the_same_is_known_get_the_same_answer()
    {
        var cellar = new OneCellar();
        var request = new AddRequest("Test", "burley", "ribbon", "50g", Container: "tin-pull-50", Sealed: "2020-01-16", Place: "closet");
        PackageId[] two = [cellar.Add(request), cellar.Add(request)];
        var (one, other) = (Forecaster.Of(cellar.Cellar, two[0], Ask), Forecaster.Of(cellar.Cellar, two[1], Ask));
        Assert.Equal((one.Verdict, one.Stake), (other.Verdict, other.Stake));
        Assert.Equal(one.Moisture.P5, other.Moisture.P5);
    }

    [Theory]
    [InlineData("jar-118", true)]
    [InlineData("jar-473", false)]
    public void What_does_not_fit_is_said_where_one_asks_what_if(string kind, bool tooMuch)
    {
        var cellar = new OneCellar();
        var id = cellar.Add(new AddRequest("Test", "burley", "ribbon", "100g", Container: "bag-zip", Sealed: "2026-01-16", Place: "closet"));
        Assert.Equal(tooMuch, Forecaster.Of(cellar.Cellar, id, Ask with { InKind = kind }).Remarks.Any(remark => remark.Contains("more than the", StringComparison.Ordinal)));
    }

    /// <summary>Moist leaf moulds within half a year: who looked later and found all well need not fear it.</summary>
    [Theory]
    [InlineData("2020-03-01", false)]
    [InlineData("2021-03-01", true)]
    public void A_look_long_after_closing_speaks_against_moisture(string looked, bool lasted)
    {
        var cellar = new OneCellar();
        var id = cellar.Add(new AddRequest("Test", "burley", "ribbon", "50g", Container: "jar-237", Sealed: "2020-01-16", Place: "closet"));
        cellar.Say(looked, new Fact.PackageLooked(id, [Finding.AllWell]));
        Assert.Equal(lasted, Findings.Lasted(cellar.Cellar.Packages[id]));
        cellar.Say("2022", new Fact.WaterAdded(id, StatedMass.Parse("2g")));
        Assert.False(Findings.Lasted(cellar.Cellar.Packages[id]));
    }

    private static (OneCellar Cellar, PackageId Id) Opened()
    {
        var cellar = new OneCellar();
        var id = cellar.Add(new AddRequest("Test", "burley", "ribbon", "50g", Container: "tin-pull-50", Sealed: "2024-01-16", Place: "closet", Moisture: "15%"));
        cellar.Say("2026-04-10", new Fact.PackageOpened(id)).Say("2026-05-10", new Fact.LeafTaken(id, StatedMass.Parse("10g")));
        return (cellar, id);
    }
}
