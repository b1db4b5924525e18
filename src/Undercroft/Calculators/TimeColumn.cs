using System.Globalization;
using System.Text.RegularExpressions;
using Undercroft.Ledger;

namespace Undercroft.Calculators;

/// <summary>Where the times of a log stand and how they are written.</summary>
/// <param name="Date">Column of the date, with or without the time.</param>
/// <param name="Clock">Column of the time where it stands apart, else null.</param>
/// <param name="DayFirst">Order of day and month where the year comes last.</param>
internal sealed partial record TimeColumn(int Date, int? Clock, bool DayFirst)
{
    private const int LeastRows = 2;

    /// <summary>The column that is a time in most rows from some row on, or null.</summary>
    /// <exception cref="Refusal">Day and month cannot be told apart.</exception>
    public static TimeColumn? In(string[][] rows)
    {
        var filled = rows.Where(row => row.Length > 1).ToList();
        if (filled.Count < LeastRows)
            return null;
        for (var column = 0; column < Math.Min(8, filled.Max(row => row.Length)); column++)
        {
            foreach (var clock in (int?[])[null, column + 1, column - 1])
            {
                if (clock < 0)
                    continue;
                var either = ((bool[])[true, false])
                    .Select(dayFirst => new TimeColumn(column, clock, dayFirst))
                    .Select(candidate => (Column: candidate, Times: filled.Select(candidate.Of).Where(time => time is not null).Select(time => time!.Value).ToList()))
                    .ToList();
                var most = either.Max(candidate => candidate.Times.Count);
                if (most < LeastRows || 2 * most < filled.Count)
                    continue;
                return Better(either[0], either[1]);
            }
        }

        return null;
    }

    /// <summary>True for the columns that hold the time.</summary>
    public bool Uses(int column) => column == Date || column == Clock;

    /// <summary>The time of a row, or null where it holds none.</summary>
    public DateTime? Of(string[] row)
    {
        if (Date >= row.Length || (Clock is { } clock && clock >= row.Length))
            return null;
        var match = Form().Match(Clock is { } apart ? row[Date] + " " + row[apart] : row[Date]);
        if (!match.Success)
            return null;
        int Part(string name) => match.Groups[name].Success ? int.Parse(match.Groups[name].Value, CultureInfo.InvariantCulture) : 0;
        var (year, month, day) = match.Groups["year"].Success
            ? (Part("year"), Part("month"), Part("day"))
            : (Part("lastyear"), DayFirst ? Part("second") : Part("first"), DayFirst ? Part("first") : Part("second"));
        if (year < 100)
            year += 2000;
        var hour = Part("hour");
        if (match.Groups["half"].Success)
        {
            if (hour is < 1 or > 12)
                return null;
            hour = (hour % 12) + (match.Groups["half"].Value is "p" or "P" ? 12 : 0);
        }

        if (year is < 1900 or > 2200 || month is < 1 or > 12 || day < 1 || day > DateTime.DaysInMonth(year, month) || hour > 23 || Part("minute") > 59 || Part("seconds") > 59)
            return null;
        var time = new DateTime(year, month, day, hour, Part("minute"), Part("seconds"), DateTimeKind.Unspecified);
        if (match.Groups["sign"].Success)
        {
            var offset = new TimeSpan(Part("offhour"), Part("offminute"), 0);
            time -= match.Groups["sign"].Value == "-" ? -offset : offset;
        }

        return time;
    }

    private static TimeColumn Better((TimeColumn Column, List<DateTime> Times) dayFirst, (TimeColumn Column, List<DateTime> Times) monthFirst)
    {
        if (dayFirst.Times.Count != monthFirst.Times.Count)
            return dayFirst.Times.Count > monthFirst.Times.Count ? dayFirst.Column : monthFirst.Column;
        var (one, other) = (Steadiness(dayFirst.Times), Steadiness(monthFirst.Times));
        if (one == other && !dayFirst.Times.SequenceEqual(monthFirst.Times) && Span(dayFirst.Times) != Span(monthFirst.Times))
            throw new Refusal("Day and month of the log cannot be told apart. Export it with dates as YYYY-MM-DD.");
        return one >= other ? dayFirst.Column : monthFirst.Column;
    }

    private static TimeSpan Span(List<DateTime> times) => times.Max() - times.Min();

    /// <summary>How many steps equal the usual step: a wrong order of day and month tears the log apart.</summary>
    private static int Steadiness(List<DateTime> times)
    {
        var steps = times.Zip(times.Skip(1), (earlier, later) => (later - earlier).Duration()).ToList();
        var usual = steps.Order().ElementAt(steps.Count / 2);
        return steps.Count(step => step == usual);
    }

    [GeneratedRegex(
        @"^(?:(?<year>\d{4})[-/.](?<month>\d{1,2})[-/.](?<day>\d{1,2})|(?<first>\d{1,2})[-/.](?<second>\d{1,2})[-/.](?<lastyear>\d{4}|\d{2}))" +
        @"[T ,]+(?<hour>\d{1,2}):(?<minute>\d{2})(?::(?<seconds>\d{2})(?:[.,]\d+)?)? ?(?:(?<half>[aApP])\.?[mM]\.?)?(?:Z| ?(?<sign>[+-])(?<offhour>\d{2}):?(?<offminute>\d{2}))?$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Form();
}
