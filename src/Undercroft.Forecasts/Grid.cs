namespace Undercroft.Forecasts;

/// <summary>The days of a forecast: close together at first, where things that dry in weeks move, then the seasons, then once a year.</summary>
public static class Grid
{
    /// <summary>Mean length of a year, days.</summary>
    public const double DaysPerYear = 365.25;

    /// <summary>When a second weighing is compared with a first.</summary>
    public const int ThreeWeeks = 21;

    /// <summary>Days from today, rising, the first 0 and the last the horizon.</summary>
    /// <param name="years">Horizon.</param>
    public static int[] Of(double years)
    {
        var horizon = Math.Max(1, (int)Math.Round(years * DaysPerYear));
        List<int> days = [0, 7, 14, 30, 61, 91, 122, 152, 183, 244, 304];
        for (var quarter = 4; quarter < 12; quarter++)
            days.Add((int)Math.Round(quarter * DaysPerYear / 4));
        for (var year = 3; year <= years; year++)
            days.Add((int)Math.Round(year * DaysPerYear)); // the same season each time, so that a year's swing does not look like a trend
        return [.. days.Where(day => day < horizon).Append(horizon).Distinct().Order()];
    }
}
