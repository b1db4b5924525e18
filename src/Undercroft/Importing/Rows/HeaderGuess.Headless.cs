using System.Text.RegularExpressions;
using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>Sheets without any head: columns by their contents, or lines of free words.</summary>
public static partial class HeaderGuess
{
    private static Table Headless(Sheet sheet, DateOnly today, SheetMap? map)
    {
        var skip = 0;
        while (skip < sheet.Rows.Count && skip < 6 && IsTitle(sheet.Rows, skip))
            skip++;
        var rows = sheet.Rows.Skip(skip).ToList();
        var columns = Guess(rows, today, map);
        // Lines of free words: what looked like columns is only punctuation, so each line is read as one cell.
        if (map is null && columns.Count > 1 && !IsRegular(rows, columns) && (IsList(rows) || !columns.Any(column => column.IsAmount && !Wordy(rows, column.Index) || column.Meaning == Meaning.Container && column.Ground == Ground.Contents && rows.All(row => row.Filled > 1))))
        {
            rows = [.. rows.Select(row => new SheetRow(row.Number, [new Cell(string.Join(", ", row.Cells.Where(cell => !cell.IsBlank && !cell.Continued).Select(cell => cell.Text)))]))];
            columns = Guess(rows, today, map);
        }

        if (columns is [{ Meaning: not Meaning.Blend } only])
            columns = [only with { Meaning = Meaning.Blend, Ground = Ground.Contents }];
        return new Table(sheet.Name, [], columns, rows);
    }

    // Every line has the same cells and several columns hold nothing but numbers: a table that never had a head.
    private static bool IsRegular(List<SheetRow> rows, IReadOnlyList<Column> columns)
    {
        if (rows.Count < 3 || rows.Count(row => Bullet().IsMatch(row[0].Text)) >= 0.6 * rows.Count)
            return false;
        var numbers = columns.Count(column => rows.Count(row => !row[column.Index].IsBlank && row[column.Index].Text.Any(char.IsAsciiDigit) && !row[column.Index].Text.Any(char.IsLetter)) >= 0.8 * rows.Count);
        return numbers >= 2 && rows.Count(row => row.Cells.Count == rows[0].Cells.Count) >= 0.9 * rows.Count;
    }

    // Lines that begin with a dash or a number, or of which each has another number of commas.
    private static bool IsList(List<SheetRow> rows)
    {
        if (rows.Count < 2)
            return false;
        var marked = rows.Count(row => Bullet().IsMatch(row[0].Text));
        var usual = rows.GroupBy(row => row.Cells.Count).Max(group => group.Count());
        return marked >= 0.6 * rows.Count || (rows.Count >= 4 && usual <= 0.5 * rows.Count);
    }

    [GeneratedRegex(@"^\s*(?:[-*•·–—+>]\s+|\d{1,3}[.)]\s+)\p{L}", RegexOptions.CultureInvariant)]
    private static partial Regex Bullet();

    // Amounts with a name beside them in the same cell: a line of words and no column of amounts.
    private static bool Wordy(List<SheetRow> rows, int column)
    {
        int filled = 0, words = 0;
        foreach (var row in rows.Take(50))
        {
            if (row[column].IsBlank)
                continue;
            filled++;
            words += QuantityScan.Of(row[column].Text, CellSetting.Open).Rest.Count(char.IsLetter) > 3 ? 1 : 0;
        }

        return words >= 0.6 * filled;
    }

    // A line above everything else: nothing in it reads as a value, and a blank line or wider rows follow.
    private static bool IsTitle(IReadOnlyList<SheetRow> rows, int index)
    {
        var row = rows[index];
        if (row.Filled != 1 || index + 1 >= rows.Count)
            return false;
        var text = row.Cells.First(cell => !cell.IsBlank && !cell.Continued).Text;
        if (LooksLikeData(text) || QuantityScan.Of(text, CellSetting.Open).Vessel is { Count: not null })
            return false;
        return rows[index + 1].Number > row.Number + 1 || rows.Skip(index + 1).Take(5).Count(next => next.Filled > 2) >= 2;
    }

    private static IReadOnlyList<Column> Guess(List<SheetRow> rows, DateOnly today, SheetMap? map)
    {
        var heads = new string[rows.Count == 0 ? 0 : rows.Max(row => row.Cells.Count)];
        Array.Fill(heads, "");
        return ColumnGuess.Columns(heads, rows, today, map);
    }
}
