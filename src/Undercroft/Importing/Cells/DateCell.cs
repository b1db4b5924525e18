using System.Globalization;
using Undercroft.Ledger.Dates;

namespace Undercroft.Importing.Cells;

/// <summary>A date as precise as it was written.</summary>
/// <param name="Edtf">In the notation of ISO 8601-2: <c>2015</c>, <c>2015-06</c>, <c>2015~</c>, <c>2015-21</c>, <c>[2014..2016]</c>, <c>../2012</c>.</param>
/// <param name="First">The earliest day it can mean, or null where it has no beginning.</param>
/// <param name="Last">The latest day it can mean, or null where it has no end.</param>
public sealed record SheetDate(string Edtf, DateOnly? First, DateOnly? Last)
{
    /// <summary>The same as the ledger writes it. Rows share their dates, so it is read once for all of them.</summary>
    public UnevenDate Uneven { get; } = UnevenDate.TryParse(Edtf, out var read, out _) ? read : UnevenDate.Unknown;

    /// <summary>A day.</summary>
    public static SheetDate Day(DateOnly day) => new(Text(day), day, day);

    /// <summary>A month.</summary>
    public static SheetDate Month(int year, int month) =>
        new($"{year:0000}-{month:00}", new DateOnly(year, month, 1), new DateOnly(year, month, DateTime.DaysInMonth(year, month)));

    /// <summary>A year.</summary>
    public static SheetDate Year(int year) => new($"{year:0000}", new DateOnly(year, 1, 1), new DateOnly(year, 12, 31));

    /// <summary>A season of the year that begins it; a winter runs into the next one.</summary>
    public static SheetDate Season(int year, int code)
    {
        var first = new DateOnly(year, code switch { 21 => 3, 22 => 6, 23 => 9, _ => 12 }, 1);
        return new($"{year:0000}-{code}", code == 24 ? new DateOnly(year, 1, 1) : first, first.AddMonths(3).AddDays(-1));
    }

    /// <summary>Some day from the beginning of one to the end of the other.</summary>
    public static SheetDate Between(SheetDate first, SheetDate last) => new($"[{first.Edge(first.First)}..{last.Edge(last.Last)}]", first.First, last.Last);

    /// <summary>Up to some day.</summary>
    public static SheetDate Until(SheetDate last) => new("../" + last.Edge(last.Last), null, last.Last);

    /// <summary>From some day on.</summary>
    public static SheetDate Since(SheetDate first) => new(first.Edge(first.First) + "/..", first.First, null);

    // A year, a month or a day stands as it is; of a season or a range the end that is meant.
    private string Edge(DateOnly? end) =>
        Edtf.IndexOfAny(['~', '[', '/']) < 0 && !(Edtf.Length == 7 && Edtf[5] == '2') ? Edtf : end is { } day ? Text(day) : Edtf;

    /// <summary>The same, said to be uncertain: a year or a month may be off by one.</summary>
    public SheetDate About()
    {
        if (Edtf.IndexOfAny(['~', '[', '/']) >= 0 || First is not { } first || Last is not { } last)
            return this;
        var slack = Edtf.Length <= 4 ? 365 : Edtf.Length <= 7 ? 31 : 7;
        return new(Edtf + "~", first.AddDays(-Math.Min(slack, first.DayNumber)), last.AddDays(slack));
    }

    private static string Text(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}

/// <summary>What a cell says as a date.</summary>
public abstract record DateCell
{
    private DateCell()
    {
    }

    /// <summary>No date is written.</summary>
    public sealed record None : DateCell;

    /// <summary>It is written that the date is not known.</summary>
    public sealed record Unknown : DateCell;

    /// <summary>One reading.</summary>
    /// <param name="Date">The date.</param>
    /// <param name="DayFirst">True or false where the cell itself shows the order of day and month; else null.</param>
    public sealed record Known(SheetDate Date, bool? DayFirst = null) : DateCell;

    /// <summary>Day and month could be exchanged, and nothing in the cell decides.</summary>
    /// <param name="WhenDayFirst">Read as day, month, year.</param>
    /// <param name="WhenMonthFirst">Read as month, day, year.</param>
    public sealed record Either(SheetDate WhenDayFirst, SheetDate WhenMonthFirst) : DateCell;

    /// <summary>A date that does not exist, or two readings that nothing can tell apart.</summary>
    /// <param name="Why">In words for a person.</param>
    /// <param name="Readings">What it may have been meant to be, likeliest first.</param>
    public sealed record Doubtful(string Why, params IReadOnlyList<string> Readings) : DateCell;

    /// <summary>Counted from the day on which it was written, which the sheet does not say.</summary>
    /// <param name="Date">Counted from today.</param>
    public sealed record Relative(SheetDate Date) : DateCell;
}
