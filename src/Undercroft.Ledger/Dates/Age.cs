using System.Globalization;

namespace Undercroft.Ledger.Dates;

/// <summary>An age as well as it is known.</summary>
/// <param name="AtLeast">In days; null where nothing bounds it.</param>
/// <param name="AtMost">In days; null where nothing bounds it.</param>
public readonly record struct Age(int? AtLeast, int? AtMost)
{
    private const double DaysAYear = 365.2425;

    /// <summary>The age on a day of what began on a date. Never less than nothing: what may begin later counts as new.</summary>
    /// <param name="since">When it began.</param>
    /// <param name="today">The day.</param>
    public static Age On(UnevenDate since, DateOnly today) => new(
        since.Latest is { } last ? Math.Max(today.DayNumber - last.DayNumber, 0) : since.IsKnown ? 0 : null,
        since.Earliest is { } first ? Math.Max(today.DayNumber - first.DayNumber, 0) : null);

    /// <summary>In words, rounded, such as <c>9 to 11 years</c>, <c>3 months</c>, <c>at least 4 years</c>, <c>unknown</c>.</summary>
    public override string ToString() => (AtLeast, AtMost) switch
    {
        (null, null) => "unknown",
        (null or 0, { } most) when most > 0 => $"at most {Told(most)}",
        ({ } least, null) => least == 0 ? "unknown" : $"at least {Told(least)}",
        ({ } least, { } most) when Told(least) == Told(most) => Told(most),
        ({ } least, { } most) when Unit(least).Name == Unit(most).Name => $"{Count(least)} to {Told(most)}",
        ({ } least, { } most) => $"{Told(least)} to {Told(most)}",
        (null, { } most) => Told(most),
    };

    private static (string Name, double Days) Unit(int days) => days switch
    {
        < 60 => ("day", 1),
        < 730 => ("month", DaysAYear / 12),
        _ => ("year", DaysAYear),
    };

    private static string Count(int days) => Math.Round(days / Unit(days).Days).ToString(CultureInfo.InvariantCulture);

    private static string Told(int days) => Count(days) is var count && count == "1" ? $"1 {Unit(days).Name}" : $"{count} {Unit(days).Name}s";
}
