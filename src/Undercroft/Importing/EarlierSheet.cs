using Undercroft.Importing.Rows;
using Undercroft.Importing.Sheets;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing;

/// <summary>The sheet as it was imported before: what differs, and which answers about its rows still hold.</summary>
/// <param name="Import">The line of the earlier import.</param>
/// <param name="Former">What its file says.</param>
/// <param name="Changes">What differs.</param>
/// <param name="Answers">What was answered about its rows.</param>
internal sealed record EarlierSheet(Timed<Fact.SheetImported> Import, SheetReading Former, SheetChanges Changes, CarriedAnswers Answers)
{
    private const int Listed = 12;

    /// <summary>The latest import of which the file is another state; null where there is none.</summary>
    public static EarlierSheet? Of(Cellar cellar, DataFolder? folder, SheetRequest request, SheetReading reading, DateOnly today)
    {
        if (folder is null)
            return null;
        foreach (var import in cellar.Imports.Reverse())
        {
            var kept = ImportSheet.KeptPath(folder, import.Fact.Sha256, import.Fact.File);
            if (!File.Exists(kept))
                continue;
            SheetReading former;
            try
            {
                former = SheetUnderstanding.Of(SheetReader.Read(File.ReadAllBytes(kept), encoding: import.Fact.Mapping is { } mapping ? SheetMap.Read(mapping).Encoding : null), today, request.Map);
            }
            catch (Refusal)
            {
                // What is kept is not a sheet any more; it cannot be compared, and the new file stands for itself.
                continue;
            }

            var changes = SheetChanges.Between(import.Fact.File, former, reading);
            if (changes.IsSameSheet(string.Equals(import.Fact.File, request.FileName, StringComparison.OrdinalIgnoreCase)))
                return new EarlierSheet(import, former, changes, CarriedAnswers.Of(cellar, import.Entry.Event, former, reading, changes));
        }

        return null;
    }

    /// <summary>What is asked before anything is written.</summary>
    public string Asked()
    {
        static string Rows(IEnumerable<int> rows) => rows.ToList() is { Count: > 0 } all ? string.Join(", ", all.Take(Listed)) + (all.Count > Listed ? $" and {all.Count - Listed} more" : "") : "none";
        var cells = Changes.Changed.Take(Listed).Select(row => $" Row {row.After.Row}: {string.Join(", ", row.Cells.Select(Say))}.");
        return $"The sheet was imported before as '{Changes.Before}' and has changed: {Changes.Same} rows are the same; rows that read otherwise: {Rows(Changes.Changed.Select(row => row.After.Row))}; "
            + $"rows that are new: {Rows(Changes.Added.Select(row => row.Row))}; rows of the earlier file that are gone: {Rows(Changes.Missing.Select(row => row.Row))}."
            + string.Concat(cells) + " Nothing was imported. Say --changed update to bring what changed up to date, to add the new rows and to be asked where something was noted since; --changed add to leave what is there and add the new rows; or --changed replace to undo the earlier import and take the file anew"
            + (Answers.ByRow.Count > 0 ? $"; what you answered about {Answers.ByRow.Count} rows still holds then" : "")
            + (Answers.Dropped.Count > 0 ? $"; your answers about rows {Rows(Answers.Dropped)} of the earlier file would be dropped, since those rows changed" : "") + ". --dry-run shows it first.";
    }

    /// <summary>One cell before and after, in words.</summary>
    internal static string Say(ChangedCell cell) => $"{cell.Column} {(cell.Before.Length > 0 ? $"'{RowReader.Short(cell.Before)}'" : "blank")} became {(cell.After.Length > 0 ? $"'{RowReader.Short(cell.After)}'" : "blank")}";
}
