using System.Globalization;

namespace Undercroft.Forecasts;

/// <summary>Spans of time as people say them, never finer than they are known: "3 weeks", "14 months", "6 years".</summary>
public static class TimePhrase
{
    private const double DaysPerMonth = 30.4375;
    private const double DaysPerYear = 365.25;

    /// <summary>A span from today.</summary>
    /// <param name="days">Not negative.</param>
    public static string Of(double days)
    {
        var (number, unit) = Rounded(days);
        return unit == "today" ? "no time" : Worded(number, unit);
    }

    /// <summary>A span with its range in the same unit where that reads well: "14 months (9–22)".</summary>
    /// <param name="low">The short end, days.</param>
    /// <param name="middle">The middle, days.</param>
    /// <param name="high">The long end, days; null where it lies beyond what was computed.</param>
    public static string WithRange(double low, double middle, double? high)
    {
        var (number, unit) = Rounded(middle);
        if (unit == "today")
            return high is { } end ? $"no time (up to {Of(end)})" : "no time, or much longer";
        var lowText = In(unit, low);
        var highText = high is { } value ? In(unit, value) : "beyond the horizon";
        return lowText == highText ? Worded(number, unit) : $"{Worded(number, unit)} ({lowText}–{highText})";
    }

    private static string Worded(double number, string unit)
    {
        var text = number.ToString("0.#", CultureInfo.InvariantCulture);
        return text == "1" ? $"1 {unit}" : $"{text} {unit}s";
    }

    private static string In(string unit, double days)
    {
        var size = unit switch { "day" => 1, "week" => 7, "month" => DaysPerMonth, "year" => DaysPerYear, _ => 1 };
        var count = days / size;
        var rounded = count < 1 ? Math.Round(count, 1) : count < 2.95 && unit == "year" ? Math.Round(count * 2) / 2 : Math.Round(count);
        return rounded.ToString("0.#", CultureInfo.InvariantCulture);
    }

    private static (double Number, string Unit) Rounded(double days) => days switch
    {
        < 0.5 => (0, "today"),
        < 14 => (Math.Max(1, Math.Round(days)), "day"),
        < 70 => (Math.Round(days / 7), "week"),
        < 24 * DaysPerMonth => (Math.Round(days / DaysPerMonth), "month"),
        < 3 * DaysPerYear => (Math.Round(days / DaysPerYear * 2) / 2, "year"),
        _ => (Math.Round(days / DaysPerYear), "year"),
    };
}
