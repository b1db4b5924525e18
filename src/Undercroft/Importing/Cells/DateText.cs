using System.Globalization;
using System.Text.RegularExpressions;

namespace Undercroft.Importing.Cells;

/// <summary>Reads a date as people write it: <c>'15</c>, <c>Spring 2020</c>, <c>ca. 2012</c>, <c>03.2014</c>, <c>12/04/2013</c>, <c>before 2012</c>, <c>41365</c>.</summary>
/// <remarks>A date that nobody wrote is never made up: what has two readings keeps both or says so.</remarks>
public static partial class DateText
{
    private static readonly DateCell Nothing = new DateCell.None();

    /// <summary>The reading of a whole cell.</summary>
    /// <param name="text">The cell.</param>
    /// <param name="today">The present: a year of two digits is never later.</param>
    /// <param name="serial">True where five bare digits may be a day number of a spreadsheet.</param>
    public static DateCell Read(string text, DateOnly today, bool serial = false)
    {
        if (text.Length > 60)
            return Nothing;
        var folded = Folding.Fold(Folding.Level(text)).Replace("(?)", "?", StringComparison.Ordinal).Replace(" ?", "?", StringComparison.Ordinal).Replace("x-mas", "xmas", StringComparison.Ordinal).Trim(' ', '(', ')', '"', ';', ',');
        if (folded.Length == 0)
            return Nothing;
        if (SmallWords.IsUnknown(folded))
            return new DateCell.Unknown();
        folded = Clock().Replace(folded, "");
        if (folded.Contains('年', StringComparison.Ordinal))
            folded = HanNumber().Replace(folded, match => QuantityPhrases.HanNumber(match.Value));
        folded = Era().Replace(folded, match => Year(match) + "年");
        folded = Han().Replace(folded, match => string.Join('-', match.Groups.Values.Skip(1).Where(part => part.Success).Select(part => part.Value)));
        folded = HanSeason().Replace(folded, "$1 $2");
        folded = Gaps().Replace(folded, "$1");
        if (serial && folded.Length == 5 && int.TryParse(folded, NumberStyles.None, CultureInfo.InvariantCulture, out var days) && days is >= 20_000 and < 60_000)
            return new DateCell.Known(SheetDate.Day(new DateOnly(1899, 12, 30).AddDays(days)));
        return (DateCell?)FromToday(folded, today) ?? Qualified(folded, today, 0);
    }

    private static DateCell Qualified(string text, DateOnly today, int depth)
    {
        bool about = false, before = false, after = false, strict = true;
        var part = 0;
        var s = text;
        for (var changed = true; changed && s.Length > 0;)
        {
            changed = false;
            var end = s.AsSpan().IndexOfAny(' ', '.', '-');
            if (s[0] is '~' or '≈' or '±' or '<' or '>' or '≤' or '≥')
            {
                about |= s[0] is '~' or '≈' or '±';
                before |= s[0] is '<' or '≤';
                after |= s[0] is '>' or '≥';
                strict &= s[0] is not ('≤' or '≥');
                s = s[1..].TrimStart();
                changed = true;
                continue;
            }

            if (end <= 0 || !char.IsLetter(s[0]))
                break;
            var word = s[..end];
            var rest = s[end..].TrimStart(' ', '.', '-');
            if (rest.Length == 0)
                break;
            changed = true;
            if (DateWords.Between.Contains(word))
                return Range(rest, today, depth) ?? Nothing;
            if (SmallWords.About.Contains(word))
                about = true;
            else if (DateWords.Early.Contains(word))
                part = 1;
            else if (DateWords.Mid.Contains(word))
                part = 2;
            else if (DateWords.Late.Contains(word))
                part = 3;
            else if (DateWords.Before.Contains(word))
                (before, strict) = (true, word is not ("by" or "till" or "until" or "bis"));
            else if (DateWords.After.Contains(word) && word is not "from")
                (after, strict) = (true, word is not ("since" or "seit"));
            else if (!DateWords.Filler.Contains(word) && word != "from" && !DateWords.Weekdays.Contains(word))
                changed = false;
            if (changed)
                s = rest.TrimStart(',', ' ');
        }

        s = Tail(s, ref about, ref before, ref after, ref strict);
        var core = Core(s, today, depth);
        if (core is DateCell.Known known)
        {
            var date = known.Date;
            if (part > 0)
                date = Part(date, part);
            if (about)
                date = date.About();
            if (before)
                date = strict ? Before(date) : date.Last is null ? date : SheetDate.Until(date);
            else if (after)
                date = strict ? After(date) : date.First is null ? date : SheetDate.Since(date);
            return known with { Date = date };
        }

        return core;
    }

    // "Before 2012" ends with 2011, "before May 2012" with the last of April.
    private static SheetDate Before(SheetDate date) => date.First is not { } first || first == DateOnly.MinValue ? date
        : date.Edtf.Length == 4 ? SheetDate.Until(SheetDate.Year(first.Year - 1)) : SheetDate.Until(SheetDate.Day(first.AddDays(-1)));

    private static SheetDate After(SheetDate date) => date.Last is not { } last || last == DateOnly.MaxValue ? date
        : date.Edtf.Length == 4 ? SheetDate.Since(SheetDate.Year(last.Year + 1)) : SheetDate.Since(SheetDate.Day(last.AddDays(1)));

