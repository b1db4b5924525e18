using System.Globalization;
using System.Text.RegularExpressions;
using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>Reads what loggers write: text of any separator, encoding and order, whatever stands above and beside the readings. What a file does not say is told from its rows, said, or asked.</summary>
public static partial class LogReader
{
    /// <summary>Reads a log.</summary>
    /// <param name="source">The file.</param>
    /// <param name="answers">What the person says of it.</param>
    /// <param name="workbook">Reads a workbook into sheets of rows; null where none can be read.</param>
    /// <param name="now">To notice a clock that runs ahead; null where nobody looks.</param>
    /// <exception cref="Refusal">No log, or one that leaves open what must be known. What to do is said.</exception>
    public static Log Read(LogSource source, LogAnswers? answers = null, WorkbookSheets? workbook = null, DateTimeOffset? now = null)
    {
        ArgumentNullException.ThrowIfNull(source);
        var said = answers ?? LogAnswers.None;
        var zone = said.Zone is { } typed ? LogZone.Of(typed) : null;
        if (!WorkbookText.IsWorkbook(source))
            return ReadText(source, said, zone, now, from1904: false);
        return WorkbookText.Of(source, workbook, said, (sheet, from1904) => ReadText(sheet, said, zone, now, from1904));
    }

    private static Log ReadText(LogSource source, LogAnswers answers, NodaTime.DateTimeZone? zone, DateTimeOffset? now, bool from1904)
    {
        var notes = new List<string>();
        var text = LogText.Of(source);
        var layout = ColumnChoice.Of(LayoutGuess.Of(text), answers, source.Name, notes);
        var rows = new RowPass(text, layout, answers, from1904 || SaysFrom1904(layout), notes).Run();
        var times = RowTimes.Of(rows, layout, answers, source.Name, notes);
        var values = new ReadingValues(rows, layout, source.Name, notes);
        values.Convert(IsWinter(times), answers);
        var inZone = ToUtc(rows, layout, zone, ref times, out var order, notes, out var left);
        var rowAt = order;
        if (layout.Of(ColumnMeaning.Sensor) is null && !layout.Pairs && layout.Of(ColumnMeaning.Value) is null)
            SharedMinutes.Spread(times, place => rowAt is null || rows.HasOffsets ? place : rowAt[place], rows, notes);
        var merged = Merged.Of(rows, times, order);
        if (merged.Count == 0)
            throw new Refusal($"{source.Name} is not read: none of its {rows.Lines} rows holds a reading that can be. Nothing is kept.");
        var rejected = rows.Timeless + merged.Failed;
        if (rejected > 0)
            notes.Add(Rejected(rows, merged, left));
        if (merged.Contradicted > 0.3 * merged.Count && merged.Contradicted > 5)
            throw new Refusal($"{source.Name} is not read: most of its times come twice with other values. It seems to hold several sensors below each other and no column that names them: split it, one sensor a file.");
        if (merged.Contradicted > 0)
            notes.Add(Count(merged.Contradicted, "row comes", "rows come") + " at an instant that stands there with other values; the first counts.");
        if (rows.Clockless)
            notes.Add("No time of day stands in the file: each reading is taken at 00:00 of its day.");
        var interval = Steps.Usual(merged.Seconds.AsSpan(0, merged.Count));
        Oddities.Note(merged, interval, now, notes);
        return new Log(merged.Seconds, merged.Kelvin, merged.Humidity, merged.Pascals, merged.Lux, merged.Count)
        {
            RowsRead = rows.Lines - rows.Elsewhere - rows.Joined,
            Repeated = merged.Repeated,
            Contradicted = merged.Contradicted,
            Rejected = rejected,
            Interval = interval,
            Notes = notes,
            Form = new(
                text.Word, layout.SeparatorWord, [.. layout.Columns.Where(column => LogAnswers.WordOf(column.Meaning).Length > 0).Select(column => new LogFormColumn(LogAnswers.WordOf(column.Meaning), column.Name))],
                values.Unit?.ToString(), answers.Order is { } asked ? RowTimes.Word(asked) : null, inZone, answers.Sensor),
        };
    }

