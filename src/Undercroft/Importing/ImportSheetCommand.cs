using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Importing.Rows;
using Undercroft.Importing.Sheets;
using Undercroft.Ledger;
using Undercroft.Ledger.Sqlite;
using Undercroft.Shell;

namespace Undercroft.Importing;

/// <summary><c>import sheet</c>.</summary>
public static class ImportSheetCommand
{
    private const int ShownDoubts = 40;

    /// <summary>The command <c>sheet</c>, for the group <c>import</c>.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var file = new Argument<string>("FILE") { Description = "A workbook (.xlsx) or text with separators (.csv)." };
        var dry = new Option<bool>("--dry-run") { Description = "Write nothing and say the same numbers." };
        var map = new Option<string?>("--map") { Description = "A map of the columns, as --save-map writes it.", HelpName = "FILE" };
        var save = new Option<string?>("--save-map") { Description = "Write the guess of the columns to a file that can be edited and given back with --map.", HelpName = "FILE" };
        var encoding = new Option<string?>("--encoding") { Description = "How a text file stores its letters, such as UTF-8, Windows-1252 or KOI8-R, where the guess is wrong.", HelpName = "NAME" };
        var changed = new Option<string?>("--changed") { Description = "Where the sheet changed since it was imported: update (correct the packages of changed rows, ask where something was noted since), add (the new rows alone) or replace (the earlier import).", HelpName = "update|add|replace" };
        changed.AcceptOnlyFromAmong("update", "add", "replace");
        return line.Command("sheet", "Bring in a spreadsheet of what stands on the shelf; whatever is not understood is asked, never dropped.", async call =>
        {
            var path = call.Terminal.FullPath(call.Value(file)!);
            var request = new SheetRequest(Path.GetFileName(path), await Bytes(path), await MapOf(call, call.Value(map), call.Value(encoding)), call.Value(dry), call.Value(changed) switch
            {
                "update" => WhenChanged.Update,
                "add" => WhenChanged.AddNew,
                "replace" => WhenChanged.Replace,
                _ => WhenChanged.Ask,
            });
            var account = await Run(call, request);
            if (call.Value(save) is { } target)
                await File.WriteAllTextAsync(call.Terminal.FullPath(target), account.Map.Json() + "\n");
            return new Answer(account, page => Print(page, account));
        }, file, dry, map, save, encoding, changed);
    }

    private static async ValueTask<SheetAccount> Run(Call call, SheetRequest request)
    {
        var stated = call.Parsed.GetValue(call.Doors.Today);
        DateOnly Today(Cellar cellar) => stated ?? cellar.DemoDay ?? DateOnly.FromDateTime(call.Terminal.Clock.GetLocalNow().DateTime);
        DateTimeOffset Now(Cellar cellar) => (stated ?? cellar.DemoDay) is { } day ? new DateTimeOffset(day, new TimeOnly(12, 0), TimeSpan.Zero) : call.Terminal.Clock.GetUtcNow();
        void Progress(int rows)
        {
            if (rows >= 5_000)
                call.Terminal.Error.WriteLine($"{rows} rows are read ...");
        }

        if (request.DryRun && !File.Exists(Path.Combine(call.DataFolder, "ledger.sqlite")))
            return await ImportSheet.RunAsync(null, null, request, Today, Now, Progress);

        void Writing(int lines)
        {
            if (lines >= 5_000)
                call.Terminal.Error.WriteLine($"{lines} lines are written to the ledger ...");
        }

        // What is no sheet is refused before a folder is made for it.
        var read = request with { Read = SheetReader.Read(request.Bytes, encoding: request.Map?.Encoding) };
        var folder = request.DryRun ? DataFolder.Existing(call.DataFolder) : DataFolder.OrNew(call.DataFolder);
        using var cellars = request.DryRun ? SqliteCellars.Open(folder) : SqliteCellars.OpenOrCreate(folder);
        return await ImportSheet.RunAsync(cellars, folder, read, Today, Now, Progress, Writing);
    }

    private static async Task<byte[]> Bytes(string path)
    {
        if (!File.Exists(path))
            throw new Refusal($"There is no file {path}. Name a file that exists.");
        if (new FileInfo(path).Length > SheetLimits.Standard.Bytes)
            throw new Refusal($"The file has {new FileInfo(path).Length >> 20} MB and at most {SheetLimits.Standard.Bytes >> 20} MB are read. Split it into several files.");
        return await File.ReadAllBytesAsync(path);
    }

    private static async Task<SheetMap?> MapOf(Call call, string? given, string? encoding)
    {
        var map = await MapOf(call, given);
        if (encoding is null)
            return map;
        var known = TextDecoding.Find(encoding) ?? throw new Refusal($"No encoding is called '{encoding}'. Known ones: {string.Join(", ", TextDecoding.Names)}.");
        return (map ?? new SheetMap([])) with { Encoding = known };
    }

    private static async Task<SheetMap?> MapOf(Call call, string? given)
    {
        if (given is null)
            return null;
        var path = call.Terminal.FullPath(given);
        return File.Exists(path)
            ? SheetMap.Read(await File.ReadAllTextAsync(path))
            : throw new Refusal($"There is no map {path}. Write one with --save-map, edit it and give it back.");
    }

    private static void Print(IAnsiConsole page, SheetAccount account)
    {
        string Number(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);
        void Line(string text) => page.Write(new Text(text + "\n"));
        Line(account.AlreadyImported
            ? $"{account.File} was imported before: nothing is added."
            : $"{account.RowsRead} rows in, {account.RowsUnderstood} understood, {account.RowsDoubtful} to look at. {(account.DryRun ? "Would add" : "Added")} {account.PackagesAdded} {(account.PackagesAdded == 1 ? "package" : "packages")}{(account is { DryRun: true, Changes: { ChangedRows.Count: > 0 } or { MissingRows.Count: > 0 } } ? " from the new rows" : "")}, {Number(account.GramsAdded)} g of {Number(account.GramsRead)} g read.");
        if (account.PackagesGone > 0)
            Line($"{account.PackagesGone} more are used up or gone as the sheet says: recorded, not on the shelf.");
        if (account.Changes is { } changes)
        {
            Line($"It differs from '{changes.Before}' as imported before: {changes.SameRows} rows are the same, {changes.ChangedRows.Count} changed, {changes.AddedRows.Count} new, {changes.MissingRows.Count} gone.");
            foreach (var row in changes.ChangedRows.Take(ShownDoubts))
                Line($"  Row {row.Row}{(row.Sheet is null ? "" : $" of '{row.Sheet}'")}{(row.Name is null ? "" : $", {row.Name}")}: {string.Join(", ", row.Cells.Select(EarlierSheet.Say))}");
            if (changes.ChangedRows.Count > ShownDoubts)
                Line($"  ... and {changes.ChangedRows.Count - ShownDoubts} more; --json lists all.");
            if (changes.UpToDate.Count + changes.Asked.Count > 0)
                Line($"  {(account.DryRun ? "Updated, it brings" : "Brought")} the packages of {changes.UpToDate.Count} {(changes.UpToDate.Count == 1 ? "row" : "rows")} up to date and {(account.DryRun ? "asks" : "asked")} about {changes.Asked.Count} of which something was noted since, or which are gone.");
            if (account.DryRun && changes.AnswersKept.Count + changes.AnswersDropped.Count > 0)
                Line($"  Replaced, it keeps what you answered about {changes.AnswersKept.Count} rows and drops the answers about {changes.AnswersDropped.Count}.");
        }

        Line("The columns were taken as:");
        foreach (var column in account.Columns)
            Line($"  {(column.Sheet is null ? "" : column.Sheet + ": ")}{column.Head} = {column.Meaning} ({column.Why})");
        if (account.Map.Encoding is { } letters and not "UTF-8")
            Line($"Its letters were read as {letters}; --encoding NAME has them read otherwise.");
        foreach (var doubt in account.Doubts.Take(ShownDoubts))
            Line($"Row {doubt.Row}{(doubt.Sheet is null ? "" : $" of '{doubt.Sheet}'")}{(doubt.HeldBack ? ", held back" : "")}: {doubt.Reason}");
        if (account.Doubts.Count > ShownDoubts)
            Line($"... and {account.Doubts.Count - ShownDoubts} more rows to look at; --json lists all.");
        foreach (var remark in account.Remarks)
            Line(remark);
        if (account.DryRun)
            Line("Nothing was written. A wrong column is mended with --save-map FILE, an edit, and --map FILE.");
        else if (!account.AlreadyImported)
            Line("The whole import can be taken back with one undo; the file itself is kept in the data folder.");
    }
}
