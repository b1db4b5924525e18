using Undercroft.Forecasts;
using Undercroft.Forecasts.Simulating;
using Undercroft.Forecasts.Story;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Xunit;

namespace Undercroft.Tests.Forecasts;

public sealed class CandidatesTests
{
    private static readonly DateOnly Today = new(2026, 5, 16);
    private static readonly ForecastAsk Ask = new(Today, Years: 5, Draws: 128) { WaterOnly = true };

    private static AddRequest Bag => new("Test", "burley", "ribbon", "100g", Container: "bag-zip", Sealed: "2026-01-16", Place: "closet", Moisture: "14%");

    [Fact]
    public void A_container_that_was_measured_need_not_be_measured()
    {
        Assert.Contains(Candidates.MeasureContainer, Offered(Bag));
        Assert.DoesNotContain(Candidates.MeasureContainer, Offered(Bag, new Container(Capacity: StatedVolume.Parse("1l", SaidBy.Weighed))));
    }

    [Fact]
    public void Who_knows_the_container_is_not_asked_for_it()
    {
        Assert.Contains("say what it is packed in", Offered(Bag with { Container = null }));
        Assert.DoesNotContain("say what it is packed in", Offered(Bag));
    }

    /// <summary>The same package, its moisture to come resting now on this, now on that: what to measure follows what the doubt rests on.</summary>
    [Fact]
    public void Another_dominant_uncertainty_gets_another_advice()
    {
        var (cellar, story, run) = Run(Bag);
        var grid = Grid.Of(Ask.Years);
        int[] at = [.. grid.Select(run.IndexOf)];
        var forecast = Forecaster.Of(cellar.Cellar, story.Package.Id, Ask with { WithNarrowing = false });
        var now = run.IndexOf(0);
        var weeks = run.IndexOf(Grid.ThreeWeeks);
        string Advice(Func<int, double> restsOn)
        {
            var moisture = run.Moisture.Select(row => row.Select((_, i) => 0.12 + (0.01 * restsOn(i))).ToArray()).ToArray();
            return Candidates.Best(cellar.Cellar, story, run with { Moisture = moisture }, forecast, grid, at)!.Measurement;
        }

        Assert.Equal(Candidates.MeasureContainer, Advice(Standing(i => run.Capacity[i])));
        Assert.StartsWith("read the humidity", Advice(Standing(i => run.Activity[now][i])), StringComparison.Ordinal);
        Assert.StartsWith("weigh it now and again", Advice(Standing(i => run.WaterKg[weeks][i] - run.WaterKg[now][i])), StringComparison.Ordinal);

        Func<int, double> Standing(Func<int, double> of)
        {
            int[] order = [.. Enumerable.Range(0, run.Draws).OrderBy(of)];
            var places = new double[run.Draws];
            for (var n = 0; n < order.Length; n++)
                places[order[n]] = (double)n / order.Length;
            return i => places[i];
        }
    }

    private static string[] Offered(AddRequest request, Container? measured = null)
    {
        var (cellar, story, run) = Run(request, measured);
        return [.. Candidates.Of(cellar.Cellar, story, run).Select(candidate => candidate.Measurement)];
    }

    private static (OneCellar Cellar, PackageStory Story, Simulation Run) Run(AddRequest request, Container? measured = null)
    {
        var cellar = new OneCellar();
        var id = cellar.Add(request);
        if (measured is not null)
            cellar.Say("2026-05-01", new Fact.ContainerStated(id, measured));
        var story = PackageStory.Of(cellar.Cellar, cellar.Cellar.Packages[id], Today);
        return (cellar, story, Simulation.Run(cellar.Cellar, story, Ask, Ask.Draws, [.. Grid.Of(Ask.Years).Append(Grid.ThreeWeeks).Order()]));
    }
}
