using Undercroft.Physics.Climate;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>Where the steps of a part of a season are short.</summary>
internal enum Short
{
    /// <summary>All are alike.</summary>
    Nowhere,

    /// <summary>After something happened.</summary>
    First,

    /// <summary>Before a row, for what follows the weather of the last days.</summary>
    Last,
}

/// <summary>A stay cut into seasons, and the steps of each, made once for all groups that step alike.</summary>
internal sealed class SeasonPlan
{
    /// <summary>Seasons in a year.</summary>
    public const int Seasons = 4;

    /// <summary>The most steps in a season: thirteen days each.</summary>
    public const int MostSteps = 7;

    private const int SeasonDays = 91;
    private const int LongerDays = 2; // of a season that ends on an output day
    private const int ShorterDays = 10;
    private const double Longer = 0.06; // of a step, rather than one step more
    private const double Growth = 1.35;
    private const double LastGrowth = 2.4;
    private const double FirstShare = 10; // of a usual step, the first after something happened

    private readonly int period;
    private readonly double[] middle;
    private readonly SharedWeather? shared;
    private readonly Dictionary<(int Season, int Steps, Felt Felt), StepTable> whole = [];
    private readonly Dictionary<(int From, int Length, int Steps, Short Where, Felt Felt), StepTable> parts = [];
    private readonly Dictionary<int, float[]> dates = [];

    /// <summary>Cuts a stay.</summary>
    /// <param name="stay">Which.</param>
    /// <param name="middle">Weights of a usual draw.</param>
    /// <param name="shared">What all draws feel alike, or null.</param>
    /// <param name="outputs">Days that are told: where no year repeats, seasons end on them if they can.</param>
    public SeasonPlan(Stay stay, double[] middle, SharedWeather? shared, IReadOnlyList<int> outputs)
    {
        (Basis, this.middle, this.shared, period) = (stay.Place.Basis, middle, shared, stay.Place.Cells);
        GoesRound = stay.Place.Periodic && period is > 300 and < 400;
        IsPeriodic = stay.Place.Periodic;
        List<int> edges = [stay.FromDay];
        while (edges[^1] < stay.ToDay)
            edges.Add(Math.Min(stay.ToDay, GoesRound ? NextSeason(edges[^1]) : About(edges[^1] + SeasonDays, outputs)));
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
    public StepTable Whole(int season, int steps, Felt felt)
    {
        if (whole.TryGetValue((season, steps, felt), out var table))
            return table;
        var from = season * period / Seasons;
        return whole[(season, steps, felt)] = Made(from, ((season + 1) * period / Seasons) - from, steps, Short.Nowhere, felt);
    }

    /// <summary>The steps of part of a season.</summary>
    /// <param name="from">First day.</param>
    /// <param name="to">Last day.</param>
    /// <param name="steps">As many as a whole season would take.</param>
    /// <param name="where">Where steps are short.</param>
    /// <param name="felt">By whom.</param>
    public StepTable Part(int from, int to, int steps, Short where, Felt felt)
    {
        var key = (DayOfYear(from), to - from, steps, where, felt);
        if (!parts.TryGetValue(key, out var table))
            table = parts[key] = Made(key.Item1, key.Item2, steps, where, felt);
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

    private StepTable Made(int from, int length, int steps, Short where, Felt felt)
    {
        if (IsPeriodic)
            from += period; // so that it has a day before
        return new(WeatherSteps.Of(Basis, (from, length, steps, where), () => new(Basis, Cut(from, length, steps, where), IsPeriodic ? null : period)), middle, shared, felt);
    }

    private static int[] Cut(int from, int length, int steps, Short where)
    {
        List<int> days = [from], late = [from + length];
        var longest = Math.Max(1.0, SeasonDays / (double)steps);
        for (var last = 1.0; where == Short.Last && last < longest && late[0] - from > last; last *= LastGrowth)
            late.Insert(0, late[0] - (int)last);
        var step = where == Short.First ? Math.Max(1, longest / FirstShare) : longest;
        while (days[^1] < late[0])
        {
            var left = late[0] - days[^1];
            var even = (int)Math.Ceiling(left / Math.Ceiling((left / Math.Min(step, longest)) - Longer));
            days.Add(days[^1] + Math.Clamp(step < longest ? (int)Math.Round(Math.Min(step, left)) : even, 1, left));
            step = Math.Min(longest, step * Growth);
        }

        return [.. days, .. late.Skip(1)];
    }

    /// <summary>The last output day about another day, or that one itself.</summary>
    private static int About(int day, IReadOnlyList<int> outputs)
    {
        var (low, high) = (0, outputs.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = outputs[middle] <= day + LongerDays ? (middle + 1, high) : (low, middle);
        }

        return low > 0 && outputs[low - 1] > day - ShorterDays ? outputs[low - 1] : day;
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
