using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>What differs between a file and one that was imported before.</summary>
/// <param name="Before">Name of the earlier file.</param>
/// <param name="Added">Rows that only the new file has.</param>
/// <param name="Missing">Rows that only the earlier file has: removed, or changed into one of the added.</param>
/// <param name="Same">How many rows both have.</param>
public sealed record SheetChanges(string Before, IReadOnlyList<RowFacts> Added, IReadOnlyList<RowFacts> Missing, int Same)
{
    /// <summary>True where rows were only added, so that nothing of the earlier import is put in question.</summary>
    public bool OnlyAdds => Missing.Count == 0;

    /// <summary>True where the files share enough rows to be two states of one sheet.</summary>
    public bool IsSameSheet(bool sameName) => Same > 0 && (sameName || Same * 2 >= Same + Missing.Count);

    /// <summary>Compares the rows of two readings by their words, wherever they stand.</summary>
    public static SheetChanges Between(string before, SheetReading earlier, SheetReading now)
    {
        var left = earlier.Rows.GroupBy(Key).ToDictionary(group => group.Key, group => new Queue<RowFacts>(group));
        var added = new List<RowFacts>();
        var same = 0;
        foreach (var row in now.Rows)
        {
            if (left.TryGetValue(Key(row), out var twins) && twins.Count > 0)
            {
                twins.Dequeue();
                same++;
            }
            else
            {
                added.Add(row);
            }
        }

        return new SheetChanges(before, added, [.. left.Values.SelectMany(rows => rows).OrderBy(row => row.Row)], same);
    }

    private static string Key(RowFacts row) => Folding.Fold(row.Sheet + '\u0001' + string.Join('\u0001', row.Source.Cells.Select(cell => cell.Text.Trim())).TrimEnd('\u0001'));
}
