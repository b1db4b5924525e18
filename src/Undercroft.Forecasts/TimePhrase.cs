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
    public static string Of(double days) => Rounded(days) is { Number: > 0 } span ? Worded(span.Number, span.Unit) : "less than a day";

    /// <summary>
    /// A span with its range, in one unit where both ends read well in it: "14 months (9–22 months)"; else each end in its own: "about 12 days (between a day and 10 weeks)",
    /// "about 12 months (between now and beyond 30 years)".
    /// </summary>
    /// <param name="low">The short end, days.</param>
    /// <param name="middle">The middle, days.</param>
    /// <param name="high">The long end, days; null where it lies beyond what was computed.</param>
    /// <param name="horizon">How far was computed, in words.</param>
    public static string WithRange(double low, double middle, double? high, string horizon)
    {
        var (number, unit) = Rounded(middle);
        if (high is { } end && number > 0 && ReadsWell(low, end, unit))
        {
            var (from, to) = (Number(In(unit, low)), Number(In(unit, end)));
            return from == to ? Worded(number, unit) : $"{Worded(number, unit)} ({from}–{to} {unit}s)";
        }

        return $"{(number > 0 ? "about " : "")}{Of(middle)} (between {(low < Today ? "now" : End(low))} and {(high is { } known ? End(known) : "beyond " + horizon)})";
    }

    /// <summary>True where neither end is a fraction of the unit or so many of it that people would say a larger one.</summary>
    private static bool ReadsWell(double low, double high, string unit) => low >= 0.9 * Days(unit) && In(unit, high) <= unit switch { "day" => 21, "week" => 16, "month" => 36, _ => double.MaxValue };

    private static string Worded(double number, string unit) => Number(number) is var text && text == "1" ? $"1 {unit}" : $"{text} {unit}s";

    /// <summary>An end of a range: "a day", "10 weeks".</summary>
    private static string End(double days) => Rounded(days) is { Number: 1 } one ? "a " + one.Unit : Of(days);

    private static double In(string unit, double days)
    {
        var count = days / Days(unit);
        return count < 2.95 && unit == "year" ? Math.Round(count * 2) / 2 : Math.Round(count);
    }

    private static double Days(string unit) => unit switch { "day" => 1, "week" => 7, "month" => DaysPerMonth, _ => DaysPerYear };

    private static string Number(double number) => number.ToString("0.#", CultureInfo.InvariantCulture);

    private static (double Number, string Unit) Rounded(double days) => days switch
    {
        < Today => (0, "day"),
        < 14 => (Math.Max(1, Math.Round(days)), "day"),
        < 70 => (Math.Round(days / 7), "week"),
        < 24 * DaysPerMonth => (Math.Round(days / DaysPerMonth), "month"),
        < 3 * DaysPerYear => (Math.Round(days / DaysPerYear * 2) / 2, "year"),
        _ => (Math.Round(days / DaysPerYear), "year"),
    };
}
