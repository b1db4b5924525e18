using Undercroft.Physics.Climate;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>A stay cut into seasons, and the steps of each, made once for all groups that step alike.</summary>
internal sealed class SeasonPlan
{
    /// <summary>Seasons in a year.</summary>
    public const int Seasons = 4;

    /// <summary>The most steps in a season: thirteen days each.</summary>
    public const int MostSteps = 7;

    private const int SeasonDays = 91;
    private const double Growth = 1.35;
    private const double FirstShare = 10; // of a usual step, the first after something happened

    private readonly int period;
    private readonly double[] middle;
    private readonly SharedWeather? shared;
    private readonly StepTable?[] whole = new StepTable?[Seasons * (MostSteps + 1)];
    private readonly Dictionary<(int From, int Length, int Steps, bool First), StepTable> parts = [];
    private readonly Dictionary<int, float[]> dates = [];

    /// <summary>Cuts a stay.</summary>
    /// <param name="stay">Which.</param>
    /// <param name="middle">Weights of a usual draw.</param>
    /// <param name="shared">What all draws feel alike, or null.</param>
    public SeasonPlan(Stay stay, double[] middle, SharedWeather? shared)
    {
        (Basis, this.middle, this.shared, period) = (stay.Place.Basis, middle, shared, stay.Place.Cells);
        GoesRound = stay.Place.Periodic && period is > 300 and < 400;
        IsPeriodic = stay.Place.Periodic;
        List<int> edges = [stay.FromDay];
        while (edges[^1] < stay.ToDay)
            edges.Add(Math.Min(stay.ToDay, GoesRound ? NextSeason(edges[^1]) : edges[^1] + SeasonDays));
        Edges = [.. edges];
    }

    /// <summary>Weather of the place.</summary>
    public TemperatureBasis Basis { get; }

    /// <summary>True where every year is like the other and seasons begin on the same days.</summary>
    public bool GoesRound { get; }

    /// <summary>True where the table goes round, whatever its period.</summary>
    public bool IsPeriodic { get; }

    /// <summary>First days of the seasons of the stay, and its last.</summary>
    public int[] Edges { get; }

    /// <summary>The day of the year, or the day itself where years differ.</summary>
    public int DayOfYear(int day) => IsPeriodic ? day % period : day;

    /// <summary>Which season begins on a day; −1 for none.</summary>
    public int SeasonAt(int day)
    {
        if (!GoesRound)
            return -1;
        for (var season = 0; season < Seasons; season++)
        {
            if (day % period == season * period / Seasons)
                return season;
        }

        return -1;
    }

    /// <summary>The steps of a whole season.</summary>
    public StepTable Whole(int season, int steps) => whole[(season * (MostSteps + 1)) + steps]
        ??= Made(season * period / Seasons, ((season + 1) * period / Seasons) - (season * period / Seasons), steps, first: false);

    /// <summary>The steps of part of a season.</summary>
    /// <param name="from">First day.</param>
    /// <param name="to">Last day.</param>
    /// <param name="steps">As many as a whole season would take.</param>
    /// <param name="first">True for short steps first, after something happened.</param>
    public StepTable Part(int from, int to, int steps, bool first)
    {
        var key = (DayOfYear(from), to - from, steps, first);
        if (!parts.TryGetValue(key, out var table))
            table = parts[key] = Made(key.Item1, key.Item2, steps, first);
        return table;
    }

    /// <summary>The integrals of one day.</summary>
    private float[] Day(int day)
    {
        var date = DayOfYear(day);
        if (dates.TryGetValue(date, out var known))
            return known;
        if (!IsPeriodic)
            dates.Clear(); // no day comes twice
        var made = new double[SharedWeather.End];
        Basis.Between(day, day + 1, made.AsSpan(0, TemperatureBasis.Width));
        shared?.Fill(made);
        return dates[date] = Array.ConvertAll(made, value => (float)value);
    }

    /// <summary>The integrals of the day that begins, or of the day before where the table ends.</summary>
    public float[] DayOf(int day, out bool ahead)
    {
        ahead = IsPeriodic || Basis.Reaches(day + 1);
        return Day(ahead ? day : day - 1);
    }

    private StepTable Made(int from, int length, int steps, bool first)
    {
        if (IsPeriodic)
            from += period; // so that it has a day before
        List<int> days = [from];
        var longest = Math.Max(1.0, SeasonDays / (double)steps);
        var step = first ? Math.Max(1, longest / FirstShare) : longest;
        while (days[^1] < from + length)
        {
            var left = from + length - days[^1];
            var even = (int)Math.Ceiling(left / Math.Ceiling(left / Math.Min(step, longest) - 1e-9));
            days.Add(days[^1] + Math.Clamp(step < longest ? (int)Math.Round(Math.Min(step, left)) : even, 1, left));
            step = Math.Min(longest, step * Growth);
        }

        return new(Basis, [.. days], IsPeriodic ? null : period, middle, shared);
    }

    private int NextSeason(int day)
    {
        var year = day / period * period;
        for (var season = 1; season <= Seasons; season++)
        {
            if (year + (season * period / Seasons) > day)
                return year + (season * period / Seasons);
        }

        throw new InvalidOperationException("A year has a next season.");
    }
}
