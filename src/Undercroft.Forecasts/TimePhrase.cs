using System.Globalization;

namespace Undercroft.Forecasts;

/// <summary>Spans of time as people say them, never finer than they are known: "3 weeks", "14 months", "6 years".</summary>
public static class TimePhrase
{
    private const double DaysPerMonth = 30.4375;
    private const double DaysPerYear = 365.25;
    private const double Today = 0.5;

    /// <summary>A span from today.</summary>
    /// <param name="days">Not negative.</param>
    public static string Of(double days)
    {
        var (number, unit) = Rounded(days);
        return unit == "today" ? "no time" : Worded(number, unit);
    }

    /// <summary>A span with its range, in the same unit where that reads well: "14 months (9–22)", "12 months (between now and beyond 30 years)".</summary>
    /// <param name="low">The short end, days.</param>
    /// <param name="middle">The middle, days.</param>
    /// <param name="high">The long end, days; null where it lies beyond what was computed.</param>
    /// <param name="horizon">How far was computed, in words.</param>
    public static string WithRange(double low, double middle, double? high, string horizon)
    {
        var (number, unit) = Rounded(middle);
        if (low < Today || high is null || unit == "today")
            return $"about {Of(middle)} (between {(low < Today ? "now" : Of(low))} and {(high is { } end ? Of(end) : "beyond " + horizon)})";
        var (from, to) = (In(unit, low), In(unit, high.Value));
        return from == to ? Worded(number, unit) : $"{Worded(number, unit)} ({from}–{to})";
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
        < Today => (0, "today"),
        < 14 => (Math.Max(1, Math.Round(days)), "day"),
        < 70 => (Math.Round(days / 7), "week"),
        < 24 * DaysPerMonth => (Math.Round(days / DaysPerMonth), "month"),
        < 3 * DaysPerYear => (Math.Round(days / DaysPerYear * 2) / 2, "year"),
        _ => (Math.Round(days / DaysPerYear), "year"),
    };
}
