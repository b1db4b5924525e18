using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>Tables that stand side by side on one sheet, kept apart by an empty column: each has a head of its own with a name in it.</summary>
internal static class SideBySide
{
    private const int Deep = 60;

    /// <summary>The sheet in parts from left to right; one part where there is one table. Columns keep their letters and rows their numbers.</summary>
    public static IReadOnlyList<Sheet> Parts(Sheet sheet)
    {
        foreach (var row in sheet.Rows.Take(Deep))
        {
            var cuts = Cuts(row);
            if (cuts.Count == 0)
                continue;
            var width = sheet.Rows.Max(one => one.Cells.Count);
            var parts = new List<Sheet>();
            for (var i = 0; i <= cuts.Count; i++)
            {
                int from = i == 0 ? 0 : cuts[i - 1], to = i == cuts.Count ? width : cuts[i];
                var rows = sheet.Rows.Select(one => Only(one, from, to)).Where(one => one.Cells.Any(cell => !cell.IsBlank)).ToList();
                parts.Add(new Sheet(sheet.Name, rows));
            }

            return parts;
        }

        return [sheet];
    }

    // Where a second name begins, after a gap or with the same heads once more.
    private static List<int> Cuts(SheetRow row)
    {
        var heads = row.Cells.Select(cell => cell.IsBlank || cell.Continued || cell.Kind != CellKind.Text ? null : HeadReading.Of(cell.Text)).ToList();
        var names = Enumerable.Range(0, heads.Count).Where(c => heads[c] is { Exact: true, Meanings: [Meaning.Blend, ..] }).ToList();
        if (names.Count < 2)
            return [];
        var cuts = new List<int>();
        foreach (var name in names.Skip(1))
        {
            var start = name;
            while (start > 0 && !row[start - 1].IsBlank && heads[start - 1]?.Exact == true && !names.Contains(start - 1) && Same(row, start - 1, names[0] - 1 - (name - start)))
                start--;
            var gap = start > 0 && row[start - 1].IsBlank;
            var again = string.Equals(row[name].Text.Trim(), row[names[0]].Text.Trim(), StringComparison.OrdinalIgnoreCase);
            var known = Enumerable.Range(start, heads.Count - start).Count(c => heads[c]?.Exact == true);
            if (!(gap || again) || known < 2)
                return [];
            cuts.Add(start);
        }

        return cuts;
    }

    private static bool Same(SheetRow row, int one, int other) => other >= 0 && string.Equals(row[one].Text.Trim(), row[other].Text.Trim(), StringComparison.OrdinalIgnoreCase);

    private static SheetRow Only(SheetRow row, int from, int to)
    {
        var cells = new Cell[Math.Min(row.Cells.Count, to)];
        for (var c = 0; c < cells.Length; c++)
            cells[c] = c >= from ? row[c] : Cell.Empty;
        return new SheetRow(row.Number, cells);
    }
}
