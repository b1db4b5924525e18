using System.Globalization;
using Undercroft.Ledger.Dates;

namespace Undercroft.Shell;

/// <summary>Dates of uneven precision in words for paper, never more exact than they are known.</summary>
public static class DateText
{
    private static readonly string[] Seasons = ["spring", "summer", "autumn", "winter"];

    /// <summary>Such as <c>2020-03</c>, <c>about 2019</c>, <c>2014 to 2016</c>, <c>spring 2015</c>, <c>2010s</c>, <c>by 2012</c>; empty where unknown.</summary>
    public static string Of(UnevenDate date)
    {
        var text = date.ToString();
        if (!date.IsKnown)
            return "";
        if (!text.StartsWith('['))
            return Point(text);
        var ends = text[1..^1].Split("..");
        return (ends[0].Length, ends[1].Length) switch
        {
            (0, _) => "by " + Point(ends[1]),
            (_, 0) => "from " + Point(ends[0]) + " on",
            _ => $"{Point(ends[0])} to {Point(ends[1])}",
        };
    }

    /// <summary>A day as the standard writes it.</summary>
    public static string Of(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Point(string text)
    {
        var mark = text[^1];
        if (mark is '~' or '?' or '%')
            return (mark == '?' ? "perhaps " : "about ") + Point(text[..^1]);
        if (text.EndsWith('X'))
            return text.Replace('X', '0') + "s";
        var parts = text.Split('-');
        return parts.Length == 2 && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var month) && month is >= 21 and <= 24 ? $"{Seasons[month - 21]} {parts[0]}" : text;
    }
}
