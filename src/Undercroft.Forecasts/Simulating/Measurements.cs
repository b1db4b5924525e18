using Undercroft.Forecasts.Story;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;

namespace Undercroft.Forecasts.Simulating;

/// <summary>One reading as the model can predict it.</summary>
/// <param name="Day">Counted from today.</param>
/// <param name="Value">What was read: kg, or a fraction.</param>
/// <param name="Sd">Standard deviation of its error, same unit.</param>
/// <param name="Predicted">What each draw says it should read.</param>
/// <param name="IsChange">True for the loss of weight between two weighings, which a leak scales.</param>
public sealed record Reading(int Day, double Value, double Sd, Func<Simulation, double[]> Predicted, bool IsChange = false);

/// <summary>The measurements of a package, as far as they tell draws apart.</summary>
public static class Measurements
{
    /// <summary>Scale step where nobody stated one: 0.1 g (assumption).</summary>
    public const double UsualStepKg = 1e-4;

    private const double RepeatabilityKg = 3e-5; // buoyancy of the air about a jar of 0.7 l: common practice, no source
    private const double HygrometerSd = 0.03; // small hygrometers, not checked against salts: assumption
    private const double FeelSd = 0.018; // a finger, ± 3 points in nine cases of ten: common practice, no source

    /// <summary>All readings up to today, in time order.</summary>
    public static IReadOnlyList<Reading> Of(PackageStory story)
    {
        ArgumentNullException.ThrowIfNull(story);
        List<Reading> readings = [];
        var added = (Fact.PackagesAdded)story.Package.Timeline[0].Fact;
        var tare = story.Chapters[0].Container.Tare;
        (int Day, double Kg, double Sd)? reference = added.Gross is { IsKnown: true, Mid: { } whole } ? (Counted(story, 0), whole.Kilograms, WeighingSd(UsualStepKg)) : null;
        foreach (var entry in story.Package.Timeline.Where(entry => Counted(story, entry.Day) <= 0))
        {
            var day = Counted(story, entry.Day);
            switch (entry.Fact)
            {
                case Fact.PackageRepacked repacked:
                    tare = repacked.Container.Tare;
                    reference = repacked.Gross is { IsKnown: true, Mid: { } gross } ? (day, gross.Kilograms, WeighingSd(UsualStepKg)) : null;
                    break;
                case Fact.LeafTaken or Fact.WaterAdded:
                    reference = null;
                    break;
                case Fact.PackageWeighed weighed:
                    var sd = WeighingSd(weighed.Resolution?.Kilograms ?? UsualStepKg);
                    if (weighed.Net)
                        readings.Add(new(day, weighed.Mass.Kilograms, sd, run => Leaf(run, day)));
                    else if (reference is { } before && before.Day < day)
                        readings.Add(Change(before, day, weighed.Mass.Kilograms, sd));
                    else if (Weighed(tare) is { } empty)
                        readings.Add(new(day, weighed.Mass.Kilograms - empty, sd + RepeatabilityKg, run => Leaf(run, day)));
                    if (!weighed.Net)
                        reference ??= (day, weighed.Mass.Kilograms, sd);
                    break;
                case Fact.HumidityRead read:
                    readings.Add(new(day, read.Humidity.Fraction, HygrometerSd, run => run.Activity[run.IndexOf(day)]));
                    break;
                case Fact.PackageLooked { Feel: { } feel }:
                    readings.Add(new(day, MoistureOf(feel), FeelSd, run => run.Moisture[run.IndexOf(day)]));
                    break;
                default: break; // other facts are no readings
            }
        }

        return readings;
    }

    /// <summary>Days, counted from today, that the readings need of a simulation.</summary>
    public static IEnumerable<int> Days(PackageStory story)
    {
        ArgumentNullException.ThrowIfNull(story);
        return story.Package.Timeline.Where(entry => entry.Fact is Fact.PackagesAdded or Fact.PackageWeighed or Fact.PackageRepacked or Fact.HumidityRead or Fact.PackageLooked)
            .Select(entry => Counted(story, entry.Day)).Where(day => day <= 0);
    }

    /// <summary>Standard deviation of one weighing: rounding to the step, repeatability, buoyancy.</summary>
    public static double WeighingSd(double stepKg) => Math.Sqrt((stepKg * stepKg / 12) + (0.25 * stepKg * stepKg) + (RepeatabilityKg * RepeatabilityKg));

    /// <summary>Moisture on wet basis that a feel stands for (common practice, no source).</summary>
    public static double MoistureOf(Feel feel) => feel switch
    {
        Feel.Crumbles => 0.09,
        Feel.Breaks => 0.10,
        Feel.CrispEdge => 0.125,
        Feel.SpringsBack => 0.165,
        Feel.StaysPressed => 0.19,
        Feel.Damp => 0.21,
        _ => throw new InvalidOperationException($"No moisture for {feel}."),
    };

    private static Reading Change((int Day, double Kg, double Sd) before, int day, double kg, double sd) => new(
        day, kg - before.Kg, Math.Sqrt((sd * sd) + (before.Sd * before.Sd)),
        run =>
        {
            var (from, to) = (run.WaterKg[run.IndexOf(before.Day)], run.WaterKg[run.IndexOf(day)]);
            var first = Array.FindIndex(run.Days, at => at > before.Day);
            return [.. to.Select((water, i) => water - (double.IsNaN(from[i]) ? run.WaterKg[first][i] : from[i]))];
        },
        IsChange: true);

    private static double[] Leaf(Simulation run, int day)
    {
        var at = run.IndexOf(day);
        return [.. run.WaterKg[at].Select((water, i) => water + run.DryKg[at][i])];
    }

    private static double? Weighed(StatedMass tare) => tare is { IsKnown: true, Si.Evenness: Evenness.Exact, Mid: { } mass } ? mass.Kilograms : null;

    private static int Counted(PackageStory story, DateOnly day) => day.DayNumber - story.FirstDay.DayNumber - (int)story.Today;

    private static int Counted(PackageStory story, double storyDay) => (int)(storyDay - story.Today);
}