    private static bool SaysFrom1904(Layout layout) => DatesFrom1904().IsMatch(layout.Preamble) || DatesFrom1904().IsMatch(layout.TimeHeading);

    // From the logger's own clock to world time, oldest first.
    private static string? ToUtc(RawRows rows, Layout layout, NodaTime.DateTimeZone? said, ref long[] times, out int[]? order, List<string> notes, out int left)
    {
        left = 0;
        order = Descending(times) ? [.. Enumerable.Range(0, times.Length).Reverse()] : null;
        if (rows.HasOffsets)
        {
            var lacking = 0;
            for (var row = 0; row < rows.Count; row++)
            {
                if (rows.OffsetOf(row) != RawRows.NoOffset)
                    continue;
                lacking++;
                times[row] = RowTimes.None;
            }

            if (lacking > 0)
                notes.Add($"{Count(lacking, "row names", "rows name")} no offset where the others do, and {(lacking == 1 ? "is" : "are")} left out.");
            if (rows.Lettered)
                notes.Add("The letters behind the times are read by their usual offsets: CET as +01:00, BST as +01:00, CST as −06:00 and so on.");
            if (said is not null)
                notes.Add("The times of the file name their own offset; the zone that was said is not needed.");
            return null;
        }

        if (rows.StartHasOffset)
        {
            if (order is not null)
                Array.Reverse(times);
            return null;
        }

        var named = LogZone.Named(layout);
        var zone = said ?? named ?? NodaTime.DateTimeZone.Utc;
        if (said is not null && named is not null && named.Id != said.Id)
            notes.Add($"The file says {named.Id}, but is read in {said.Id} as said.");
        else if (said is null)
            notes.Add(named is not null ? $"The file says its times are in {named.Id}." : "Nothing says in which time zone the clock of the logger ran; it is read as UTC. Say --zone, such as --zone Europe/Berlin.");
        if (order is not null)
            Array.Reverse(times);
        if (layout.Time.Form == TimeForm.Steady)
        {
            WallClock.Steadily(times, zone);
            return zone.Id;
        }

        var interval = Steps.Usual(times);
        var (twice, never) = WallClock.ToUtc(times, zone, interval, notes);
        left = twice + never;
        return zone.Id;
    }

    private static bool Descending(long[] times)
    {
        int down = 0, up = 0;
        for (var row = 1; row < times.Length; row++)
        {
            down += times[row] < times[row - 1] ? 1 : 0;
            up += times[row] > times[row - 1] ? 1 : 0;
        }

        return down > up;
    }

    private static bool IsWinter(long[] times)
    {
        foreach (var time in times)
        {
            if (time != RowTimes.None && DateTimeOffset.FromUnixTimeMilliseconds(time).Month is >= 4 and <= 10)
                return false;
        }

        return true;
    }

    private static string Rejected(RawRows rows, Merged merged, int left)
    {
        var parts = new List<string>();
        if (rows.Timeless > 0)
            parts.Add($"{rows.Timeless.ToString(CultureInfo.InvariantCulture)} without a time that can be read (line {string.Join(", ", rows.UnreadLines)}{(rows.Timeless > rows.UnreadLines.Count ? ", …" : "")})");
        if (merged.Dateless - left > 0)
            parts.Add($"{(merged.Dateless - left).ToString(CultureInfo.InvariantCulture)} of a date that cannot be used");
        if (left > 0)
            parts.Add($"{left.ToString(CultureInfo.InvariantCulture)} of an hour that comes twice or never");
        if (merged.Failed - merged.Dateless > 0)
            parts.Add($"{(merged.Failed - merged.Dateless).ToString(CultureInfo.InvariantCulture)} with an error or nothing in place of the value");
        return $"Rows left out: {string.Join("; ", parts)}.";
    }

    [GeneratedRegex(@"\b(date|datum|fecha|system|epoch|base|since|seit|from|starts?)\b[^\n]{0,30}\b1904\b|\b1904\b[^\n]{0,30}\b(dates?|datum|fecha|system|epoch|base)\b", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex DatesFrom1904();

    internal static string Count(int count, string one, string several) => count.ToString(CultureInfo.InvariantCulture) + " " + (count == 1 ? one : several);
}
