using Undercroft.Importing.Cells;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Rows;

/// <summary>A cell that reads otherwise than before.</summary>
/// <param name="Column">Head of its column, or its letter.</param>
/// <param name="Before">As it stood; empty where there was nothing.</param>
/// <param name="After">As it stands; empty where nothing does.</param>
public sealed record ChangedCell(string Column, string Before, string After);

/// <summary>A row of the earlier file and what became of it.</summary>
/// <param name="Before">As it was.</param>
/// <param name="After">As it is.</param>
/// <param name="Cells">What differs.</param>
public sealed record ChangedRow(RowFacts Before, RowFacts After, IReadOnlyList<ChangedCell> Cells);

/// <summary>What differs between a file and one that was imported before.</summary>
/// <param name="Before">Name of the earlier file.</param>
/// <param name="Kept">Rows that both have, by sheet and row number of the earlier file.</param>
/// <param name="Changed">Rows of which some cells differ.</param>
/// <param name="Added">Rows that only the new file has.</param>
/// <param name="Missing">Rows that only the earlier file has.</param>
public sealed record SheetChanges(
    string Before, IReadOnlyDictionary<(string Sheet, int Row), RowFacts> Kept, IReadOnlyList<ChangedRow> Changed, IReadOnlyList<RowFacts> Added, IReadOnlyList<RowFacts> Missing)
{
    private const double Alike = 0.5;
    private const int MostCandidates = 24;

    /// <summary>How many rows both have.</summary>
    public int Same => Kept.Count;

    /// <summary>True where rows were only added, so that nothing of the earlier import is put in question.</summary>
    public bool OnlyAdds => Missing.Count == 0 && Changed.Count == 0;

    /// <summary>True where the files share enough rows to be two states of one sheet.</summary>
    public bool IsSameSheet(bool sameName) => sameName
        ? Same > 0 || (Changed.Count > 0 && Changed.Count * 2 >= Changed.Count + Missing.Count)
        : Same > 0 && (Same + Changed.Count) * 2 >= Same + Changed.Count + Missing.Count;

    /// <summary>Compares the rows of two readings by their words, wherever they stand and in whatever order their columns are.</summary>
    public static SheetChanges Between(string before, SheetReading earlier, SheetReading now)
    {
        var left = earlier.Rows.GroupBy(Key).ToDictionary(group => group.Key, group => new Queue<RowFacts>(group));
        var added = new List<RowFacts>();
        var kept = new Dictionary<(string, int), RowFacts>();
        foreach (var row in now.Rows)
        {
            if (left.TryGetValue(Key(row), out var twins) && twins.TryDequeue(out var twin))
                kept[(twin.Sheet, twin.Row)] = row;
            else
                added.Add(row);
        }

        var missing = left.Values.SelectMany(rows => rows).OrderBy(row => row.Row).ToList();
        var changed = Paired(missing, added);
        return new SheetChanges(before, kept, changed, added, missing);
    }

    /// <summary>An answer about the earlier row, said of the columns of the row as it stands now; null where one of its columns is gone.</summary>
    public static Fact.RowAnswered? Carried(Fact.RowAnswered answer, RowFacts before, RowFacts after)
    {
        if (answer.Cells is not { } cells)
            return answer;
        var said = new List<CellSaid>();
        foreach (var cell in cells)
        {
            var head = before.Context?.Table.Columns.FirstOrDefault(column => SheetMap.Letter(column.Index) == cell.Column);
            var column = head is null ? null : after.Context?.Table.Columns.FirstOrDefault(column => column.Head == head.Head && (head.Head.Length > 0 || column.Index == head.Index));
            if (column is null)
                return null;
            said.Add(cell with { Column = SheetMap.Letter(column.Index) });
        }

        return answer with { Cells = said };
    }

    // A row that changed stands where it stood, or has its name still; at least half of its cells are the same.
    private static List<ChangedRow> Paired(List<RowFacts> missing, List<RowFacts> added)
    {
        var pairs = new List<(RowFacts Before, RowFacts After)>();
        var open = missing.ToHashSet();
        var byPlace = added.ToDictionary(row => (row.Sheet, row.Row));
        var taken = new HashSet<RowFacts>();
        void Pair(RowFacts before, RowFacts after)
        {
            pairs.Add((before, after));
            open.Remove(before);
            taken.Add(after);
        }

        var byName = added.GroupBy(Name).ToDictionary(group => group.Key, group => group.ToList());
        foreach (var row in missing)
        {
            var best = byName.GetValueOrDefault(Name(row))?.Where(other => !taken.Contains(other)).OrderBy(other => Math.Abs(other.Row - row.Row)).Take(MostCandidates).MaxBy(other => Likeness(row, other));
            if (best is not null && Likeness(row, best) >= Alike)
                Pair(row, best);
        }

        foreach (var row in open.ToList())
        {
            if (byPlace.TryGetValue((row.Sheet, row.Row), out var other) && !taken.Contains(other) && Likeness(row, other) >= Alike)
                Pair(row, other);
        }

        missing.RemoveAll(row => !open.Contains(row));
        added.RemoveAll(taken.Contains);
        return [.. pairs.OrderBy(pair => pair.After.Row).Select(pair => new ChangedRow(pair.Before, pair.After, Cells(pair.Before, pair.After)))];
    }

    private static string Name(RowFacts row) => row.Sheet + '\u0001' + Folding.Fold($"{row.Maker?.Value} {row.Blend?.Value}");

    private static double Likeness(RowFacts one, RowFacts other)
    {
        Dictionary<string, string> before = Said(one), after = Said(other);
        var same = before.Count(cell => after.GetValueOrDefault(cell.Key) == cell.Value);
        return (double)same / Math.Max(1, Math.Max(before.Count, after.Count));
    }

    private static List<ChangedCell> Cells(RowFacts one, RowFacts other)
    {
        Dictionary<string, string> before = Said(one), after = Said(other);
        return [.. before.Keys.Union(after.Keys).Select(column => new ChangedCell(column, before.GetValueOrDefault(column) ?? "", after.GetValueOrDefault(column) ?? "")).Where(cell => cell.Before != cell.After)];
    }

    // The filled cells by the heads of their columns.
    private static Dictionary<string, string> Said(RowFacts row)
    {
        var said = new Dictionary<string, string>();
        for (var c = 0; c < row.Source.Cells.Count; c++)
        {
            if (row.Source[c].IsBlank)
                continue;
            var head = row.Context is { } context && c < context.Table.Columns.Count ? context.Table.Columns[c].Head : "";
            if (head.Length == 0 || !said.TryAdd(head, row.Source[c].Text.Trim()))
                said[$"column {SheetMap.Letter(c)}"] = row.Source[c].Text.Trim();
        }

        return said;
    }

    private static string Key(RowFacts row) =>
        Folding.Fold(row.Sheet + '\u0001' + string.Join('\u0001', Said(row).OrderBy(cell => cell.Key, StringComparer.Ordinal).Select(cell => $"{cell.Key}\u0002{cell.Value}")));
}
