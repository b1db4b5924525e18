using Undercroft.Forecasts;
using Undercroft.Forecasts.Simulating;
using Undercroft.Forecasts.Story;
using Undercroft.Keeping.Adding;
using Undercroft.Keeping.Measuring;
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

    /// <summary>How much leaf is in it was not said, so that it follows from what such a bag holds: a measured one narrows that, and with it when the leaf is dry.</summary>
    [Fact]
    public void A_measured_container_narrows_the_forecast_and_the_advice_moves_on()
    {
        var amountUnknown = Bag with { Net = null };
        var before = Run(amountUnknown);
        var after = Run(amountUnknown, Measured(new ContainerSize(Empty: "9g", Full: "1007.2g")));
        Assert.True(LogSpread(after.Run.Capacity) < 0.1 * LogSpread(before.Run.Capacity));
        Assert.InRange(after.Run.Capacity.Average(), 0.99e-3, 1.01e-3);
        Assert.True(LogSpread(after.Run.DryKg[^1]) < LogSpread(before.Run.DryKg[^1]));
        Assert.Contains(Candidates.MeasureContainer, Candidates.Of(before.Cellar.Cellar, before.Story, before.Run).Select(candidate => candidate.Measurement));
        Assert.DoesNotContain(Candidates.MeasureContainer, Candidates.Of(after.Cellar.Cellar, after.Story, after.Run).Select(candidate => candidate.Measurement));
    }

    [Fact]
    public void A_recognised_container_narrows_the_forecast_and_the_advice_moves_on()
    {
        var cellar = new OneCellar();
        var id = cellar.Add(Bag with { Container = null });
        var before = Forecaster.Of(cellar.Cellar, id, Ask).NarrowedBy!;
        Assert.Equal(Candidates.NameContainer, before.Measurement);
        cellar.Say("2026-05-01", new Fact.ContainerStated(id, Measured(new ContainerSize(Kind: "jar-237"))));
        var after = Forecaster.Of(cellar.Cellar, id, Ask).NarrowedBy!;
        Assert.NotEqual(Candidates.NameContainer, after.Measurement);
        Assert.True(after.SpreadNow < 0.8 * before.SpreadNow, $"{before} {after}");
    }

    private static double LogSpread(double[] values) => Math.Sqrt(values.Average(value => Math.Pow(Math.Log(value) - values.Average(Math.Log), 2)));

    /// <summary>What the act writes.</summary>
    private static Container Measured(ContainerSize size)
    {
        var cellar = new OneCellar();
        var id = cellar.Add(Bag);
        var said = Measure.Contained(cellar.Cellar.Packages[id], cellar.Cellar, new(Today, new DateTimeOffset(Today, new TimeOnly(12, 0), TimeSpan.Zero)), size);
        return ((Fact.ContainerStated)said.Fact).Container;
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
