using System.Text;
using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>Finds separator, times, header and first reading from the first lines of a log.</summary>
internal static class LayoutGuess
{
    private const int SampleLines = 400;
    private const int MostTimeColumns = 12;
    private static readonly byte[] Separators = "\t;,| "u8.ToArray();

    /// <summary>The layout.</summary>
    /// <exception cref="Refusal">No column of times with numbers beside it.</exception>
    public static Layout Of(LogText text)
    {
        var lines = new List<byte[]>();
        using (var reader = text.Lines())
        {
            while (lines.Count < SampleLines && reader.Next(out var line))
                lines.Add(line.ToArray());
        }

        (SampleCut Cut, TimePlace Time, List<int> Rows, int Numbers)? best = null;
        foreach (var separator in Separators)
        {
            var cut = new SampleCut(lines, separator);
            if (cut.Width > 1 && Times(cut) is var (time, rows, numbers) && (best is not { } other || rows.Count > 1.2 * other.Rows.Count || (numbers > other.Numbers && rows.Count >= other.Rows.Count && separator != ' ')))
                best = (cut, time, rows, numbers);
        }

        if (best is not { } found)
        {
            throw new Refusal(
                $"{text.Source.Name} is not read: no column of dates and times with numbers beside it was found. Export the log as text with one reading a row: time, temperature, humidity.");
        }

        return Headed(found.Cut, found.Time, found.Rows, lines);
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

        if (best is not { } found)
            return null;
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

    private static Layout Headed(SampleCut cut, TimePlace time, List<int> rows, List<byte[]> lines)
    {
        var usual = rows.GroupBy(row => cut.Row(row).Length).OrderByDescending(group => group.Count()).First().Key;
        // A line of the preamble may hold a time where the readings do, but not as many cells.
        var first = rows.First(row => cut.Row(row).Length >= usual - 1 || cut.Row(row).Length == usual);
        while (first > 0 && cut.Row(first - 1).Length >= usual - 1 && time.Form == TimeForm.Written && time.Written(cut.Line(first - 1), cut.Row(first - 1), out _))
            first--;
        rows = [.. rows.Where(row => row >= first)];
        var header = HeaderRows(cut, first, usual);
        var headerWidth = header.Count == 0 ? 0 : header.Max(row => cut.Row(row).Length);
        var pairs = cut.Separator == ',' && headerWidth > 0 && Commas(cut, rows, time, usual, headerWidth);
        var width = pairs ? headerWidth : rows.Max(row => cut.Row(row).Length);
        var shift = pairs ? 0 : Shift(cut, rows, time, usual, headerWidth);
        var columns = new List<LogColumn>();
        for (var column = 0; column < width; column++)
        {
            if (time.Uses(column))
                continue;
            var at = shift == 0 ? column : column <= Math.Max(time.First, time.Second) && shift < 0 && time.Second >= 0 ? column : column - (shift < 0 ? 1 : -1);
            var heading = string.Join(' ', header.Select(row => at >= 0 ? cut.Text(row, at) : "").Where(cell => cell.Length > 0));
            columns.Add(new(column, heading, Group(cut, header, at), HeadingWords.Meaning(LogWords.Fold(heading))));
        }

        if (cut.Separator == ' ' && columns.TrueForAll(column => column.Meaning is ColumnMeaning.Unknown or ColumnMeaning.Time or ColumnMeaning.Other) || (cut.Separator == ' ' && headerWidth != usual))
            columns = InOrder(cut, header, columns, rows);
        var preamble = new StringBuilder();
        for (var row = 0; row < first; row++)
            preamble.Append(LogWords.Fold(Encoding.UTF8.GetString(lines[row]))).Append('\n');
        var timeHeading = LogWords.Fold(string.Join(' ', header.Select(row => cut.Text(row, time.First) + " " + (time.Second >= 0 ? cut.Text(row, time.Second) : ""))));
        return new(cut.Separator, first, header.Count > 0 ? lines[header[^1]] : [], preamble.ToString(), time, columns, pairs, timeHeading, cut, rows);
    }

    private static List<int> HeaderRows(SampleCut cut, int first, int usual)
    {
        var header = new List<int>();
        for (var row = first - 1; row >= 0 && header.Count < 4; row--)
        {
            var filled = 0;
            for (var column = 0; column < cut.Row(row).Length; column++)
                filled += Cells.Bare(cut.Cell(row, column)).IsEmpty ? 0 : 1;
            if (filled == 0)
            {
                if (header.Count > 0)
                    break;
                continue;
            }

            // With a comma for decimals too, the header is narrower than the rows.
            var least = cut.Separator is (byte)' ' or (byte)',' ? Math.Max(2, (usual + 1) / 2) : Math.Max(2, usual - 1);
            if ((cut.Row(row).Length < least && !IsOfUnits(cut, row, header.Count, least)) || (filled == 2 && usual >= 4 && header.Count > 0))
                break;
            header.Insert(0, row);
        }

        return header;
    }

    // A row of units below the names ends with its last unit: it has fewer cells than the rows.
    private static bool IsOfUnits(SampleCut cut, int row, int below, int least)
    {
        if (below > 0 || row == 0 || cut.Row(row - 1).Length < least)
            return false;
        for (var column = 0; column < cut.Row(row).Length; column++)
        {
            var cell = cut.Text(row, column);
            if (cell.Length > 6 || cell.Any(char.IsAsciiDigit) || (column == 0 && cell.Length > 0))
                return false;
        }

        return true;
    }

    // A name above several columns holds for those right of it, too.
    private static string Group(SampleCut cut, List<int> header, int column)
    {
        if (header.Count < 2 || column < 0)
            return "";
        for (var at = column; at >= 0; at--)
        {
            if (cut.Text(header[0], at) is { Length: > 0 } name)
                return at == column ? "" : name;
        }

        return "";
    }

    // Header and rows differ by a column: an index without a name, or date and time under one heading or apart under two.
    private static int Shift(SampleCut cut, List<int> rows, TimePlace time, int usual, int headerWidth)
    {
        if (headerWidth == 0 || cut.Separator == ' ')
            return 0;
        if (headerWidth == usual - 1 && time.Second >= 0)
            return -1;
        if (headerWidth == usual + 1 && time.Second < 0 && time.First == 0 && HeadingWords.Meaning(LogWords.Fold(string.Join(' ', cut.Text(rows[0], 1)))) == ColumnMeaning.Unknown)
        {
            var header = Math.Max(0, rows[0] - 1);
            return HeadingWords.Meaning(LogWords.Fold(cut.Text(header, 0))) == ColumnMeaning.Time && HeadingWords.Meaning(LogWords.Fold(cut.Text(header, 1))) == ColumnMeaning.Time ? 1 : 0;
        }

        return headerWidth == usual - 1 && !time.Uses(0) && rows.All(row => Cells.Number(cut.Cell(row, 0), out _, out _) == CellKind.Number) ? -1 : 0;
    }

    // 1 July, 21,5, 55,3: one heading for two cells each.
    private static bool Commas(SampleCut cut, List<int> rows, TimePlace time, int usual, int headerWidth)
    {
        var timeCells = time.Second >= 0 ? 2 : 1;
        if (usual != headerWidth + (headerWidth - timeCells) || time.First >= timeCells || time.Second >= timeCells)
            return false;
        foreach (var row in rows)
        {
            for (var column = timeCells; column < cut.Row(row).Length; column++)
            {
                if (Cells.Number(cut.Cell(row, column), out var value, out _) != CellKind.Number || value != Math.Floor(value))
                    return false;
            }
        }

        return true;
    }

    // Words apart by spaces do not line up with the columns: the quantities come in the same order.
    private static List<LogColumn> InOrder(SampleCut cut, List<int> header, List<LogColumn> columns, List<int> rows)
    {
        var named = new List<(string Word, ColumnMeaning Meaning)>();
        foreach (var row in header)
        {
            var found = new List<(string, ColumnMeaning)>();
            for (var column = 0; column < cut.Row(row).Length; column++)
            {
                var word = cut.Text(row, column);
                var meaning = HeadingWords.Meaning(LogWords.Fold(word));
                if (meaning is not (ColumnMeaning.Unknown or ColumnMeaning.Time or ColumnMeaning.Other))
                    found.Add((word, meaning));
            }

            if (found.Count > named.Count)
                named = found;
        }

        var numeric = columns.Where(column => rows.Count(row => Cells.Number(cut.Cell(row, column.Index), out _, out _) == CellKind.Number) > rows.Count / 2).Select(column => column.Index).ToList();
        var unit = string.Join(' ', header.Select(row => Encoding.UTF8.GetString(cut.Line(row))));
        return named.Count == 0 || named.Count > numeric.Count ? columns : [.. columns.Select(column => numeric.IndexOf(column.Index) is >= 0 and var at && at < named.Count
            ? column with { Meaning = named[at].Meaning, Heading = named.Count(one => one.Meaning == named[at].Meaning) == 1 && named[at].Meaning == ColumnMeaning.Temperature ? named[at].Word + " " + unit : named[at].Word }
            : column with { Meaning = ColumnMeaning.Unknown, Heading = "" })];
    }
}
