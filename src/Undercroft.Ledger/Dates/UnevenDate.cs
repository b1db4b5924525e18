using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Dates;

/// <summary>
/// A date as well as it is known, written as ISO 8601-2 (EDTF) does: a day, a month, a year, a season, about, uncertain, a decade, some day between two,
/// not after, not before, or unknown.
/// </summary>
/// <remarks>
/// <para>Seasons <c>21</c> to <c>24</c> are spring, summer, autumn and winter of the northern half as weather services count them: March to May, June to August,
/// September to November, and December to the following February.</para>
/// <para>Assumption: a date marked <c>~</c>, <c>?</c> or <c>%</c> is widened on both sides by three days, one month, one season (three months), one year or five years,
/// for a day, month, season, year or decade.</para>
/// <para>The default value is <see cref="Unknown"/>.</para>
/// </remarks>
[JsonConverter(typeof(UnevenDateJson))]
public readonly record struct UnevenDate
{
    private enum Form
    {
        Unknown,
        One,
        Between,
        NotAfter,
        NotBefore,
    }

    private readonly Form form;
    private readonly DatePoint from;
    private readonly DatePoint to;

    private UnevenDate(Form form, DatePoint from, DatePoint to)
    {
        this.form = form;
        this.from = from;
        this.to = to;
    }

    /// <summary>Nobody knows.</summary>
    public static UnevenDate Unknown => default;

    /// <summary>One known day.</summary>
    public static UnevenDate On(DateOnly day) => One(new DatePoint(Grain.Day, day.Year, day.Month, day.Day, ' '));

    /// <summary>Some day of a year.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The year is not in 1 to 9998.</exception>
    public static UnevenDate InYear(int year) => year is >= 1 and <= 9998
        ? One(new DatePoint(Grain.Year, year, 0, 0, ' '))
        : throw new ArgumentOutOfRangeException(nameof(year), year, "Years run from 1 to 9998.");

    /// <summary>Some day between two, both included.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The first is after the last.</exception>
    public static UnevenDate Between(DateOnly first, DateOnly last) => first <= last
        ? new(Form.Between, On(first).from, On(last).from)
        : throw new ArgumentOutOfRangeException(nameof(last), last, "The last day is before the first.");

    /// <summary>False where nothing at all is known.</summary>
    public bool IsKnown => form != Form.Unknown;

    /// <summary>The first day that it can be; null where nothing bounds it.</summary>
    public DateOnly? Earliest => form is Form.One or Form.Between or Form.NotBefore ? from.Earliest : null;

    /// <summary>The last day that it can be; null where nothing bounds it.</summary>
    public DateOnly? Latest => form switch
    {
        Form.One => from.Latest,
        Form.Between or Form.NotAfter => to.Latest,
        _ => null,
    };

    /// <summary>The day in the middle, for sorting; with one open end the known end, and null where unknown.</summary>
    public DateOnly? Midpoint => IsExactDay ? from.Earliest : (Earliest, Latest) switch
    {
        ({ } first, { } last) => first.AddDays((last.DayNumber - first.DayNumber) / 2),
        ({ } first, null) => first,
        (null, { } last) => last,
        _ => null,
    };

    /// <summary>True where somebody said "about" or "perhaps".</summary>
    public bool Approximate => (form is Form.One or Form.Between or Form.NotBefore && from.Marked) || (form is Form.Between or Form.NotAfter && to.Marked);

    /// <summary>True where it is one known day.</summary>
    public bool IsExactDay => form == Form.One && from is { Grain: Grain.Day, Marked: false };

    /// <summary>True where the two dates leave no doubt that this one is earlier.</summary>
    public bool CertainlyBefore(UnevenDate other) => Latest is { } last && other.Earliest is { } first && last < first;

    /// <summary>Reads a date.</summary>
    /// <param name="text">As in ISO 8601-2; also <c>2014/2016</c>, <c>2014..2016</c>, <c>../2012</c> and <c>2012/..</c>. Blank, <c>unknown</c>, <c>?</c> and <c>??</c> are unknown.</param>
    /// <param name="date">The date, or unknown where it could not be read.</param>
    /// <param name="why">What, why and what to do; empty where the text was read.</param>
    public static bool TryParse(string? text, out UnevenDate date, out string why)
    {
        why = "";
        if (TryDay(text, out var day))
        {
            date = On(day);
            return true;
        }

        date = Unknown;
        var body = (text ?? "").Trim();
        if (body is "" or "?" or "??" or "XXXX" or "-" || body.Equals("unknown", StringComparison.OrdinalIgnoreCase))
            return true;

        if (body.StartsWith('[') && body.EndsWith(']') && body.Contains("..", StringComparison.Ordinal))
            body = body[1..^1].Trim();
        var (left, right, ranged) = Split(body);
        if (!ranged)
        {
            if (DatePoint.TryParse(body, out why) is not { } point)
                return false;
            date = One(point);
            return true;
        }

        if (left.Length == 0 && right.Length == 0)
            return true;
        DatePoint? first = left.Length == 0 ? null : DatePoint.TryParse(left, out why);
        if (why.Length > 0)
            return false;
        DatePoint? last = right.Length == 0 ? null : DatePoint.TryParse(right, out why);
        if (why.Length > 0)
            return false;

        if (first is { } a && last is { } b && a.Earliest > b.Latest)
        {
            why = $"'{text}' runs backwards: write the earlier date first.";
            return false;
        }

        date = new UnevenDate(first is null ? Form.NotAfter : last is null ? Form.NotBefore : Form.Between, first ?? default, last ?? default);
        return true;
    }

    /// <summary>Reads a date.</summary>
    /// <exception cref="Refusal">It is not one; the message says what to write.</exception>
    public static UnevenDate Parse(string? text) => TryParse(text, out var date, out var why) ? date : throw new Refusal(why);

    /// <summary>The canonical ISO 8601-2 text; <c>unknown</c> where unknown.</summary>
    public override string ToString() => form switch
    {
        Form.Unknown => "unknown",
        Form.One => from.ToString(),
        Form.Between => $"[{from}..{to}]",
        Form.NotAfter => $"[..{to}]",
        Form.NotBefore => $"[{from}..]",
        _ => throw new InvalidOperationException($"No text for {form}."),
    };

    /// <summary>In words, never more exact than it is known: <c>2020-03</c>, <c>about 2019</c>, <c>2014 to 2016</c>, <c>spring 2015</c>, <c>2010s</c>, <c>by 2012</c>; empty where unknown.</summary>
    public string InWords() => form switch
    {
        Form.Unknown => "",
        Form.One => from.InWords(),
        Form.Between => $"{from.InWords()} to {to.InWords()}",
        Form.NotAfter => $"by {to.InWords()}",
        Form.NotBefore => $"from {from.InWords()} on",
        _ => throw new InvalidOperationException($"No words for {form}."),
    };

    /// <summary>A day as it is printed; the quick way for the many in a ledger.</summary>
    private static bool TryDay(string? text, out DateOnly day)
    {
        day = default;
        if (text is not { Length: 10 } || text[4] != '-' || text[7] != '-')
            return false;
        var (year, month, date) = (0, 0, 0);
        for (var i = 0; i < 10; i++)
        {
            if (i is 4 or 7)
                continue;
            if (!char.IsAsciiDigit(text[i]))
                return false;
            var digit = text[i] - '0';
            if (i < 4)
                year = (year * 10) + digit;
            else if (i < 7)
                month = (month * 10) + digit;
            else
                date = (date * 10) + digit;
        }

        if (year is < 1 or > 9998 || month is < 1 or > 12 || date < 1 || date > DateTime.DaysInMonth(year, month))
            return false;
        day = new DateOnly(year, month, date);
        return true;
    }

    private static UnevenDate One(DatePoint point) => new(Form.One, point, default);

    private static (string Left, string Right, bool Ranged) Split(string body)
    {
        var slash = body.IndexOf('/', StringComparison.Ordinal);
        if (slash >= 0)
            return (Open(body[..slash]), Open(body[(slash + 1)..]), true);
        var dots = body.IndexOf("..", StringComparison.Ordinal);
        return dots >= 0 ? (body[..dots].Trim(), body[(dots + 2)..].Trim(), true) : (body, "", false);

        static string Open(string end) => end.Trim() == ".." ? "" : end.Trim();
    }
}
