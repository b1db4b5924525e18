using Undercroft.Importing.Sheets;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Rows;

/// <summary>Where a row was read: all that its reading depends on besides its own cells.</summary>
/// <param name="Table">Its table.</param>
/// <param name="Setting">What holds for the table.</param>
/// <param name="Cache">Readings made before.</param>
/// <param name="Above">The data row above it, for ditto marks.</param>
/// <param name="Place">A heading above it that names a place, or null.</param>
/// <param name="Heading">Another heading above it, or null.</param>
/// <param name="Elsewhere">Whether the sheet or the heading says that its rows do not stand on the shelf.</param>
internal sealed record RowContext(Table Table, TableSetting Setting, ReadingCache Cache, SheetRow? Above, string? Place, string? Heading, Elsewhere.Kind Elsewhere)
{
    /// <summary>The row with other words in some of its cells, read and checked as before. Checks across rows are not repeated.</summary>
    public RowFacts Again(RowFacts row, IEnumerable<CellSaid> cells, bool take)
    {
        var texts = row.Source.Cells.ToList();
        foreach (var said in cells)
        {
            var column = Table.Columns.FirstOrDefault(one => SheetMap.Letter(one.Index) == said.Column)?.Index ?? -1;
            if (column < 0)
                continue;
            while (texts.Count <= column)
                texts.Add(Cell.Empty);
            texts[column] = new Cell(said.Text);
        }

        var facts = new RowReader(Table, Setting, Cache).Read(new SheetRow(row.Row, texts), this);
        if (take)
        {
            facts.Settle(question => question.Kind == "not-here");
            facts.Take();
            facts.Settle(_ => false);
        }

        return facts;
    }
}
