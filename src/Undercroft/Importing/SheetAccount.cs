using Undercroft.Importing.Cells;
using Undercroft.Importing.Entering;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;

namespace Undercroft.Importing;

/// <summary>What an import did, or would do: both sides of the account.</summary>
/// <param name="File">Name of the file.</param>
/// <param name="DryRun">True where nothing was written.</param>
/// <param name="AlreadyImported">True where the very same file is in the ledger, so that nothing is added.</param>
/// <param name="RowsRead">Data rows; headers, blanks, headings and totals are none.</param>
/// <param name="RowsUnderstood">Of which everything is understood.</param>
/// <param name="RowsDoubtful">Which are asked about.</param>
/// <param name="RowsHeldBack">Which are not imported, since it would be wrong; part of the doubtful ones.</param>
/// <param name="PackagesAdded">Packages that now stand on the shelf.</param>
/// <param name="PackagesGone">Packages that the sheet says are used up, sold or given away: recorded, not on the shelf.</param>
/// <param name="GramsRead">Leaf on the shelf as the rows state it.</param>
/// <param name="GramsAdded">Leaf that was imported.</param>
/// <param name="Doubts">Rows to ask about, and totals that do not add up.</param>
/// <param name="Columns">What each column was taken to be.</param>
/// <param name="Remarks">What else a person should know.</param>
/// <param name="Changes">What differs from an earlier state of the sheet, or null.</param>
/// <param name="Map">The guess of the columns, ready to be saved, edited and given back.</param>
public sealed record SheetAccount(
    string File,
    bool DryRun,
    bool AlreadyImported,
    int RowsRead,
    int RowsUnderstood,
    int RowsDoubtful,
    int RowsHeldBack,
    int PackagesAdded,
    int PackagesGone,
    double GramsRead,
    double GramsAdded,
    IReadOnlyList<AccountDoubt> Doubts,
    IReadOnlyList<AccountColumn> Columns,
    IReadOnlyList<string> Remarks,
    AccountChanges? Changes,
    SheetMap Map)
{
    internal static SheetAccount Of(Cellar cellar, string file, bool dryRun, bool already, SheetReading reading, IReadOnlyList<RowFacts> entered, EarlierSheet? earlier, SheetUpdate? update = null) => new(
        file,
        dryRun,
        already,
        reading.RowsRead,
        reading.RowsUnderstood,
        reading.RowsDoubtful,
        reading.Rows.Count(row => row.Standing == Standing.HeldBack),
        entered.Sum(row => row.Packages),
        entered.Where(row => row is { Gone: true, Standing: not Standing.HeldBack }).Sum(row => row.Groups.Sum(group => group.Count)),
        reading.GramsRead,
        entered.Sum(row => row.GramsAdded),
        [.. reading.Doubts.Select(doubt => new AccountDoubt(doubt.Sheet.Length > 0 ? doubt.Sheet : null, doubt.Row, doubt.Reason, doubt.HeldBack))],
        [.. reading.Tables.SelectMany(table => table.Columns.Where(column => column.Head.Length > 0 || column.Ground != Ground.Nothing)
            .Select(column => new AccountColumn(table.Sheet.Length > 0 ? table.Sheet : null, RowReader.Name(column), SheetMap.Word(column.Meaning), Words(column))))],
        [.. reading.Remarks, .. UnknownContainers.Remark(cellar, entered)],
        AccountChanges.Of(earlier, update),
        SheetMap.Of(reading));

    private static string Words(Column column)
    {
        var ground = column.Ground switch
        {
            Ground.Head => "by its head",
            Ground.Contents => "by what stands in it",
            Ground.Map => "by your map",
            _ => "kept as a note",
        };
        var unit = column.GramsPerUnit switch
        {
            1 => ", in g",
            1000 => ", in kg",
            UnitWords.OunceGrams => ", in oz",
            UnitWords.PoundGrams => ", in lb",
            _ => column.MlPerUnit is not null ? ", by volume" : "",
        };
        var order = column.DayFirst switch
        {
            true => ", day first",
            false => ", month first",
            null => "",
        };
        return ground + unit + (column.IsDate ? order : "");
    }
}

/// <summary>A row to ask about.</summary>
/// <param name="Sheet">Name of its sheet in a workbook, else null.</param>
/// <param name="Row">Row number as a spreadsheet shows it.</param>
/// <param name="Reason">In words.</param>
/// <param name="HeldBack">True where nothing of it was imported.</param>
public sealed record AccountDoubt(string? Sheet, int Row, string Reason, bool HeldBack);

/// <summary>What a column was taken to be.</summary>
/// <param name="Sheet">Name of its sheet in a workbook, else null.</param>
/// <param name="Head">Its head or letter.</param>
/// <param name="Meaning">What it is about.</param>
/// <param name="Why">On what ground, and in which unit.</param>
public sealed record AccountColumn(string? Sheet, string Head, string Meaning, string Why);

/// <summary>What differs from an earlier state of the sheet.</summary>
/// <param name="Before">Name of the file as imported before.</param>
/// <param name="SameRows">Rows that both have.</param>
/// <param name="ChangedRows">Rows of which some cells read otherwise.</param>
/// <param name="AddedRows">Rows that only the new file has, by its numbers.</param>
/// <param name="MissingRows">Rows that only the earlier file has, by its numbers.</param>
/// <param name="AnswersKept">Rows of which what was answered still holds when the earlier import is replaced.</param>
/// <param name="AnswersDropped">Rows of the earlier file of which the answers would be lost, since the rows changed.</param>
/// <param name="UpToDate">Changed rows that an update brings up to date.</param>
/// <param name="Asked">Changed rows and, by their earlier numbers, rows that are gone, about which an update asks.</param>
public sealed record AccountChanges(
    string Before, int SameRows, IReadOnlyList<AccountChange> ChangedRows, IReadOnlyList<int> AddedRows, IReadOnlyList<int> MissingRows, IReadOnlyList<int> AnswersKept, IReadOnlyList<int> AnswersDropped,
    IReadOnlyList<int> UpToDate, IReadOnlyList<int> Asked)
{
    internal static AccountChanges? Of(EarlierSheet? earlier, SheetUpdate? update) => earlier is not { Changes: var changes, Answers: var answers } ? null : new AccountChanges(
        changes.Before,
        changes.Same,
        [.. changes.Changed.Select(row => new AccountChange(row.After.Sheet.Length > 0 ? row.After.Sheet : null, row.After.Row, row.Before.Row, row.Cells, row.After.Blend?.Value))],
        [.. changes.Added.Select(row => row.Row)],
        [.. changes.Missing.Select(row => row.Row)],
        [.. answers.ByRow.Keys.Select(row => row.Row).Order()],
        answers.Dropped,
        update?.UpToDate ?? [],
        [.. update?.Doubts.Select(doubt => doubt.Row) ?? []]);
}

/// <summary>A row that reads otherwise than before.</summary>
/// <param name="Sheet">Name of its sheet in a workbook, else null.</param>
/// <param name="Row">Its number in the new file.</param>
/// <param name="RowBefore">Its number in the earlier file.</param>
/// <param name="Cells">What differs.</param>
/// <param name="Name">What it is called, where the row says so.</param>
public sealed record AccountChange(string? Sheet, int Row, int RowBefore, IReadOnlyList<ChangedCell> Cells, string? Name = null);
