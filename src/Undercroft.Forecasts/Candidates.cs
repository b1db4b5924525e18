using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Simulating;
using Undercroft.Forecasts.Story;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Forecasts;

/// <summary>What a person could measure to narrow a forecast.</summary>
public static class Candidates
{
    /// <summary>In words: the container's own volume.</summary>
    public const string MeasureContainer = "measure the container: weigh one like it empty and full of water";

    /// <summary>In words: the kind of container, where nobody knows it.</summary>
    public const string NameContainer = "say what it is packed in";

    /// <summary>Where only its sort is known: "say which tin it is".</summary>
    private const string NameWhich = "say which ";

    /// <summary>True where a measurement is to say what the package is packed in.</summary>
    public static bool IsToName(string? measurement) => measurement == NameContainer || measurement?.StartsWith(NameWhich, StringComparison.Ordinal) == true;

    private const double UsualKg = 1e-4;
    private const double HygrometerSd = 0.03;

    /// <summary>The one that helps most, judged by moisture on the day when the middle draw gets dry, or at the horizon.</summary>
    public static Narrowing? Best(Cellar cellar, PackageStory story, Simulation run, PackageForecast forecast, int[] grid, int[] at)
    {
        ArgumentNullException.ThrowIfNull(story);
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(forecast);
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(at);
        var day = forecast.DryDay.P50 is { } dry and > 0 ? Math.Max(1, Array.FindLastIndex(grid, each => each <= dry)) : grid.Length - 1;
        int[] whole = [.. Enumerable.Range(0, run.Draws).Where(i => !double.IsNaN(run.Moisture[at[day]][i]))];
        if (whole.Length < run.Draws / 2)
            return null;
        var answer = Array.ConvertAll(whole, i => 100 * run.Moisture[at[day]][i]);
        return Narrowing.Best(answer, [.. Of(cellar, story, run).Select(candidate => candidate with { Predicted = Array.ConvertAll(whole, i => candidate.Predicted[i]) })]);
    }

    /// <summary>All that could be measured, as each draw predicts it.</summary>
    public static IEnumerable<CandidateMeasurement> Of(Cellar cellar, PackageStory story, Simulation run)
    {
        ArgumentNullException.ThrowIfNull(story);
        ArgumentNullException.ThrowIfNull(run);
        var now = run.IndexOf(0);
        var container = ContainerBelief.Of(cellar, story.Chapters[^1].Container);
        if (!container.IsKnown)
        {
            yield return new(
                container.Family is { } family ? $"{NameWhich}{family.Word} it is" : NameContainer, [.. Enumerable.Range(0, run.Draws).Select(i => (double)(i % container.Kinds.Count))], 0.01);
        }
        else if (container is { OwnCapacity: null, CanBeMeasured: true } && run.Capacity.Length == run.Draws)
        {
            yield return new(MeasureContainer, Array.ConvertAll(run.Capacity, Math.Log), ContainerBelief.MeasuredLogSd);
        }

        var sd = Measurements.WeighingSd(UsualKg);
        if (LastGross(story) is { } day && day < 0)
            yield return new("weigh it now, to 0.1 g", Change(run, run.IndexOf(day), now), sd * Math.Sqrt(2));
        yield return new("weigh it now and again in three weeks, to 0.1 g", Change(run, now, run.IndexOf(Grid.ThreeWeeks)), sd * Math.Sqrt(2));
        yield return new("read the humidity inside, a small hygrometer closed in for a day", run.Activity[now], HygrometerSd);
    }

    private static int? LastGross(PackageStory story) => story.Package.Timeline.LastOrDefault(entry => entry.Fact is Fact.PackageWeighed { Net: false } or Fact.PackagesAdded { Gross.IsKnown: true }) is { } entry
        ? entry.Day.DayNumber - story.FirstDay.DayNumber - (int)story.Today
        : null;

    private static double[] Change(Simulation run, int from, int to) =>
        [.. run.WaterKg[to].Select((water, i) => double.IsNaN(run.WaterKg[from][i]) ? 0 : water - run.WaterKg[from][i])];
}
