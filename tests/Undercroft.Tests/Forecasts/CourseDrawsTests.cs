using Undercroft.Forecasts;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Drawing;
using Undercroft.Forecasts.Story;
using Undercroft.Keeping.Adding;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Solving;
using Xunit;

namespace Undercroft.Tests.Forecasts;

public sealed class CourseDrawsTests
{
    private static readonly DateOnly Today = new(2026, 5, 16);

    private static AddRequest Request => new("Test", "burley", "ribbon", "100g", Container: "jar-473", Sealed: "2024-05-16", Place: "closet", Moisture: "14%");

    /// <summary>Source: own assumption, ± 20 % of the median, two standard deviations at most.</summary>
    [Fact]
    public void Energies_of_a_jar_are_drawn()
    {
        var seal = Of(Request, withGas: false).Stays[^1].Paths[0];
        var median = seal.Median.Water.ActivationEnergy;
        Assert.NotNull(seal.Energies);
        Assert.Equal(0.6 * median, seal.Energies.Water.Range.Lowest, 0.02 * median);
        Assert.Equal(1.4 * median, seal.Energies.Water.Range.Highest, 0.02 * median);
        Assert.Equal(median, seal.Energies.Water.Median, 0.01 * median);
    }

    /// <summary>In a place of 23 °C an energy changes nothing; in a cold one it spreads what a bag lets through.</summary>
    [Fact]
    public void Energies_of_a_bag_go_into_its_conductances_where_gas_is_followed()
    {
        var paths = Of(Request with { Container = "bag-zip" }, withGas: true).Stays[^1].Paths;
        Assert.All(paths, path => Assert.Null(path.Energies));
        var film = paths[0];
        double[] apart = [.. Enumerable.Range(0, 64).Select(i => film.Water[i] / film.Viscous[i])]; // the flow has no energy: its factor is the draw's own
        Assert.True(apart.Max() / apart.Min() > 1.01);
        Assert.InRange(apart.Max() / apart.Min(), 1.01, 2);
    }

    /// <summary>Source: the model's derived range of the heat of sorption, 1400 to 4200 J/mol about 2500, read as a 90 % interval.</summary>
    [Fact]
    public void The_heat_of_sorption_is_drawn()
    {
        double[] heat = [.. Of(Request, withGas: false).Leaf.Leaf.Select(leaf => leaf.SorptionHeat)];
        Assert.InRange(Quantile.Of([.. heat], 0.05), 1300, 1600);
        Assert.InRange(Quantile.Of([.. heat], 0.95), 3900, 4700);
    }

    [Fact]
    public void Every_draw_says_what_it_rests_on()
    {
        var used = Of(Request, withGas: false).Assumptions;
        Assert.Contains(used, each => each.What.Contains("warmth speeds up", StringComparison.Ordinal) && each.Evidence.Provenance == Provenance.Assumption);
        Assert.Contains(used, each => each.What.Contains("drives water out", StringComparison.Ordinal) && each.Evidence.Provenance == Provenance.Derived);
    }

    private static CourseDraws Of(AddRequest request, bool withGas)
    {
        var cellar = new OneCellar();
        var id = cellar.Add(request);
        var story = PackageStory.Of(cellar.Cellar, cellar.Cellar.Packages[id], Today);
        return CourseDraws.Of(cellar.Cellar, story, new ForecastAsk(Today), new SeededDraws(1, 64), PlaceBelief.TodayIndex - 730, PlaceBelief.TodayIndex + 365, withGas);
    }
}
