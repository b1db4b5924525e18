using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>A sheet that lies on its side: the heads stand in the first column, and every further column is a row.</summary>
internal static class OnItsSide
{
    private const int Most = 40;

    /// <summary>The sheet set upright, its rows numbered as the columns were; null where it stands already.</summary>
    public static Sheet? Upright(Sheet sheet)
    {
        var rows = sheet.Rows.Where(row => row.Filled > 1).ToList();
        if (rows.Count is < 2 or > Most || rows.Count < 0.6 * sheet.Rows.Count || rows.Max(row => row.Cells.Count) is var width && width < 3)
            return null;
        var heads = rows.ConvertAll(row => HeadReading.Of(row[0].Text));
        // Most of the first column are heads, of different things; hardly any of the first row are.
        if (heads.Count(head => head.Exact) < Math.Max(2, 0.7 * rows.Count) || heads.Where(head => head.Exact).Select(head => head.Meanings[0]).Distinct().Count() < 2 || !heads.Exists(head => head.Meanings is [Meaning.Blend, ..]))
            return null;
        var across = rows[0].Cells.Where(cell => !cell.IsBlank).ToList();
        if (across.Count < 2 || across.Skip(1).Count(cell => cell.Kind == CellKind.Text && HeadReading.Of(cell.Text).Exact) > 0.34 * (across.Count - 1))
            return null;
        var upright = new List<SheetRow>();
        for (var c = 0; c < width; c++)
        {
            var cells = rows.ConvertAll(row => row[c]);
            if (cells.Exists(cell => !cell.IsBlank))
                upright.Add(new SheetRow(c + 1, cells));
        }

        return new Sheet(sheet.Name, upright);
    }
}
