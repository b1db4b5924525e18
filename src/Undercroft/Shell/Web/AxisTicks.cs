using System.Globalization;

namespace Undercroft.Shell.Web;

/// <summary>A mark on an axis.</summary>
public readonly record struct Tick(double At, string Label);

/// <summary>Round marks for an axis of values or of days.</summary>
internal static class AxisTicks
{
    /// <summary>At most about <paramref name="wanted"/> marks at multiples of 1, 2 or 5 times a power of ten.</summary>
    internal static IReadOnlyList<Tick> OfValues(double from, double to, int wanted)
    {
        var step = RoundStep((to - from) / Math.Max(1, wanted));
        var decimals = Math.Clamp((int)Math.Ceiling(-Math.Log10(step) - 1e-9), 0, 6);
        var ticks = new List<Tick>();
        for (var k = (long)Math.Ceiling((from / step) - 1e-9); k * step <= to + (1e-9 * step); k++)
            ticks.Add(new(k * step, (k * step).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)));
        return ticks;
    }

    /// <summary>Years, months or days, whichever gives at most <paramref name="wanted"/> marks; written as ISO 8601 dates, which every language reads alike.</summary>
    /// <param name="start">The calendar day of day 0.</param>
    /// <param name="from">First day of the axis.</param>
    /// <param name="to">Last day of the axis.</param>
    /// <param name="wanted">Most marks that fit.</param>
    internal static IReadOnlyList<Tick> OfDays(DateOnly start, double from, double to, int wanted)
    {
        var first = start.AddDays(Clamped(start, Math.Floor(from)));
        var last = start.AddDays(Clamped(start, Math.Ceiling(to)));
        foreach (var years in (int[])[1, 2, 5, 10, 20, 50, 100, 200, 500])
        {
            var ticks = Years(start, first, last, years, from, to);
            if (ticks.Count > wanted)
                continue;
            return ticks.Count >= 3 || years > 1 ? ticks : Months(start, first, last, from, to, wanted);
        }

        return [];
    }

    private static List<Tick> Months(DateOnly start, DateOnly first, DateOnly last, double from, double to, int wanted)
    {
        foreach (var months in (int[])[1, 2, 3, 6])
        {
            var ticks = new List<Tick>();
            for (var day = new DateOnly(first.Year, 1, 1); day <= last && day.Year < 9999; day = day.AddMonths(months))
                Add(ticks, start, day, from, to, "yyyy-MM");
            if (ticks.Count <= wanted)
                return ticks.Count >= 3 || months > 1 ? ticks : Days(start, from, to, wanted);
        }

        return [];
    }

    private static List<Tick> Days(DateOnly start, double from, double to, int wanted)
    {
        var step = Math.Max(1, (int)Math.Ceiling((to - from) / wanted));
        var ticks = new List<Tick>();
        for (var day = Math.Ceiling(from); day <= to && ticks.Count < wanted; day += step)
            ticks.Add(new(day, start.AddDays(Clamped(start, day)).ToString("MM-dd", CultureInfo.InvariantCulture)));
        return ticks;
    }

    private static List<Tick> Years(DateOnly start, DateOnly first, DateOnly last, int years, double from, double to)
    {
        var ticks = new List<Tick>();
        for (var year = Math.Max(1, first.Year - (first.Year % years)); year <= Math.Min(last.Year, 9998); year += years)
            Add(ticks, start, new(year, 1, 1), from, to, "yyyy");
        return ticks;
    }

    private static void Add(List<Tick> ticks, DateOnly start, DateOnly day, double from, double to, string form)
    {
        double at = day.DayNumber - start.DayNumber;
        if (at >= from && at <= to)
            ticks.Add(new(at, day.ToString(form, CultureInfo.InvariantCulture)));
    }

    private static int Clamped(DateOnly start, double days) =>
        (int)Math.Clamp(days, DateOnly.MinValue.DayNumber - start.DayNumber, DateOnly.MaxValue.DayNumber - start.DayNumber);

    private static double RoundStep(double rough)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        var part = rough / power;
        return power * (part <= 1 + 1e-9 ? 1 : part <= 2 + 1e-9 ? 2 : part <= 5 + 1e-9 ? 5 : 10);
    }
}
