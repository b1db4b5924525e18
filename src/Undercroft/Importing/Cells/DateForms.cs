using System.Globalization;
using System.Text.RegularExpressions;

namespace Undercroft.Importing.Cells;

/// <summary>The plain forms of a date, without any word around it.</summary>
public static partial class DateText
{
    private const int OldestYear = 1850;
    private static readonly string[] SeasonWords = ["spring", "summer", "autumn", "winter"];

    private static DateCell Core(string s, DateOnly today, int depth)
    {
        if (s.Length == 0)
            return Nothing;
        if (s.StartsWith("../", StringComparison.Ordinal) && Core(s[3..], today, depth + 1) is DateCell.Known { Date: var until })
            return new DateCell.Known(until.Last is null ? until : SheetDate.Until(until));
        if (s.EndsWith("/..", StringComparison.Ordinal) && Core(s[..^3], today, depth + 1) is DateCell.Known { Date: var since })
            return new DateCell.Known(since.First is null ? since : SheetDate.Since(since));
        if (YearAlone().Match(s) is { Success: true } year)
            return YearOf(Int(year.Groups[1]), s);
        if (ShortYear().Match(s) is { Success: true } shortYear)
            return new DateCell.Known(SheetDate.Year(Century(Int(shortYear.Groups[1]), today)));
        if (Decade().Match(s) is { Success: true } decade)
        {
            var start = decade.Groups["full"].Success ? Int(decade.Groups["full"]) * 10 : Century(Int(decade.Groups["short"]) * 10, today);
            return start < OldestYear ? Nothing : new DateCell.Known(SheetDate.Between(SheetDate.Year(start), SheetDate.Year(start + 9)));
        }

        if (YearMonthDay().Match(s) is { Success: true } ymd)
            return DayOf(Int(ymd.Groups["y"]), Int(ymd.Groups["m"]), Int(ymd.Groups["d"]), s, null);
        if (YearMonth().Match(s) is { Success: true } ym)
            return YearAndTwo(Int(ym.Groups[1]), Int(ym.Groups[2]), ym.Groups[2].Value.Length, s);
        if (MonthYear().Match(s) is { Success: true } my)
            return MonthOf(Int(my.Groups[2]), Int(my.Groups[1]), s);
        if (MonthAndShortYear().Match(s) is { Success: true } short2)
            return MonthShort(Int(short2.Groups[1]), Int(short2.Groups[2]), s, today);
        if (CompactMonth().Match(s) is { Success: true } compact)
            return MonthOf(Int(compact.Groups[1]), Int(compact.Groups[2]), s);
        if (ThreeParts().Match(s) is { Success: true } three)
            return ThreeOf(Int(three.Groups[1]), Int(three.Groups[3]), three.Groups[4].Value, three.Groups[2].Value[0], s, today);
        if (Quarter().Match(s) is { Success: true } quarter)
        {
            var of = YearText(quarter.Groups["y1"].Success ? quarter.Groups["y1"].Value : quarter.Groups["y2"].Value, today);
            var q = Int(quarter.Groups["q1"].Success ? quarter.Groups["q1"] : quarter.Groups["q2"].Success ? quarter.Groups["q2"] : quarter.Groups["q3"]);
            return of < OldestYear ? Nothing : new DateCell.Known(SheetDate.Between(SheetDate.Month(of, (q * 3) - 2), SheetDate.Month(of, q * 3)));
        }

        return Named(s, today) ?? Range(s, today, depth) ?? Nothing;
    }

