using System.Globalization;
using Undercroft.Ledger.Dates;

namespace Undercroft.Forecasts;

/// <summary>How finely a computed day is known: as finely as the date that it counts from.</summary>
public enum KnownTo
{
    /// <summary>To a few days.</summary>
    Day,

    /// <summary>To a month or a season.</summary>
    Month,

    /// <summary>To a year or so.</summary>
    Year,

    /// <summary>Worse than that.</summary>
    Decade,
}

/// <summary>The day on which a look falls due.</summary>
/// <param name="On">The middle of when it may be.</param>
/// <param name="KnownTo">How finely.</param>
/// <param name="NeverLookedAt">True where nobody ever looked at it, and it came into the records only after that day: nobody was late.</param>
public readonly record struct LookDue(DateOnly On, KnownTo KnownTo, bool NeverLookedAt = false)
{
    private const int FewDays = 14;
    private const int Season = 100;
    private const int AboutAYear = 3 * 366; // a year said with "about" is widened by one on both sides

    /// <summary>So many days after a date.</summary>
    /// <param name="day">The middle of the date.</param>
    /// <param name="since">The date as well as it is known.</param>
    /// <param name="days">To add.</param>
    public static LookDue After(DateOnly day, UnevenDate since, int days) => new(day.AddDays(days), Grain(since));

    /// <summary>The day never more exact than it is known: "2019-07-04", "about 2019-07", "about 2019", "about the 2010s".</summary>
    public string Words => KnownTo switch
    {
        KnownTo.Day => On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        KnownTo.Month => On.ToString("'about' yyyy-MM", CultureInfo.InvariantCulture),
        KnownTo.Year => On.ToString("'about' yyyy", CultureInfo.InvariantCulture),
        _ => string.Create(CultureInfo.InvariantCulture, $"about the {On.Year / 10}0s"),
    };

    /// <summary>The same in a sentence: "due since about 2019", "due by 2027-03-01"; no blame where nobody could have looked.</summary>
    /// <param name="today">The present.</param>
    public string Said(DateOnly today) => On > today ? $"due by {Words}" : NeverLookedAt ? "never looked at" : $"due since {Words}";

    /// <summary>What nothing is known of counts from the day it was written down, and that is one day.</summary>
    private static KnownTo Grain(UnevenDate since) => (since.Earliest, since.Latest) switch
    {
        _ when !since.IsKnown => KnownTo.Day,
        ({ } first, { } last) => (last.DayNumber - first.DayNumber) switch
        {
            <= FewDays => KnownTo.Day,
            <= Season => KnownTo.Month,
            <= AboutAYear => KnownTo.Year,
            _ => KnownTo.Decade,
        },
        _ => KnownTo.Decade,
    };
}
