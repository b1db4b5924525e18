using System.Globalization;
using System.Text.RegularExpressions;

namespace Undercroft.Ledger.Dates;

/// <summary>How finely one end of a date is known.</summary>
internal enum Grain
{
    Decade,
    Year,
    Season,
    Month,
    Day,
}

/// <summary>One decade, year, season, month or day, perhaps marked as approximate or uncertain.</summary>
/// <param name="Grain">How fine.</param>
/// <param name="Year">Year; of a decade its first.</param>
/// <param name="Part">Month 1 to 12, or season 21 to 24; else 0.</param>
/// <param name="Day">Day of the month; else 0.</param>
/// <param name="Mark"><c>~</c> about, <c>?</c> uncertain, <c>%</c> both; else a space.</param>
internal readonly partial record struct DatePoint(Grain Grain, int Year, int Part, int Day, char Mark)
{
    internal bool Marked => Mark != ' ';

    internal DateOnly Earliest => Marked ? Widened(Start, -1) : Start;

    internal DateOnly Latest => Marked ? Widened(End, +1) : End;

    private DateOnly Start => Grain switch
    {
        Grain.Decade or Grain.Year => new DateOnly(Math.Max(Year, 1), 1, 1),
        Grain.Season => new DateOnly(Year, (3 * (Part - 20)), 1),
        Grain.Month => new DateOnly(Year, Part, 1),
        Grain.Day => new DateOnly(Year, Part, Day),
        _ => throw new InvalidOperationException($"No start of {Grain}."),
    };

    private DateOnly End => Grain switch
    {
        Grain.Decade => new DateOnly(Year + 9, 12, 31),
        Grain.Year => new DateOnly(Year, 12, 31),
        Grain.Season => Later(Start, 3),
        Grain.Month => Later(Start, 1),
        Grain.Day => Start,
        _ => throw new InvalidOperationException($"No end of {Grain}."),
    };

    public override string ToString()
    {
        var mark = Marked ? Mark.ToString() : "";
        return Grain switch
        {
            Grain.Decade => string.Create(CultureInfo.InvariantCulture, $"{Year / 10:000}X{mark}"),
            Grain.Year => string.Create(CultureInfo.InvariantCulture, $"{Year:0000}{mark}"),
            Grain.Season or Grain.Month => string.Create(CultureInfo.InvariantCulture, $"{Year:0000}-{Part:00}{mark}"),
            Grain.Day => string.Create(CultureInfo.InvariantCulture, $"{Year:0000}-{Part:00}-{Day:00}{mark}"),
            _ => throw new InvalidOperationException($"No text for {Grain}."),
        };
    }

    private static readonly string[] Seasons = ["spring", "summer", "autumn", "winter"];

    internal string InWords()
    {
        var plain = Grain switch
        {
            Grain.Decade => string.Create(CultureInfo.InvariantCulture, $"{Year:0000}s"),
            Grain.Season => string.Create(CultureInfo.InvariantCulture, $"{Seasons[Part - 21]} {Year:0000}"),
            _ => (this with { Mark = ' ' }).ToString(),
        };
        return Mark switch { ' ' => plain, '?' => "perhaps " + plain, _ => "about " + plain };
    }

    internal static DatePoint? TryParse(string text, out string why)
    {
        if (Plain(text) is { } plain)
            return Checked(plain, text, out why);
        var match = Form().Match(text);
        if (!match.Success)
        {
            why = $"'{text}' is not a date. Write 2015, 2015-06, 2015-06-30, 2015-21 (spring), 201X, 2015~ (about), [2014..2016], ../2012, or leave it blank.";
            return null;
        }

        var mark = match.Groups["mark"].Success ? match.Groups["mark"].Value[0] : ' ';
        if (match.Groups["decade"].Success)
            return Checked(new DatePoint(Grain.Decade, Number(match, "decade") * 10, 0, 0, mark), text, out why);

        var year = Number(match, "year");
        if (!match.Groups["part"].Success)
            return Checked(new DatePoint(Grain.Year, year, 0, 0, mark), text, out why);

        var part = Number(match, "part");
        if (!match.Groups["day"].Success)
            return Checked(new DatePoint(part is >= 21 and <= 24 ? Grain.Season : Grain.Month, year, part, 0, mark), text, out why);

        return Checked(new DatePoint(Grain.Day, year, part, Number(match, "day"), mark), text, out why);
    }

    private static DatePoint? Checked(DatePoint point, string text, out string why)
    {
        why = "";
        if (point.Grain != Grain.Decade && point.Year is < 1 or > 9998)
            why = $"'{text}' does not exist: years run from 0001 to 9998.";
        else if (point.Grain is Grain.Month && point.Part is < 1 or > 12)
            why = $"'{text}' does not exist: months run from 01 to 12, and 21 to 24 are spring, summer, autumn and winter.";
        else if (point.Grain is Grain.Day && point.Part is < 1 or > 12)
            why = $"'{text}' does not exist: months run from 01 to 12.";
        else if (point.Grain is Grain.Day && (point.Day < 1 || point.Day > DateTime.DaysInMonth(point.Year, point.Part)))
            why = string.Create(CultureInfo.InvariantCulture, $"'{text}' does not exist: that month has {DateTime.DaysInMonth(point.Year, point.Part)} days.");
        return why.Length == 0 ? point : null;
    }

    /// <summary>A year, a month or a season, perhaps marked; the quick way for the many in a ledger.</summary>
    private static DatePoint? Plain(string text)
    {
        var mark = text.Length > 0 && text[^1] is '~' or '?' or '%' ? text[^1] : ' ';
        var length = mark == ' ' ? text.Length : text.Length - 1;
        if (length is not (4 or 7))
            return null;
        var (year, part) = (0, 0);
        for (var i = 0; i < length; i++)
        {
            if (i == 4 ? text[i] != '-' : !char.IsAsciiDigit(text[i]))
                return null;
            if (i < 4)
                year = (year * 10) + (text[i] - '0');
            else if (i > 4)
                part = (part * 10) + (text[i] - '0');
        }

        return new DatePoint(length == 4 ? Grain.Year : part is >= 21 and <= 24 ? Grain.Season : Grain.Month, year, part, 0, mark);
    }

    private static int Number(Match match, string group) => int.Parse(match.Groups[group].Value, NumberStyles.None, CultureInfo.InvariantCulture);

    private static DateOnly Later(DateOnly start, int months) => start.AddMonths(months).AddDays(-1);

    private DateOnly Widened(DateOnly date, int direction)
    {
        if (direction < 0 ? date.Year <= 5 : date.Year >= 9990)
            return date;
        return Grain switch
        {
            Grain.Decade => date.AddYears(5 * direction),
            Grain.Year => date.AddYears(direction),
            Grain.Season => Months(date, 3 * direction),
            Grain.Month => Months(date, direction),
            Grain.Day => date.AddDays(3 * direction),
            _ => throw new InvalidOperationException($"No widening of {Grain}."),
        };
    }

    /// <summary>Moves by whole months and keeps the end of a month at the end of a month.</summary>
    private static DateOnly Months(DateOnly date, int months)
    {
        var next = date.AddDays(1);
        return next.Day == 1 ? next.AddMonths(months).AddDays(-1) : date.AddMonths(months);
    }

    [GeneratedRegex(@"^((?<decade>[0-9]{3})[Xx]|(?<year>[0-9]{4})(-(?<part>[0-9]{2})(-(?<day>[0-9]{2}))?)?)(?<mark>[~?%])?\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Form();
}
