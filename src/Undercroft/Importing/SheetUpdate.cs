using System.Globalization;
using Undercroft.Importing.Answering;
using Undercroft.Importing.Entering;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Importing;

/// <summary>
/// What becomes of the rows of an earlier import that read otherwise now or are gone: packages of which nothing was noted since follow their row and keep their IDs; about the others
/// the person is asked.
/// </summary>
internal sealed class SheetUpdate
{
    private const int Named = 5;

    private SheetUpdate(Cellar cellar, DateTimeOffset now, string file) => Following = new RowFollowing(cellar, now, $"as the row reads in {file}");

    /// <summary>Corrections of the packages.</summary>
    public RowFollowing Following { get; }

    /// <summary>Rows that are asked about.</summary>
    public List<Fact.RowDoubted> Doubts { get; } = [];

    /// <summary>Changed rows whose packages follow.</summary>
    public List<int> UpToDate { get; } = [];

    /// <summary>Decides row by row.</summary>
    /// <param name="cellar">As it stands.</param>
    /// <param name="earlier">The earlier import and what differs.</param>
    /// <param name="file">Name of the new file.</param>
    /// <param name="sha256">Its digest.</param>
    /// <param name="now">Instant of recording.</param>
    public static SheetUpdate Of(Cellar cellar, EarlierSheet earlier, string file, string sha256, DateTimeOffset now)
    {
        var update = new SheetUpdate(cellar, now, file);
        var import = RowEvents.ImportOf(cellar, sha256);
        var rows = RowLines.Of(cellar, earlier);
        foreach (var change in earlier.Changes.Changed)
        {
            var (lines, noted, answered) = rows.Of(change.Before);
            var cells = string.Join(", ", change.Cells.Select(EarlierSheet.Say));
            var why = lines is null ? "its packages are not found any more"
                : answered ? "you answered about it"
                : noted.Count > 0 ? $"something was noted since of {Names(noted)}"
                : change.After.Standing != Standing.Understood ? "it is not wholly understood" : null;
            if (why is null)
            {
                update.Following.Follow(lines!, file, change.After, import);
                update.UpToDate.Add(change.After.Row);
            }
            else
            {
                update.Ask(file, sha256, change.After, $"{Changed(change.After.Row)}: {cells}. Its packages stay as they are, since {why}.", lines);
            }

            foreach (var open in rows.Open(change.Before))
                update.Following.Settle(open, "the row reads otherwise in a later file", import);
        }

        foreach (var row in earlier.Changes.Missing)
        {
            var (lines, noted, _) = rows.Of(row);
            if (lines is { Count: 0 })
                continue;
            update.Ask(earlier.Import.Fact.File, earlier.Import.Fact.Sha256, row,
                $"{Gone(row.Row, earlier.Import.Fact.File)}{(file == earlier.Import.Fact.File ? " as it is now" : $" {file}")}. Its packages stay until you say otherwise; what was used up, sold or given away is noted of the package itself.{(noted.Count > 0 ? $" Something was noted since of {Names(noted)}." : "")}", lines);
        }

        return update;
    }

    /// <summary>The question about a row that changed or is gone; null for any other doubt. The reason begins so: what a cell of the sheet says comes later in it and cannot pass for one.</summary>
    public static Question? Question(Fact.RowDoubted doubt) =>
        doubt.Reason.StartsWith(Changed(doubt.Row), StringComparison.Ordinal) ? new Question("changed", doubt.Reason, -1,
            [new Choice("as-now", "correct the packages as the row reads now", Take: true)])
        : doubt.Reason.StartsWith(Gone(doubt.Row, doubt.File), StringComparison.Ordinal) ? new Question("gone-from-sheet", doubt.Reason, -1,
            [new Choice("leave-out", "they were never here: take them back", LeaveOut: true)])
        : null;

    /// <summary>True for a row that changed or is gone.</summary>
    public static bool IsAsked(Fact.RowDoubted doubt) => Question(doubt) is not null;

    private void Ask(string file, string sha256, RowFacts row, string reason, IReadOnlyList<LedgerLine>? lines) => Doubts.Add(new Fact.RowDoubted(
        file, sha256, row.Row, [.. SheetUnderstanding.Raw(row.Source).Take(60).Select(RowStated.Short)], reason, row.Sheet.Length > 0 ? row.Sheet : null, lines is { Count: > 0 } ? [.. lines.Select(line => line.Event.Id)] : null));

    private static string Changed(int row) => string.Create(CultureInfo.InvariantCulture, $"Row {row} reads otherwise than when it was imported");

    private static string Gone(int row, string file) => string.Create(CultureInfo.InvariantCulture, $"Row {row} of {file} is no longer in the sheet");

    private static string Names(IReadOnlyCollection<ShortId> ids) => string.Join(", ", ids.Take(Named)) + (ids.Count > Named ? string.Create(CultureInfo.InvariantCulture, $" and {ids.Count - Named} more") : "");
}
