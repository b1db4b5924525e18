using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Comparing;
using Undercroft.Forecasts.Drawing;
using Undercroft.Forecasts.Simulating;
using Undercroft.Forecasts.Story;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Solving;

namespace Undercroft.Forecasts;

/// <summary>From a cellar to the forecast of a package: its story is run in many draws, measurements choose among them, and the answer is put in words.</summary>
public static class Forecaster
{
    /// <summary>More draws than asked for are run where measurements will choose among them.</summary>
    public const int DrawsPerChosen = 8;

    /// <summary>Fewer draws give no 5 and 95 % quantiles worth the name.</summary>
    public const int LeastDraws = 32;

    /// <summary>Gas is dear to follow and decides no date: one draw in so many carries it.</summary>
    public const int WaterDrawsPerGasDraw = 4;

    private const double StakeYears = 1; // a ranking asks what is lost within a year; days beyond it change nothing

    /// <summary>The forecast of one package that is here.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="id">Which.</param>
    /// <param name="ask">Horizon, draws, seed, what if.</param>
    /// <exception cref="Refusal">A container kind, place, horizon or number of draws that cannot be.</exception>
    public static PackageForecast Of(Cellar cellar, PackageId id, ForecastAsk ask)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(ask);
        Check(ask);
        var told = Tell(cellar, id, ask);
        if (ask.WaterOnly)
            return Answer(cellar, told.Story, ask, told.Run, told.Grid, told.Readings, told.Remarks);
        var (gas, _) = Simulation.Again(
            cellar, told.Story, ask, told.Draws, told.Chosen.At(Spread(told.Chosen.Draws.Length, Math.Max(LeastDraws, ask.Draws / WaterDrawsPerGasDraw))), withGas: true, told.Days);
        return Answer(cellar, told.Story, ask, told.Run with { OxygenPa = gas.OxygenPa, TotalPa = gas.TotalPa }, told.Grid, told.Readings, told.Remarks);
    }

    /// <summary>What of one package can still be saved: of a forecast no more than a ranking needs.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="id">Which.</param>
    /// <param name="ask">Horizon, draws, seed, what if.</param>
    /// <exception cref="Refusal">As <see cref="Of(Cellar, PackageId, ForecastAsk)"/>.</exception>
    public static Stake StakeOf(Cellar cellar, PackageId id, ForecastAsk ask)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(ask);
        Check(ask);
        ask = ask with { Years = Math.Min(ask.Years, StakeYears) };
        var told = Tell(cellar, id, ask);
        int[] at = [.. told.Grid.Select(told.Run.IndexOf)];
        var now = told.Run.IndexOf(0);
        return StakeOf(told.Run, now, DryOf(told.Run, now, told.Grid, at, ask.Limits), at, ask, Findings.Lasted(told.Story.Package));
    }

    private static Told Tell(Cellar cellar, PackageId id, ForecastAsk ask)
    {
        var package = cellar.Packages[id];
        var story = PackageStory.Of(cellar, package, ask.Today).From(
            ask.InKind is { } kind ? new Container(KnownKinds.Get(cellar, kind).Code) : null, ask.InPlace is { } place ? cellar.FindPlace(place).Id : null, ask.Opening, ask.Years);
        var grid = Grid.Of(ask.Years);
        int[] days = [.. Measurements.Days(story).Concat(grid).Append(Grid.ThreeWeeks).Distinct().Order()];
        var readings = Measurements.Of(story);
        var draws = readings.Count > 0 ? ask.Draws * DrawsPerChosen : ask.Draws;
        var run = Simulation.Run(cellar, story, ask, draws, days);
        var chosen = Chosen.All(draws);
        List<string> remarks = [.. ask.InKind is { } into && package.BookNet.Mid is { } leaf ? Comparer.TooMuchFor(KnownKinds.Get(cellar, into), leaf, Cuts.Find(cellar.BlendOf(package).Cut ?? "")) : []];
        if (run.LeftRange > 0)
            remarks.Add($"{run.LeftRange} of {run.Draws} draws left the range in which the model holds; they are left out.");
        if (readings.Count > 0)
        {
            var agreement = Agreement.Of(run, readings, ask.Draws);
            if (agreement.Tempering < 1 && Agreement.ByLoss(run, readings, draws / 2, new SeededDraws(ask.Seed, draws / 2).Normal($"{id}/loss")) is { } leaky)
            {
                (run, chosen) = Simulation.Again(cellar, story, ask, draws, leaky, withGas: false, days);
                agreement = Agreement.Of(run, readings, ask.Draws);
            }

            chosen = chosen.At(agreement.Chosen);
            run = run.At(agreement.Chosen);
            if (agreement.Tempering < 0.5)
                remarks.Add("The measurements agree with few of the computed courses: the band is wider than the scale allows, or a reading is off.");
        }

        return new(story, run, chosen, draws, grid, days, readings.Count, remarks);
    }

    /// <summary>A package's water in every draw, after measurements have spoken.</summary>
    private sealed record Told(PackageStory Story, Simulation Run, Chosen Chosen, int Draws, int[] Grid, int[] Days, int Readings, List<string> Remarks);

    /// <summary>Some places, evenly over all of them.</summary>
    private static int[] Spread(int all, int count) => [.. Enumerable.Range(0, count).Select(n => (int)((n + 0.5) * all / count))];

    /// <summary>A question about leaf that nobody has entered: this leaf, in that container, in such a room.</summary>
    /// <param name="question">What is asked.</param>
    /// <param name="ask">Today, horizon, seed.</param>
    /// <param name="kinds">The cellar whose own container kinds may be named; null for the catalogue alone. None of its records are used.</param>
    public static PackageForecast Of(ShelfQuestion question, ForecastAsk ask, Cellar? kinds = null)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(ask);
        var cellar = question.ToCellar(ask.Today, kinds is null ? null : Cellar.Empty with { OwnContainers = kinds.OwnContainers, OwnFilms = kinds.OwnFilms });
        return Of(cellar, cellar.Here.Single().Id, ask) with { Id = null };
    }

    private static PackageForecast Answer(Cellar cellar, PackageStory story, ForecastAsk ask, Simulation run, int[] grid, int readings, List<string> remarks)
    {
        int[] at = [.. grid.Select(run.IndexOf)];
        var now = run.IndexOf(0);
        var dry = DryOf(run, now, grid, at, ask.Limits);
        var stake = StakeOf(run, now, dry, at, ask, Findings.Lasted(story.Package));
        var moulds = Moulds(run, grid, at, ask.Limits);
        var horizon = ask.Years * Grid.DaysPerYear;
        var forecast = new PackageForecast
        {
            Id = story.Package.Id,
            Verdict = "",
            Condition = Condition.Unknown,
            Days = Array.ConvertAll(grid, day => (double)day),
            Moisture = BandOf(run.Moisture, at, 100),
            Activity = BandOf(run.Activity, at, 1),
            Oxygen = BandOf(run.OxygenPa, at, 1e-3),
            Pressure = BandOf(run.TotalPa, at, 1e-3),
            DryDay = Quantiles(dry, ask.Years),
            MouldRisk = moulds.Count(hit => hit) / (double)run.Draws,
            InRange = dry.Where((day, i) => day > horizon && !moulds[i]).Count() / (double)run.Draws,
            MeanDaysUntilDry = dry.Average(day => Math.Min(day, horizon)),
            Reasons = [],
            Next = new(ask.Today, ""),
            Stake = stake,
            Assumptions = run.Assumptions,
            Remarks = remarks,
        };
        var wording = new Wording(cellar, story, ask, forecast, run.MassSaid, readings, LossWithinYear(run, now, at));
        forecast = forecast with { Condition = wording.Condition, Verdict = wording.Verdict(), Reasons = wording.Reasons(), Next = wording.Next() };
        return ask.WithNarrowing ? forecast with { NarrowedBy = Candidates.Best(cellar, story, run, forecast, grid, at) } : forecast;
    }

    private static Band BandOf(double[][] rows, int[] at, double unit)
    {
        var (low, middle, high) = (new double[at.Length], new double[at.Length], new double[at.Length]);
        Span<double> quantiles = stackalloc double[3];
        for (var n = 0; n < at.Length; n++)
        {
            Quantile.Of((double[])rows[at[n]].Clone(), [0.05, 0.5, 0.95], quantiles);
            (low[n], middle[n], high[n]) = (quantiles[0] * unit, quantiles[1] * unit, quantiles[2] * unit);
        }

        return new(low, middle, high);
    }

    /// <summary>For each draw the day from today on which it is dry: 0 where it is already, positive infinity where it never is.</summary>
    private static double[] DryOf(Simulation run, int now, int[] grid, int[] at, Limits limits)
    {
        var line = limits.DryBelow / 100;
        var days = new double[run.Draws];
        for (var i = 0; i < days.Length; i++)
        {
            if (run.Moisture[now][i] < line)
            {
                days[i] = 0;
                continue;
            }

            var first = run.DryDay[i];
            days[i] = first > 0 ? first : double.PositiveInfinity;
            if (first <= 0)
            {
                // It was dry in the past, was moistened, and may get dry again: located on the grid only.
                for (var n = 1; n < grid.Length && double.IsPositiveInfinity(days[i]); n++)
                {
                    if (run.Moisture[at[n]][i] < line)
                        days[i] = grid[n];
                }
            }
        }

        return days;
    }

    private static DryDay Quantiles(double[] dry, double years)
    {
        var horizon = years * Grid.DaysPerYear;
        double[] sorted = [.. dry.Order()];
        double? At(double share) => sorted[(int)Math.Min(sorted.Length - 1, share * sorted.Length)] is var day && day <= horizon ? day : null;
        return new(At(0.05), At(0.5), At(0.95), dry.Count(day => day <= horizon) / (double)dry.Length);
    }

    private static Stake StakeOf(Simulation run, int now, double[] dry, int[] at, ForecastAsk ask, bool lasted)
    {
        var later = Array.FindIndex(at, index => run.Days[index] >= 365);
        var year = later < 0 ? at[^1] : at[later];
        int fails = 0, dryNow = 0, moistNow = 0, bad = 0;
        for (var i = 0; i < run.Draws; i++)
        {
            var isDry = dry[i] <= 0;
            var isMoist = run.Activity[now][i] >= ask.Limits.TooMoistActivity;
            dryNow += isDry ? 1 : 0;
            moistNow += isMoist ? 1 : 0;
            bad += run.FailureDay[i] <= 0 ? 1 : 0;
            var driesSoon = !isDry && (dry[i] <= 365 || run.Moisture[year][i] < ask.Limits.DryBelow / 100);
            var mouldSoon = !lasted && run.Activity[now][i] >= ask.Limits.ActActivity && run.Activity[year][i] >= ask.Limits.ActActivity;
            fails += driesSoon || mouldSoon ? 1 : 0;
        }

        double draws = run.Draws;
        var grams = Quantile.Of([.. run.DryKg[now].Select((mass, i) => 1000 * (mass + run.WaterKg[now][i]))], 0.5);
        return new(grams, fails / draws, bad / draws, dryNow / draws, moistNow / draws) { Lasted = lasted };
    }

    /// <summary>Water that the middle draw loses over the coming year, or up to the horizon, g a year; negative where it gains.</summary>
    private static double LossWithinYear(Simulation run, int now, int[] at)
    {
        var year = Array.FindIndex(at, index => run.Days[index] >= 365) is >= 0 and var found ? at[found] : at[^1];
        return 1000 * Quantile.Of([.. run.WaterKg[now].Select((water, i) => water - run.WaterKg[year][i])], 0.5) * 365 / Math.Max(1, run.Days[year]);
    }

    /// <summary>For each draw whether it stays too moist for so long that mould is to be feared.</summary>
    private static bool[] Moulds(Simulation run, int[] grid, int[] at, Limits limits)
    {
        var hits = new bool[run.Draws];
        for (var i = 0; i < hits.Length; i++)
        {
            var since = double.NaN;
            for (var n = 0; n < grid.Length && !hits[i]; n++)
            {
                if (!(run.Activity[at[n]][i] > limits.TooMoistActivity))
                {
                    since = double.NaN;
                    continue;
                }

                since = double.IsNaN(since) ? grid[n] : since;
                hits[i] = grid[n] - since >= limits.MouldRunDays;
            }
        }

        return hits;
    }

    internal static void Check(ForecastAsk ask)
    {
        if (!(ask.Years is > 0 and <= 60))
            throw new Refusal($"A forecast over {ask.Years} years cannot be made: give more than 0 and at most 60.");
        if (ask.Draws is < LeastDraws or > 8192)
            throw new Refusal($"A forecast of {ask.Draws} draws cannot be made: give {LeastDraws} to 8192.");
    }
}
