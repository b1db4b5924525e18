using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Drawing;
using Undercroft.Forecasts.Story;
using Undercroft.Ledger;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Forecasts.Simulating;

/// <summary>A package's story run from its first day to the horizon, in every draw.</summary>
/// <param name="Days">Output days, counted from today; negative ones lie in the past.</param>
/// <param name="Moisture">Wet basis, fraction; by day, then by draw. NaN where a draw left the range of the model, or before it was sealed.</param>
/// <param name="Activity">Water activity.</param>
/// <param name="WaterKg">Water in the leaf.</param>
/// <param name="DryKg">Dry leaf.</param>
/// <param name="OxygenPa">Partial pressure.</param>
/// <param name="TotalPa">Absolute pressure.</param>
/// <param name="DryDay">For each draw the first day below the dry line; NaN where it never is.</param>
/// <param name="FailureDay">For each draw the day on which its closure went bad; positive infinity where it is sound.</param>
/// <param name="LeftRange">How many draws left the range in which the model holds.</param>
/// <param name="Assumptions">What all this rests on.</param>
/// <param name="MassSaid">True where somebody said how much leaf it is.</param>
public sealed record Simulation(
    int[] Days, double[][] Moisture, double[][] Activity, double[][] WaterKg, double[][] DryKg, double[][] OxygenPa, double[][] TotalPa, double[] DryDay, double[] FailureDay,
    int LeftRange, IReadOnlyList<UsedAssumption> Assumptions, bool MassSaid)
{
    private const int MostStrata = 8;
    private const int LeastDrawsPerStratum = 32;
    private const int ExactEnoughDays = 45;

    /// <summary>For each draw the inner volume of the container in use today, m³.</summary>
    public double[] Capacity { get; init; } = [];

    /// <summary>How many draws.</summary>
    public int Draws => DryDay.Length;

    /// <summary>Runs a story's water in every draw; the gas follows for fewer of them, see <see cref="Again"/>.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="story">What happened, and what is planned from today.</param>
    /// <param name="ask">Today, horizon, seed, limits.</param>
    /// <param name="draws">Size of the ensemble.</param>
    /// <param name="days">Days to report, counted from today, rising.</param>
    /// <remarks>A sealing date that is known to the year only is cut into strata of equal probability, each run with its own first day.</remarks>
    public static Simulation Run(Cellar cellar, PackageStory story, ForecastAsk ask, int draws, int[] days)
    {
        ArgumentNullException.ThrowIfNull(story);
        ArgumentNullException.ThrowIfNull(ask);
        ArgumentNullException.ThrowIfNull(days);
        var parts = Strata(story, ask, draws).Select(stratum => RunFrom(cellar, story, ask, stratum, null, false, days)).ToList();
        return parts.Count == 1 ? parts[0] : Joined(parts);
    }

    /// <summary>Some of the draws once more: with their oxygen and pressure, or with another leak.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="story">As first run.</param>
    /// <param name="ask">As first run.</param>
    /// <param name="draws">How many were first run.</param>
    /// <param name="chosen">Which of them; the answer stands in the order of the strata, not in theirs.</param>
    /// <param name="withGas">True to follow the gas in full.</param>
    /// <param name="days">Days to report.</param>
    public static (Simulation Run, Chosen InOrder) Again(Cellar cellar, PackageStory story, ForecastAsk ask, int draws, Chosen chosen, bool withGas, int[] days)
    {
        ArgumentNullException.ThrowIfNull(chosen);
        List<Simulation> parts = [];
        List<int> order = [];
        List<double> leaks = [];
        var first = 0;
        foreach (var stratum in Strata(story, ask, draws))
        {
            var here = chosen.Within(first, stratum.Draws.Count);
            if (here.Draws.Length > 0)
                parts.Add(RunFrom(cellar, story, ask, stratum, here, withGas, days));
            order.AddRange(here.Draws.Select(draw => draw + first));
            leaks.AddRange(here.Leak);
            first += stratum.Draws.Count;
        }

        return (parts.Count == 1 ? parts[0] : Joined(parts), new([.. order], [.. leaks]));
    }

    /// <summary>The draws at some places, in that order: after measurements have spoken.</summary>
    public Simulation At(int[] draws) => this with
    {
        Moisture = Each(Moisture, draws), Activity = Each(Activity, draws), WaterKg = Each(WaterKg, draws), DryKg = Each(DryKg, draws),
        DryDay = Picked(DryDay, draws), FailureDay = Picked(FailureDay, draws), Capacity = Picked(Capacity, draws),
    };

    /// <summary>Place of a day in <see cref="Days"/>.</summary>
    public int IndexOf(int day) => Array.BinarySearch(Days, day) is >= 0 and var found ? found
        : throw new ArgumentOutOfRangeException(nameof(day), day, "That day was not asked for.");

    private static Simulation RunFrom(Cellar cellar, PackageStory story, ForecastAsk ask, Stratum stratum, Chosen? chosen, bool withGas, int[] days)
    {
        var drawn = CourseDraws.Of(cellar, story, ask, stratum.Draws, stratum.Start, PlaceBelief.TodayIndex + days[^1], withGas);
        int[] wanted = [.. days.Where(day => PlaceBelief.TodayIndex + day >= stratum.Start).Select(day => PlaceBelief.TodayIndex + day)];
        var course = new Course(
            stratum.Draws.Count, drawn.Leaf.DryKg, drawn.Leaf.Leaf, drawn.Leaf.Moisture, drawn.Stays, wanted, [new Limit.MoistureBelow(ask.Limits.DryBelow / 100)]) { WithGas = withGas, CountsMouldDays = false };
        var ran = EnsembleEngine.Run(chosen is null ? course : chosen.Of(course));
        var before = days.Length - wanted.Length;
        double[][] Padded(double[][] rows) => [.. Enumerable.Range(0, before).Select(_ => Enumerable.Repeat(double.NaN, ran.Draws).ToArray()), .. rows];
        return new(
            days, Padded(ran.MoistureWetBasis), Padded(ran.Activity), Padded(ran.Water), Padded(ran.DryMass), Padded(ran.Oxygen), Padded(ran.Total),
            Array.ConvertAll(ran.FirstDay[0], day => day - PlaceBelief.TodayIndex), Array.ConvertAll(chosen is null ? drawn.FailureDay : Picked(drawn.FailureDay, chosen.Draws), day => day - PlaceBelief.TodayIndex),
            ran.LeftRangeCount, drawn.Assumptions, drawn.Leaf.MassSaid) { Capacity = chosen is null ? drawn.Capacity : Picked(drawn.Capacity, chosen.Draws) };
    }

    private static IEnumerable<Stratum> Strata(PackageStory story, ForecastAsk ask, int draws)
    {
        var starts = Starts(story, ask.Today, draws);
        for (var k = 0; k < starts.Length; k++)
        {
            var count = ((k + 1) * draws / starts.Length) - (k * draws / starts.Length);
            yield return new(starts[k], new SeededDraws(ask.Seed + ((ulong)k * 0x9E3779B97F4A7C15UL), count, ask.Swapped));
        }
    }

    private readonly record struct Stratum(int Start, SeededDraws Draws);

    private static int[] Starts(PackageStory story, DateOnly today, int draws)
    {
        var middle = Index(story.FirstDay, today);
        var latestStart = story.Chapters.Count > 1 && !story.Package.Sealed.IsKnown ? Index(story.FirstDay.AddDays((int)story.Chapters[1].FromDay), today) : PlaceBelief.TodayIndex;
        if (story.Sealed is not { Earliest: { } first, Latest: { } end } || end.DayNumber - first.DayNumber <= ExactEnoughDays)
            return [Math.Clamp(middle, 0, PlaceBelief.TodayIndex)];
        var strata = Math.Clamp(draws / LeastDrawsPerStratum, 1, MostStrata);
        return
        [
            .. Enumerable.Range(0, strata).Select(k => Math.Clamp(
                Index(first.AddDays((int)((end.DayNumber - first.DayNumber) * (k + 0.5) / strata)), today), 0, Math.Max(0, latestStart))),
        ];
    }

    private static int Index(DateOnly day, DateOnly today) => PlaceBelief.TodayIndex + day.DayNumber - today.DayNumber;

    private static Simulation Joined(List<Simulation> parts)
    {
        double[][] Rows(Func<Simulation, double[][]> of) => [.. Enumerable.Range(0, parts[0].Days.Length).Select(n => parts.SelectMany(part => of(part)[n]).ToArray())];
        return parts[0] with
        {
            Moisture = Rows(part => part.Moisture), Activity = Rows(part => part.Activity), WaterKg = Rows(part => part.WaterKg), DryKg = Rows(part => part.DryKg),
            OxygenPa = Rows(part => part.OxygenPa), TotalPa = Rows(part => part.TotalPa), DryDay = [.. parts.SelectMany(part => part.DryDay)],
            FailureDay = [.. parts.SelectMany(part => part.FailureDay)], Capacity = [.. parts.SelectMany(part => part.Capacity)], LeftRange = parts.Sum(part => part.LeftRange),
        };
    }

    private static double[][] Each(double[][] rows, int[] draws) => Array.ConvertAll(rows, row => Picked(row, draws));

    private static double[] Picked(double[] row, int[] draws) => Array.ConvertAll(draws, draw => row[draw]);
}
