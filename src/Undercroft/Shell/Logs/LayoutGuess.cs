using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>Finds separator, times, header and first reading from the first lines of a log.</summary>
internal static partial class LayoutGuess
{
    private const int SampleLines = 400;
    private const int MostTimeColumns = 12;
    private const int MostJoined = 8;
    private static readonly byte[] Separators = "\t;,| "u8.ToArray();

    /// <summary>The layout.</summary>
    /// <exception cref="Refusal">No column of times with numbers beside it.</exception>
    public static Layout Of(LogText text)
    {
        var (lines, numbers) = Sampled(text);

        (SampleCut Cut, TimePlace Time, List<int> Rows, int Numbers)? best = null;
        foreach (var separator in Separators)
        {
            var cut = new SampleCut(lines, separator);
            if (cut.Width > 1 && Times(cut) is var (time, rows, figures) && (best is not { } other || rows.Count > 1.2 * other.Rows.Count || (figures > other.Numbers && rows.Count >= other.Rows.Count && separator != ' ')))
                best = (cut, time, rows, figures);
        }

        // A lone line that looks like a reading may be the start that stands above them.
        if (best is null or { Rows.Count: < FewestTimeless } && Timeless(lines) is { } timeless && timeless.Rows.Count > 2 * (best?.Rows.Count ?? 0))
            return Headed(timeless.Cut, timeless.Time, timeless.Rows, lines, numbers);
        if (best is not { } found)
        {
            throw new Refusal(
                $"{text.Source.Name} is not read: no column of dates and times with numbers beside it was found. Export the log as text with one reading a row: time, temperature, humidity.");
        }

        return Headed(found.Cut, found.Time, found.Rows, lines, numbers);
    }

    // A heading in quotation marks may run over several lines: they are one row. Numbers are those of the lines of the file, from 0.
    private static (List<byte[]> Lines, List<int> Numbers) Sampled(LogText text)
    {
        var lines = new List<byte[]>();
        var numbers = new List<int>();
        using var reader = text.Lines();
        var open = false;
        for (var number = 0; lines.Count < SampleLines && reader.Next(out var line); number++)
        {
            var odd = (line.Count((byte)'"') & 1) > 0;
            if (open && number - numbers[^1] <= MostJoined)
            {
                lines[^1] = [.. lines[^1], (byte)' ', .. line];
            }
            else
            {
                lines.Add(line.ToArray());
                numbers.Add(number);
                open = false;
            }

            open ^= odd;
        }

        return (lines, numbers);
    }

    private static (TimePlace Time, List<int> Rows, int Numbers)? Times(SampleCut cut)
    {
        var width = Math.Min(cut.Width, MostTimeColumns);
        (TimePlace Place, List<int> Rows, int Rank)? best = null;
        void Offer(TimePlace place, List<int> rows, int rank)
        {
            if (rows.Count > 0 && (best is not { } other || rows.Count > 1.1 * other.Rows.Count || (rows.Count > 0.9 * other.Rows.Count && rank > other.Rank)))
                best = (place, rows, rank);
        }

        for (var column = 0; column < width; column++)
        {
            Offer(new(column, -1, TimeForm.Written), WrittenRows(cut, new(column, -1, TimeForm.Written), clock: true), IsUniversal(cut, column) ? 6 : 5);
            Offer(new(column, -1, TimeForm.Epoch), CountedRows(cut, column, TimeForm.Epoch), 7);
            Offer(new(column, -1, TimeForm.Serial), CountedRows(cut, column, TimeForm.Serial), 2);
            Offer(new(column, -1, TimeForm.Written), WrittenRows(cut, new(column, -1, TimeForm.Written), clock: false), 1);
        }

        for (var column = 0; column < width; column++)
        {
            if (!Begins(cut, column))
                continue;
            for (var other = Math.Max(0, column - 3); other < Math.Min(width, column + 4); other++)
            {
                if (other != column)
                    Offer(new(column, other, TimeForm.Written), WrittenRows(cut, new(column, other, TimeForm.Written), clock: true), 4);
            }
        }

        if (best is null && Parts(cut) is { } parts)
            Offer(parts, WrittenRows(cut, parts, clock: true), 3);
        if (best is not { } found)
            return null;
        if (found.Place.Parts is null && found.Place.Form == TimeForm.Written && HalfColumn(cut, found.Place, found.Rows) is { } half)
            found.Place = found.Place with { Half = half };
        var numbers = 0;
        var rows = new List<int>();
        foreach (var row in found.Rows)
        {
            var beside = 0;
            for (var column = 0; column < cut.Row(row).Length; column++)
            {
                if (!found.Place.Uses(column) && Cells.Number(cut.Cell(row, column), out _, out _) == CellKind.Number)
                    beside++;
            }

            if (beside > 0)
                rows.Add(row);
            numbers += beside;
        }

        return rows.Count > 0 ? (found.Place, rows, numbers) : null;
    }

