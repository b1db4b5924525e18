using System.Globalization;
using System.Text;

namespace Undercroft.Calendars;

/// <summary>A day or a span of days in a calendar.</summary>
/// <param name="Uid">The same for the same thing for ever, so that a calendar moves it instead of showing it twice.</param>
/// <param name="First">Its first day.</param>
/// <param name="Last">Its last day, included.</param>
/// <param name="Summary">One line.</param>
/// <param name="Description">More lines; empty for none.</param>
public sealed record CalendarEntry(string Uid, DateOnly First, DateOnly Last, string Summary, string Description);

/// <summary>Entries as an iCalendar stream (RFC 5545).</summary>
/// <remarks>
/// Written here and not by a library: the part of the standard that is used fits on a page, and an independent library then reads what is written, in the tests.
/// Text is escaped as section 3.3.11 has it; lines end in CR LF and are folded at 75 octets, never inside a character (3.1).
/// </remarks>
public static class CalendarText
{
    /// <summary>Octets of a line without its end (section 3.1).</summary>
    public const int LineOctets = 75;

    /// <summary>The whole stream.</summary>
    /// <param name="name">Of the calendar (RFC 7986).</param>
    /// <param name="entries">In any order; they are written by day, then by identifier.</param>
    /// <param name="stamp">When it was made; the same stamp gives the same bytes.</param>
    public static string Of(string name, IEnumerable<CalendarEntry> entries, DateTimeOffset stamp)
    {
        ArgumentNullException.ThrowIfNull(entries);
        var text = new StringBuilder();
        Line("BEGIN", "VCALENDAR");
        Line("VERSION", "2.0");
        Line("PRODID", "-//Undercroft//Shelf rounds//EN");
        Line("CALSCALE", "GREGORIAN");
        Line("NAME", Escaped(name));
        Line("X-WR-CALNAME", Escaped(name));
        Line("REFRESH-INTERVAL;VALUE=DURATION", "P1D");
        foreach (var entry in entries.OrderBy(entry => entry.First).ThenBy(entry => entry.Uid, StringComparer.Ordinal))
        {
            Line("BEGIN", "VEVENT");
            Line("UID", entry.Uid);
            Line("DTSTAMP", stamp.ToUniversalTime().ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture));
            Line("DTSTART;VALUE=DATE", Day(entry.First));
            Line("DTEND;VALUE=DATE", Day(entry.Last.AddDays(1))); // the first day after it (3.6.1)
            Line("SUMMARY", Escaped(entry.Summary));
            if (entry.Description.Length > 0)
                Line("DESCRIPTION", Escaped(entry.Description));
            Line("CLASS", "PRIVATE");
            Line("TRANSP", "TRANSPARENT"); // a shelf takes nobody's day
            Line("END", "VEVENT");
        }

        Line("END", "VCALENDAR");
        return text.ToString();

        void Line(string property, string value) => Fold(text, $"{property}:{value}");
    }

    /// <summary>Text as a value: backslash, semicolon, comma and line ends escaped; other control characters, which the standard forbids, left out.</summary>
    internal static string Escaped(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var escaped = new StringBuilder();
        foreach (var rune in text.ReplaceLineEndings("\n").EnumerateRunes())
        {
            escaped.Append(rune.Value switch
            {
                '\\' => @"\\",
                ';' => @"\;",
                ',' => @"\,",
                '\n' => @"\n",
                _ when Rune.IsControl(rune) && rune.Value != '\t' => "",
                _ => rune.ToString(),
            });
        }

        return escaped.ToString();
    }

    /// <summary>Puts a line down in pieces of at most 75 octets of UTF-8; each further piece begins with a space, which counts.</summary>
    private static void Fold(StringBuilder text, string line)
    {
        var octets = 0;
        foreach (var rune in line.EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > LineOctets)
            {
                text.Append("\r\n ");
                octets = 1;
            }

            text.Append(rune.ToString());
            octets += rune.Utf8SequenceLength;
        }

        text.Append("\r\n");
    }

    private static string Day(DateOnly day) => day.ToString("yyyyMMdd", CultureInfo.InvariantCulture);
}
