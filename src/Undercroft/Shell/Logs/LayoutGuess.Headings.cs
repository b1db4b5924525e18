using System.Text;

namespace Undercroft.Shell.Logs;

internal static partial class LayoutGuess
{
    private static Layout Headed(SampleCut cut, TimePlace time, List<int> rows, List<byte[]> lines, List<int> numbers)
    {
        var usual = rows.GroupBy(row => cut.Row(row).Length).OrderByDescending(group => group.Count()).First().Key;
        // A line of the preamble may hold a time where the readings do, but not as many cells.
        var first = rows.First(row => cut.Row(row).Length >= usual - 1 || cut.Row(row).Length == usual);
        while (first > 0 && cut.Row(first - 1).Length >= usual - 1 && time.Form == TimeForm.Written && time.Written(cut.Line(first - 1), cut.Row(first - 1), out _))
            first--;
        first = WithBlankEnds(cut, rows, first, usual);
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
            var heading = string.Join(' ', header.Select(row => at >= 0 ? cut.Text(row, at) : "").Where(cell => cell.AsSpan().IndexOfAnyExcept("-=_: ") >= 0));
            columns.Add(new(column, heading, Group(cut, header, at), HeadingWords.Meaning(LogWords.Fold(heading))));
        }

        if (cut.Separator == ' ' && columns.TrueForAll(column => column.Meaning is ColumnMeaning.Unknown or ColumnMeaning.Time or ColumnMeaning.Other) || (cut.Separator == ' ' && headerWidth != usual))
            columns = InOrder(cut, header, columns, rows);
        var preamble = new StringBuilder();
        for (var row = 0; row < first; row++)
            preamble.Append(LogWords.Fold(Encoding.UTF8.GetString(lines[row]))).Append('\n');
        var timeHeading = LogWords.Fold(string.Join(' ', header.Select(row => cut.Text(row, time.First) + " " + (time.Second >= 0 ? cut.Text(row, time.Second) : ""))));
        return new(cut.Separator, numbers[first], header.Count > 0 ? lines[header[^1]] : [], preamble.ToString(), time, columns, pairs, timeHeading, cut, rows);
    }

    // Readings whose last channels are blank have fewer cells: they count where they stand right below names of as many columns, or begin the file.
    private static int WithBlankEnds(SampleCut cut, List<int> rows, int first, int usual)
    {
        var begin = first;
        while (begin > 0 && rows.Contains(begin - 1) && cut.Row(begin - 1).Length > 1)
            begin--;
        return begin == 0 || cut.Row(begin - 1).Length >= usual - 1 ? begin : first;
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

            if (header.Count > 0 && IsOfFigures(cut, row))
                break;
            // With a comma for decimals too, the header is narrower than the rows.
            var least = cut.Separator is (byte)' ' or (byte)',' ? Math.Max(2, (usual + 1) / 2) : Math.Max(2, usual - 1);
            if ((cut.Row(row).Length < least && !IsOfUnits(cut, row, header.Count, least)) || (filled == 2 && usual >= 4 && header.Count > 0))
                break;
            header.Insert(0, row);
        }

        return header;
    }

    // Totals and dates above the names of the columns are no part of them.
    private static bool IsOfFigures(SampleCut cut, int row)
    {
        int filled = 0, figures = 0;
        for (var column = 0; column < cut.Row(row).Length; column++)
        {
            var cell = cut.Cell(row, column);
            Stamp stamp = default;
            if (stamp.Take(cell) && stamp.HasDate)
                return true;
            filled += Cells.Bare(cell).IsEmpty ? 0 : 1;
            figures += Cells.Number(cell, out var value, out _) == CellKind.Number && value != Math.Floor(value) ? 1 : 0;
        }

        return 2 * figures >= filled;
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

        return headerWidth == usual - 1 && (!time.Uses(0) || (time.Form == TimeForm.Steady && !time.IsClock)) && rows.All(row => Cells.Number(cut.Cell(row, 0), out _, out _) == CellKind.Number) ? -1 : 0;
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
