using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>A sheet of blocks: each line is a head and its value, and a block of lines below one another is a row, as on index cards.</summary>
internal static class InBlocks
{
    private const int MostHeads = 20;

    /// <summary>The sheet with a row for every block, numbered as the block's first line; null where it is none.</summary>
    public static Sheet? Flat(Sheet sheet)
    {
        if (sheet.Rows.Count < 4 || sheet.Rows.Any(row => row.Cells.Skip(2).Any(cell => !cell.IsBlank)))
            return null;
        var heads = sheet.Rows.Select(Head).Where(head => head.Length > 0).Distinct().ToList();
        // Every line begins with a head that is known or ends in a colon, few of them, the same again and again.
        if (heads.Count is < 2 or > MostHeads || sheet.Rows.Any(row => Head(row).Length == 0 || row[1].IsBlank && !row[0].Text.Contains(':', StringComparison.Ordinal))
            || heads.Count(head => HeadReading.Of(head).Exact) < 0.6 * heads.Count || !heads.Exists(head => HeadReading.Of(head).Meanings is [Meaning.Blend, ..])
            || sheet.Rows.Count(row => Head(row) == heads[0]) < 2 || sheet.Rows.Count < 1.5 * heads.Count)
            return null;
        var blocks = new List<SheetRow> { new(sheet.Rows[0].Number, [.. heads.Select(head => new Cell(head))]) };
        Cell[]? block = null;
        foreach (var row in sheet.Rows)
        {
            var at = heads.IndexOf(Head(row));
            if (at == 0 || block is null || !block[at].IsBlank)
            {
                block = [.. heads.Select(_ => Cell.Empty)];
                blocks.Add(new SheetRow(row.Number, block));
            }

            block[at] = row[1];
        }

        return new Sheet(sheet.Name, blocks);
    }

    private static string Head(SheetRow row) => row[0].Text.Trim().TrimEnd(':', '=', ' ');
}