    private static string Tail(string s, ref bool about, ref bool before, ref bool after, ref bool strict)
    {
        while (true)
        {
            s = s.TrimEnd(' ', '.', ',');
            if (s.EndsWith('?') && !DecadeMark().IsMatch(s) || s.EndsWith('~') || s.EndsWith('%'))
            {
                about = true;
                s = s[..^1];
            }
            else if (s.EndsWith('+') && s.Length > 4)
            {
                after = true;
                strict = false;
                s = s[..^1];
            }
            else if (Ish().Match(s) is { Success: true } ish)
            {
                about = true;
                s = s[..ish.Index];
            }
            else if (OrEarlier().Match(s) is { Success: true } earlier)
            {
                before = earlier.Groups[1].Success;
                after = !before;
                strict = false;
                s = s[..earlier.Index];
            }
            else
            {
                return s;
            }
        }
    }

    private static SheetDate Part(SheetDate date, int part)
    {
        if (date.First is not { } first || date.Last is not { } last)
            return date;
        if (date.Edtf.Length == 4)
            return SheetDate.Between(SheetDate.Month(first.Year, (part * 4) - 3), SheetDate.Month(first.Year, part * 4));
        if (date.Edtf.StartsWith('[') && last.Year - first.Year == 9)
            return SheetDate.Between(SheetDate.Year(first.Year + ((part - 1) * 3)), SheetDate.Year(first.Year + (part * 3)));
        return date;
    }

    private static DateCell? Range(string s, DateOnly today, int depth)
    {
        if (depth > 1)
            return null;
        var match = RangeForm().Match(s);
        if (!match.Success)
            return null;
        var left = match.Groups["left"].Value.Trim();
        var right = match.Groups["right"].Value.Trim();
        if (Qualified(right, today, depth + 2) is not DateCell.Known { Date: { First: not null, Last: not null } last })
            return null;
        // "Apr to May 2015" and "12 or 13 May 2015" lend the year to the first part.
        if (DateWords.Months.ContainsKey(left) || DateWords.Seasons.ContainsKey(left))
            left = $"{left} {last.First!.Value.Year}";
        if (Qualified(left, today, depth + 2) is not DateCell.Known { Date: { First: not null, Last: not null } first })
            return null;
        return first.First <= last.Last && !first.Edtf.Contains('[', StringComparison.Ordinal) && !last.Edtf.Contains('[', StringComparison.Ordinal)
            ? new DateCell.Known(SheetDate.Between(first, last))
            : new DateCell.Doubtful($"'{s}' runs backwards.", SheetDate.Between(last, first).Edtf);
    }

    [GeneratedRegex(@"[ t]\d{1,2}:\d{2}(:\d{2}([.,]\d+)?)? ?([ap]\.?m\.?)?z?$", RegexOptions.CultureInvariant)]
    private static partial Regex Clock();

    // The first year of the eras Reiwa, Heisei and Showa is 2019, 1989 and 1926.
    private static string Year(Match era) => ((era.Groups[1].Value switch { "令和" => 2018, "平成" => 1988, _ => 1925 }) + (era.Groups[2].Value == "元" ? 1 : int.Parse(era.Groups[2].ValueSpan, CultureInfo.InvariantCulture))).ToString(CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(令和|平成|昭和) ?(\d{1,2}|元) ?年", RegexOptions.CultureInvariant)]
    private static partial Regex Era();

    [GeneratedRegex(@"^(\d{4}) ?[年년](?:度|도)?(?: ?(\d{1,2}) ?[月월](?: ?(\d{1,2}) ?[日일号])?)?$", RegexOptions.CultureInvariant)]
    private static partial Regex Han();

    [GeneratedRegex(@"^(\d{4}) ?[年년] ?([春夏秋冬봄]|여름|가을|겨울)季?$", RegexOptions.CultureInvariant)]
    private static partial Regex HanSeason();

    [GeneratedRegex(@"(?<=\d)\s*([./])\s*(?=\d)", RegexOptions.CultureInvariant)]
    private static partial Regex Gaps();

    [GeneratedRegex(@"^\d{3}\?$", RegexOptions.CultureInvariant)]
    private static partial Regex DecadeMark();

    [GeneratedRegex(@"\s*-?ish$|\s+or so$|\s+(approx|circa|ca|about|probably|maybe|guess|i think|est)\.?$", RegexOptions.CultureInvariant)]
    private static partial Regex Ish();

    [GeneratedRegex(@"\s+(?:(or (?:earlier|older|before)|oder (?:fruher|alter))|or (?:later|newer|after)|oder (?:spater|junger))$", RegexOptions.CultureInvariant)]
    private static partial Regex OrEarlier();

    [GeneratedRegex(@"^\[?(?<left>[^\[\]]{1,20}?)(?:\s*\.\.\s*|\s+-\s+|\s+to\s+|\s+bis\s+|\s+or\s+|\s+oder\s+|\s+and\s+|\s+und\s+|\s+et\s+|\s+ou\s+|\s+o\s+|\s+a\s+|\s*/\s*|\s*-\s*)(?<right>[^\[\]]{4,20})\]?$", RegexOptions.CultureInvariant)]
    private static partial Regex RangeForm();
}