    // With the name of a month or a season.
    private static DateCell? Named(string s, DateOnly today)
    {
        int? month = null, season = null;
        var christmas = false;
        var numbers = new List<(string Text, bool Short, bool Ordinal)>();
        var short2 = false;
        foreach (Match part in Pieces().Matches(s))
        {
            var text = part.Value;
            if (char.IsAsciiDigit(text[0]))
            {
                numbers.Add((text, short2, false));
                short2 = false;
            }
            else if (text == "'")
            {
                short2 = true;
            }
            else if (DateWords.Months.TryGetValue(text, out var m) && month is null)
            {
                month = m;
            }
            else if (DateWords.Seasons.TryGetValue(text, out var code) && season is null)
            {
                season = code;
            }
            else if (DateWords.Christmas.Contains(text))
            {
                christmas = true;
            }
            else if (text is "st" or "nd" or "rd" or "th" or "er" && numbers.Count > 0)
            {
                numbers[^1] = numbers[^1] with { Ordinal = true };
            }
            else if (!DateWords.Filler.Contains(text))
            {
                return null;
            }
        }

        if (season is { } known && month is null && numbers.Count is 1 or 2)
            return YearText(numbers[0].Text, today) is var of && of >= OldestYear ? new DateCell.Known(SheetDate.Season(of, known)) : null;
        if (christmas && month is null && numbers.Count == 1)
            return YearText(numbers[0].Text, today) is var when && when >= OldestYear ? new DateCell.Known(SheetDate.Month(when, 12).About()) : null;
        if (month is not { } named || season is not null || christmas)
            return null;
        if (numbers.Count == 1)
            return OneNumber(s, named, numbers[0], today);
        if (numbers.Count != 2)
            return null;
        var (first, second) = (numbers[0], numbers[1]);
        if (first.Text.Length == 4)
            (first, second) = (second, first);
        return first.Text.Length <= 2 && YearText(second.Text, today) is var year && year >= OldestYear ? DayOf(year, named, int.Parse(first.Text, CultureInfo.InvariantCulture), s, null) : null;
    }

    private static DateCell? OneNumber(string s, int month, (string Text, bool Short, bool Ordinal) number, DateOnly today)
    {
        if (number.Text.Length == 4)
            return MonthOf(int.Parse(number.Text, CultureInfo.InvariantCulture), month, s);
        if (number.Text.Length != 2 || number.Ordinal)
            return null;
        if (number.Short || HyphenYear().IsMatch(s) || int.Parse(number.Text, CultureInfo.InvariantCulture) is 0 or > 31)
            return MonthOf(YearText(number.Text, today), month, s);
        return new DateCell.Doubtful($"'{s}' may be a day of a month or a month of a year.", string.Create(CultureInfo.InvariantCulture, $"{YearText(number.Text, today):0000}-{month:00}"));
    }

    private static DateCell YearOf(int year, string s) => year is < OldestYear or > 2200
        ? year is < 1000 ? Nothing : new DateCell.Doubtful($"the year '{s}' cannot be right.")
        : new DateCell.Known(SheetDate.Year(year));

    private static DateCell YearAndTwo(int year, int two, int digits, string s)
    {
        if (year is < OldestYear or > 2200)
            return Nothing;
        if (two is >= 1 and <= 12)
            return new DateCell.Known(SheetDate.Month(year, two));
        if (digits == 2 && two > year % 100)
        {
            return two is >= 21 and <= 24 && s.Contains('-', StringComparison.Ordinal)
                ? new DateCell.Doubtful($"'{s}' may be a season of {year} or the years {year} to {(year / 100 * 100) + two}.", string.Create(CultureInfo.InvariantCulture, $"[{year}..{(year / 100 * 100) + two}]"), $"{SeasonWords[two - 21]} {year}")
                : new DateCell.Known(SheetDate.Between(SheetDate.Year(year), SheetDate.Year((year / 100 * 100) + two)));
        }

        return new DateCell.Doubtful($"'{s}' names a month {two}, which does not exist.", $"{year}");
    }

    private static DateCell MonthOf(int year, int month, string s) => year is < OldestYear or > 2200
        ? Nothing
        : month is < 1 or > 12 ? new DateCell.Doubtful($"'{s}' names a month {month}, which does not exist.", $"{year}") : new DateCell.Known(SheetDate.Month(year, month));

    // "9/15" is a month of a year more often than a day of one; only a number that no month has days for decides.
    private static DateCell MonthShort(int month, int two, string s, DateOnly today)
    {
        var year = Century(two, today);
        return month is < 1 or > 12 ? Nothing
            : two > 31 ? MonthOf(year, month, s)
            : new DateCell.Doubtful($"'{s}' may be a month and a year, or a day and a month.", string.Create(CultureInfo.InvariantCulture, $"{year:0000}-{month:00}"));
    }

    private static DateCell DayOf(int year, int month, int day, string s, bool? dayFirst)
    {
        if (year is < OldestYear or > 2200)
            return new DateCell.Doubtful($"the year of '{s}' cannot be right.");
        if (month is < 1 or > 12)
            return new DateCell.Doubtful($"'{s}' names a month {month}, which does not exist.", day is >= 1 and <= 12 && month <= 31 ? [string.Create(CultureInfo.InvariantCulture, $"{year:0000}-{day:00}-{month:00}"), $"{year}"] : [$"{year}"]);
        return day < 1 || day > DateTime.DaysInMonth(year, month)
            ? new DateCell.Doubtful($"'{s}' names a day that does not exist.", string.Create(CultureInfo.InvariantCulture, $"{year:0000}-{month:00}"), $"{year}")
            : new DateCell.Known(SheetDate.Day(new DateOnly(year, month, day)), dayFirst);
    }

