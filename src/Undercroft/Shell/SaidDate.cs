using System.Globalization;
using System.Text.RegularExpressions;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Shell.Logs;

namespace Undercroft.Shell;

/// <summary>
/// A date as a person says it: as the standard writes it, or plainly where that cannot be misread, such as <c>May 2019</c>, <c>summer 2019</c>, <c>05/2019</c>, <c>3 May 2019</c>, <c>2010s</c>.
/// Seasons are those of the northern half of the earth, as in <see cref="UnevenDate"/>.
/// </summary>
public static partial class SaidDate
{
    private static readonly Dictionary<string, int> Seasons = new()
    {
        ["spring"] = 21, ["fruhling"] = 21, ["fruhjahr"] = 21, ["printemps"] = 21, ["summer"] = 22, ["sommer"] = 22, ["ete"] = 22,
        ["autumn"] = 23, ["fall"] = 23, ["herbst"] = 23, ["automne"] = 23, ["winter"] = 24, ["hiver"] = 24,
    };

    /// <summary>Reads it.</summary>
    /// <exception cref="Refusal">No date, or one with two readings; the message names what to write.</exception>
    public static UnevenDate Read(string? text)
    {
        if (UnevenDate.TryParse(text, out var date, out var why))
            return date;
        var body = LogWords.Fold(text!).Trim();
        var mark = About().Match(body) is { Success: true } about ? (about.Groups["perhaps"].Success ? "?" : "~", about.Length) : ("", 0);
        return Plain(body[mark.Item2..].Trim(), text!.Trim()) is { } plain && UnevenDate.TryParse(plain + mark.Item1, out date, out why) ? date : throw new Refusal(why);
    }

    /// <summary>The same as the standard writes it; null where it is none of the plain forms.</summary>
    /// <exception cref="Refusal">Two readings.</exception>
    private static string? Plain(string body, string shown)
    {
        if (int.TryParse(body, NumberStyles.None, CultureInfo.InvariantCulture, out _) && body.Length == 4)
            return body;
        if (Decade().Match(body) is { Success: true } decade)
            return decade.Groups["ten"].Value + "X";
        if (YearFirst().Match(body) is { Success: true } all)
            return Day(all.Groups["year"].Value, Number(all, "month"), Number(all, "day"));
        if (MonthAndYear().Match(body) is { Success: true } numbers)
            return Month(numbers.Groups["year"].Value, Number(numbers, "month"));
        if (DayAndMonth().Match(body) is { Success: true } three)
            return Ordered(three.Groups["year"].Value, Number(three, "first"), Number(three, "second"), shown);
        if (Named().Match(body) is not { Success: true } named)
            return null;
        var (word, year) = (named.Groups["word"].Value, named.Groups["year"].Value);
        if (named.Groups["day"].Success)
            return LogWords.Month(word) is > 0 and var of ? Day(year, of, Number(named, "day")) : null;
        return Seasons.TryGetValue(word, out var season) ? Month(year, season) : LogWords.Month(word) is > 0 and var month ? Month(year, month) : null;
    }

    /// <summary>Day and month in either order: read where only one of them can be the month, or both are the same.</summary>
    private static string? Ordered(string year, int first, int second, string shown) => (first, second) switch
    {
        (> 12, <= 12) => Day(year, second, first),
        (<= 12, > 12) => Day(year, first, second),
        _ when first == second => Day(year, first, first),
        ( <= 12, <= 12) => throw new Refusal($"'{shown}' can mean {Day(year, second, first)} or {Day(year, first, second)}: write one of these."),
        _ => null,
    };

    private static string Day(string year, int month, int day) => string.Create(CultureInfo.InvariantCulture, $"{year}-{month:00}-{day:00}");

    private static string Month(string year, int month) => string.Create(CultureInfo.InvariantCulture, $"{year}-{month:00}");

    private static int Number(Match match, string group) => int.Parse(match.Groups[group].Value, NumberStyles.None, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(~ *|about |around |circa |ca\.? ?(?=\d)|(?<perhaps>perhaps |maybe ))", RegexOptions.CultureInvariant)]
    private static partial Regex About();

    [GeneratedRegex(@"^(?<ten>[0-9]{3})0'?s\z", RegexOptions.CultureInvariant)]
    private static partial Regex Decade();

    [GeneratedRegex(@"^(?<year>[0-9]{4})[./](?<month>[0-9]{1,2})[./](?<day>[0-9]{1,2})\z", RegexOptions.CultureInvariant)]
    private static partial Regex YearFirst();

    [GeneratedRegex(@"^((?<month>0?[1-9]|1[0-2])[./-](?<year>[0-9]{4})|(?<year>[0-9]{4})[./](?<month>0?[1-9]|1[0-2]))\z", RegexOptions.CultureInvariant)]
    private static partial Regex MonthAndYear();

    [GeneratedRegex(@"^(?<first>[0-9]{1,2})[./-] ?(?<second>[0-9]{1,2})[./-] ?(?<year>[0-9]{4})\z", RegexOptions.CultureInvariant)]
    private static partial Regex DayAndMonth();

    [GeneratedRegex(@"^(?:(?:(?<day>[0-9]{1,2})(?:st|nd|rd|th|\.)? *(?:of )?)?(?<word>\p{L}+)\.?,? +(?<year>[0-9]{4})|(?<year>[0-9]{4}),? +(?<word>\p{L}+)|(?<word>\p{L}+) +(?<day>[0-9]{1,2})(?:st|nd|rd|th)?,? +(?<year>[0-9]{4}))\z", RegexOptions.CultureInvariant)]
    private static partial Regex Named();
}