    // Year, month, day and hour number by number: their headings say so.
    private static TimePlace? Parts(SampleCut cut)
    {
        for (var row = 0; row < Math.Min(cut.Count, 60); row++)
        {
            var words = Enumerable.Range(0, cut.Row(row).Length).Select(column => LogWords.Fold(cut.Text(row, column))).ToList();
            int Of(params string[] names) => words.FindIndex(word => names.Contains(word.Split('(', '[')[0].Trim()));
            var parts = new TimeParts(
                Of("year", "yyyy", "yr", "jahr", "annee", "ano", "anno", "jaar", "ar", "rok"), Of("month", "mm", "mon", "mo", "monat", "mois", "mes", "mese", "maand", "manad", "maned", "miesiac"),
                Of("day", "dd", "tag", "jour", "dia", "giorno", "dag", "dzien"), Of("hour", "hh", "hr", "stunde", "std", "heure", "hora", "ora", "uur", "timme", "time", "godzina"),
                Of("minute", "min", "mi", "minuten", "minuto", "minuut"), Of("second", "sec", "ss", "sekunde", "seconde", "segundo", "secondo"));
            if (parts is { Year: >= 0, Month: >= 0, Day: >= 0, Hour: >= 0 })
                return new(parts.Year, -1, TimeForm.Written, Parts: parts);
        }

        return null;
    }

    // Morning and afternoon may stand in a column of their own, beside a clock of twelve hours.
    private static int? HalfColumn(SampleCut cut, TimePlace place, List<int> rows)
    {
        for (var column = 0; column < Math.Min(cut.Width, MostTimeColumns); column++)
        {
            if (place.Uses(column))
                continue;
            var halves = 0;
            foreach (var row in rows)
            {
                var text = LogWords.Fold(cut.Text(row, column)).Replace(".", "", StringComparison.Ordinal);
                if (text.Length is < 2 or > 8 || LogWords.HalfDay(text) is null || !place.Written(cut.Line(row), cut.Row(row), out var stamp) || stamp.HasHalf || stamp.Clock >= 13 * 3_600_000)
                    break;
                halves++;
            }

            if (halves == rows.Count)
                return column;
        }

        return null;
    }

    // A column of world time needs no guess of a zone.
    private static bool IsUniversal(SampleCut cut, int column)
    {
        for (var row = 0; row < Math.Min(cut.Count, 60); row++)
        {
            var text = LogWords.Fold(cut.Text(row, column));
            if (text.Length is > 0 and < 40 && !char.IsAsciiDigit(text[0]) && (text.Contains("utc", StringComparison.Ordinal) || text.Contains("gmt", StringComparison.Ordinal)) && !text.Contains("local", StringComparison.Ordinal))
                return true;
        }

        return false;
    }

    private static List<int> WrittenRows(SampleCut cut, TimePlace place, bool clock)
    {
        var rows = new List<int>();
        for (var row = 0; row < cut.Count; row++)
        {
            if (!place.Written(cut.Line(row), cut.Row(row), out var stamp) || stamp.HasClock != clock)
                continue;
            // Of two columns each gives a part of its own.
            if (place.Second >= 0 && (Alone(cut.Cell(row, place.First)) || Alone(cut.Cell(row, place.Second)) || !BeginsDate(cut.Cell(row, place.First))))
                continue;
            rows.Add(row);
        }

        return rows;
    }

    private static bool Alone(ReadOnlySpan<byte> cell)
    {
        Stamp stamp = default;
        return stamp.Take(cell) && stamp.HasDate && stamp.HasClock;
    }

    // Whether pairs that begin with this column are worth the look: its cells are dates or times in part.
    private static bool Begins(SampleCut cut, int column)
    {
        for (var row = cut.Count - 1; row >= 0; row -= 7)
        {
            if (BeginsDate(cut.Cell(row, column)))
                return true;
        }

        return cut.Count < 40 && Enumerable.Range(0, cut.Count).Any(row => BeginsDate(cut.Cell(row, column)));
    }

    private static bool BeginsDate(ReadOnlySpan<byte> cell)
    {
        Stamp stamp = default;
        return stamp.Take(cell) && (stamp.HasDate || stamp.HasMonth || stamp.HasClock);
    }

    private static List<int> CountedRows(SampleCut cut, int column, TimeForm form)
    {
        var rows = new List<int>();
        int rising = 0, falling = 0;
        long before = 0;
        var clocks = 0;
        for (var row = 0; row < cut.Count; row++)
        {
            if (!new TimePlace(column, -1, form).Counted(cut.Line(row), cut.Row(row), false, out var now))
                continue;
            if (rows.Count > 0)
            {
                rising += now >= before ? 1 : 0;
                falling += now <= before ? 1 : 0;
            }

            before = now;
            clocks += now % 86_400_000 != 0 ? 1 : 0;
            rows.Add(row);
        }

        // Nothing else is as large as an epoch; a serial can be light or pressure and must run on, or be called a time.
        var runs = Math.Max(rising, falling) >= 0.7 * (rows.Count - 1) && rising != falling;
        // Whole days are more likely a light or a counter, or a day cut off from its fraction.
        return rows.Count > 1 && (form == TimeForm.Epoch || (runs && clocks > 0.3 * rows.Count) || IsCalledTime(cut, column, rows[0])) ? rows : [];
    }

    private static bool IsCalledTime(SampleCut cut, int column, int first)
    {
        for (var row = Math.Max(0, first - 3); row < first; row++)
        {
            if (HeadingWords.Meaning(LogWords.Fold(cut.Text(row, column))) == ColumnMeaning.Time)
                return true;
        }

        return false;
    }
}
