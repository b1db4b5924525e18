using System.Globalization;
using System.Xml;
using Undercroft.Ledger;

namespace Undercroft.Importing.Sheets;

/// <summary>One worksheet part, read as a stream; merged cells are filled in afterwards and marked as continued.</summary>
internal sealed class WorksheetReader(XmlReader reader, List<string> strings, CellStyles styles, WorkbookReader.Budget budget)
{
    private readonly SortedDictionary<int, List<Cell>> rows = [];
    private int merged;

    public List<SheetRow> Rows()
    {
        var row = 0;
        while (reader.Read())
        {
            if (reader.NodeType != XmlNodeType.Element)
                continue;
            switch (reader.LocalName)
            {
                case "row":
                    row = int.TryParse(reader.GetAttribute("r"), CultureInfo.InvariantCulture, out var given) && given > 0 ? given : row + 1;
                    ReadRow(row);
                    break;
                case "mergeCell":
                    Merge(reader.GetAttribute("ref") ?? "");
                    break;
                default:
                    break;
            }
        }

        var filled = new List<SheetRow>();
        foreach (var (number, cells) in rows)
        {
            if (cells.Exists(cell => !cell.IsBlank))
                filled.Add(new SheetRow(number, cells));
        }

        return filled;
    }

    private void ReadRow(int number)
    {
        if (reader.IsEmptyElement)
            return;
        budget.Row();
        var cells = new List<Cell>();
        var depth = reader.Depth;
        var column = -1;
        while (reader.Read() && reader.Depth > depth)
        {
            if (reader is not { NodeType: XmlNodeType.Element, LocalName: "c" })
                continue;
            column = ColumnOf(reader.GetAttribute("r")) ?? column + 1;
            if (column >= budget.Limits.Columns)
                throw new Refusal($"Row {number} has a cell in column {column + 1} and at most {budget.Limits.Columns} columns are read. Is this a sheet?");
            var cell = ReadCell();
            if (cell.Text.Length == 0)
                continue;
            budget.Cell();
            while (cells.Count <= column)
                cells.Add(Cell.Empty);
            cells[column] = cell;
        }

        rows[number] = cells;
    }

    private Cell ReadCell()
    {
        var type = reader.GetAttribute("t") ?? "n";
        var style = int.TryParse(reader.GetAttribute("s"), CultureInfo.InvariantCulture, out var index) ? index : 0;
        if (reader.IsEmptyElement)
            return Cell.Empty;
        var depth = reader.Depth;
        string value = "", formula = "";
        // ReadElementContentAsString already stands on the next node, so the loop must not step over it.
        reader.Read();
        while (reader.Depth > depth)
        {
            if (reader is { NodeType: XmlNodeType.Element, LocalName: "v" })
                value = reader.ReadElementContentAsString();
            else if (reader is { NodeType: XmlNodeType.Element, LocalName: "f" })
                formula = reader.ReadElementContentAsString();
            else if (reader is { NodeType: XmlNodeType.Element, LocalName: "is" })
                value = WorkbookReader.RichText(reader, budget.Limits.CellCharacters);
            else if (!reader.Read())
                break;
        }

        if (value.Length > budget.Limits.CellCharacters)
            value = value[..budget.Limits.CellCharacters];
        var cell = Typed(type, value, formula, style);
        return styles.Strikes(style) ? cell with { Struck = true } : cell;
    }

    private Cell Typed(string? type, string value, string formula, int style) => type switch
    {
        "s" => new Cell(int.TryParse(value, CultureInfo.InvariantCulture, out var at) && at >= 0 && at < strings.Count ? strings[at].Trim() : ""),
        "inlineStr" or "str" => new Cell(value.Trim()),
        "b" => new Cell(value == "1" ? "yes" : value == "0" ? "no" : value),
        "e" => new Cell(value, CellKind.Broken),
        "d" => new Cell(value.Length >= 10 && !styles.Clocks ? value[..10] : value, CellKind.Date),
        _ when value.Length == 0 && formula.Length > 0 => Unsolved(formula),
        _ => styles.Show(value, style),
    };

    private Cell Unsolved(string formula)
    {
        budget.FormulasWithoutResult++;
        return new Cell("=" + formula, CellKind.Broken);
    }

    private void Merge(string range)
    {
        var ends = range.Split(':');
        if (ends.Length != 2 || ++merged > 20_000 || ColumnOf(ends[0]) is not { } left || ColumnOf(ends[1]) is not { } right
            || RowOf(ends[0]) is not { } top || RowOf(ends[1]) is not { } bottom || bottom < top || right < left || bottom - top > 5_000 || right - left > 500)
            return;
        if (!rows.TryGetValue(top, out var first) || left >= first.Count || first[left].IsBlank)
            return;
        var origin = first[left];
        for (var row = top; row <= bottom; row++)
        {
            // A merged cell never makes a row of its own: what holds nothing else stays blank.
            if (!rows.TryGetValue(row, out var cells))
                continue;
            for (var column = left; column <= right; column++)
            {
                if (row == top && column == left)
                    continue;
                budget.Cell();
                while (cells.Count <= column)
                    cells.Add(Cell.Empty);
                cells[column] = origin with { Continued = true };
            }
        }
    }

    private static int? ColumnOf(string? reference)
    {
        var column = 0;
        foreach (var letter in reference ?? "")
        {
            if (letter is < 'A' or > 'Z')
                break;
            column = (column * 26) + (letter - 'A' + 1);
            if (column > 20_000)
                return null;
        }

        return column == 0 ? null : column - 1;
    }

    private static int? RowOf(string reference) =>
        int.TryParse(reference.AsSpan().TrimStart("ABCDEFGHIJKLMNOPQRSTUVWXYZ$"), CultureInfo.InvariantCulture, out var row) && row > 0 ? row : null;
}
