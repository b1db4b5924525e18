using System.Globalization;
using Undercroft.Ledger.Dates;

namespace Undercroft.Shell;

/// <summary>Dates in words for paper and pages.</summary>
public static class DateText
{
    /// <summary>As well as it is known; empty where unknown.</summary>
    public static string Of(UnevenDate date) => date.InWords();

    /// <summary>A day as the standard writes it.</summary>
    public static string Of(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