    private static DateCell ThreeOf(int a, int b, string last, char mark, string s, DateOnly today)
    {
        if (last.Length == 2 && a > 31)
            return DayOf(Century(a, today), b, int.Parse(last, CultureInfo.InvariantCulture), s, null);
        var year = YearText(last, today);
        if (a > 12 && b > 12)
            return new DateCell.Doubtful($"'{s}' names a day that does not exist.", $"{year}");
        if (a > 12)
            return DayOf(year, b, a, s, true);
        if (b > 12)
            return DayOf(year, a, b, s, false);
        // Points separate day from month in that order wherever they are used; equal numbers read the same both ways.
        if (a == b)
            return DayOf(year, a, b, s, null);
        if (mark == '.')
            return DayOf(year, b, a, s, true);
        return DayOf(year, b, a, s, null) is DateCell.Known { Date: var dayFirst } && DayOf(year, a, b, s, null) is DateCell.Known { Date: var monthFirst }
            ? new DateCell.Either(dayFirst, monthFirst)
            : new DateCell.Doubtful($"'{s}' names a day that does not exist.", $"{year}");
    }

    private static int YearText(string text, DateOnly today)
    {
        var year = int.Parse(text, CultureInfo.InvariantCulture);
        return text.Length <= 2 ? Century(year, today) : year;
    }

    private static int Century(int two, DateOnly today)
    {
        var century = today.Year / 100 * 100;
        return two <= today.Year % 100 ? century + two : century - 100 + two;
    }

    private static int Int(Group group) => int.Parse(group.ValueSpan, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"[〇零一二三四五六七八九十]+(?=[年月日])", RegexOptions.CultureInvariant)]
    private static partial Regex HanNumber();

    [GeneratedRegex(@"^(\d{4})$", RegexOptions.CultureInvariant)]
    private static partial Regex YearAlone();

    [GeneratedRegex(@"^'(\d{2})$", RegexOptions.CultureInvariant)]
    private static partial Regex ShortYear();

    [GeneratedRegex(@"^(?:(?<full>\d{3})(?:x|\?|-|_)|(?<full>(?:19|20)\d)0'?(?:s|er|ies)|'?(?<short>\d)0'?(?:s|er))$", RegexOptions.CultureInvariant)]
    private static partial Regex Decade();

    [GeneratedRegex(@"^(?<y>\d{4})[-/. ](?<m>\d{1,2})[-/. ](?<d>\d{1,2})$|^(?<y>(?:19|20)\d{2})(?<m>\d{2})(?<d>\d{2})$", RegexOptions.CultureInvariant)]
    private static partial Regex YearMonthDay();

    [GeneratedRegex(@"^(\d{4})[-/.](\d{1,2})$", RegexOptions.CultureInvariant)]
    private static partial Regex YearMonth();

    [GeneratedRegex(@"^(\d{1,2})[-/. ](\d{4})$", RegexOptions.CultureInvariant)]
    private static partial Regex MonthYear();

    [GeneratedRegex(@"^(\d{1,2})/(\d{2})$", RegexOptions.CultureInvariant)]
    private static partial Regex MonthAndShortYear();

    [GeneratedRegex(@"^((?:19|20)\d{2})(0[1-9]|1[0-2])$", RegexOptions.CultureInvariant)]
    private static partial Regex CompactMonth();

    [GeneratedRegex(@"^(\d{1,2})([-/. ])(\d{1,2})[-/. ]((?:\d{2}){1,2})$", RegexOptions.CultureInvariant)]
    private static partial Regex ThreeParts();

    [GeneratedRegex(@"^(?:q(?<q1>[1-4])[ /-]*'?(?<y1>\d{4}|\d{2})|(?<y2>\d{4})[ /-]*q(?<q2>[1-4])|(?<q3>[1-4])q[ /-]*'?(?<y1>\d{4}|\d{2}))$", RegexOptions.CultureInvariant)]
    private static partial Regex Quarter();

    [GeneratedRegex(@"\d{1,4}|'|\p{L}+", RegexOptions.CultureInvariant)]
    private static partial Regex Pieces();

    [GeneratedRegex(@"^\p{L}+\.?[-/]\d{2}$", RegexOptions.CultureInvariant)]
    private static partial Regex HyphenYear();
}
