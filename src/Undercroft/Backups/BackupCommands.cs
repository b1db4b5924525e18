using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Undercroft.Shell;

namespace Undercroft.Backups;

/// <summary><c>backup</c>, <c>restore</c>, <c>verify</c>, <c>export</c>.</summary>
public static class BackupCommands
{
    /// <summary>The commands.</summary>
    public static Command[] In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return [Making(line), Restore(line), Verify(line), Exporting(line)];
    }

    private static Command Making(CommandLine line)
    {
        var file = new Option<string>("--out") { Description = "The zip to write; it must not exist yet.", HelpName = "FILE", Required = true };
        return line.Command("backup", "Write the whole cellar into one zip that a person can read without this program.", async call =>
        {
            var folder = DataFolder.Existing(call.DataFolder);
            var path = call.Terminal.FullPath(call.Value(file)!);
            using var cellars = call.Cellars();
            var made = Backup.Write(folder, path, call.Present(await cellars.ReadAsync()).Now);
            return BackupAnswer.Of(made, path, LedgerCheck.Of(folder)).ToAnswer(
                "Backed up", "Keep a copy in another house. It holds what you own, where it stands and what it cost: lock it up like the cellar.");
        }, file);
    }

    private static Command Restore(CommandLine line)
    {
        var file = new Argument<string>("file") { Description = "A zip that backup wrote." };
        return line.Command("restore", "Bring a backup back into the data folder, which must be new or empty.", call =>
        {
            var made = Restoring.Into(call.DataFolder, call.Terminal.FullPath(call.Value(file)!));
            return ValueTask.FromResult(BackupAnswer.Of(made, call.DataFolder, LedgerCheck.Of(DataFolder.Existing(call.DataFolder))).ToAnswer(
                "Restored", $"Look around: undercroft show --data {call.DataFolder}"));
        }, file);
    }

    private static Command Verify(CommandLine line) =>
        line.Command("verify", "Check the ledger from its bytes up to the cellar that it tells of; changes nothing.", call =>
        {
            var found = LedgerCheck.Of(DataFolder.Existing(call.DataFolder));
            return ValueTask.FromResult(new Answer(found, page => Print(page, found), found.Problems.Count == 0 ? 0 : 1));
        });

    private static Command Exporting(CommandLine line)
    {
        var target = new Option<string>("--out") { Description = "The folder to write; it must be new or empty.", HelpName = "DIR", Required = true };
        var redact = new Option<string?>("--redact") { Description = "What to leave out: prices, places, or prices,places. Then tables alone are written, as for a past day.", HelpName = "WHAT" };
        var views = new ViewOptions();
        return line.Command("export", "Write the cellar as plain tables, and as lines of JSON, for spreadsheets and other programs.", call =>
        {
            var path = call.Terminal.FullPath(call.Value(target)!);
            var redaction = Left(call.Value(redact));
            var files = Export.Into(DataFolder.Existing(call.DataFolder), path, redaction, views.Of(call));
            return ValueTask.FromResult(new Answer(new { folder = path, files }, page =>
            {
                page.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{files.Count} files written to {path}"));
                foreach (var file in files)
                    page.WriteLine("  " + file);
                if (views.Of(call) != View.Now)
                    page.WriteLine("Of a past day: tables alone, since the lines tell of everything.");
                page.WriteLine(redaction == Redaction.None
                    ? "Prices and places are in it. Leave them out with --redact prices,places before you give it to anybody."
                    : "Notes and names are in it as you wrote them: read it through before you give it to anybody.");
            }));
        }, target, redact, views.AsOf, views.KnownOn);
    }

    /// <exception cref="WrongUsage">A word that is neither.</exception>
    private static Redaction Left(string? words)
    {
        var redaction = Redaction.None;
        foreach (var word in (words ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            redaction = word.ToLowerInvariant() switch
            {
                "prices" => redaction with { Prices = true },
                "places" => redaction with { Places = true },
                _ => throw new WrongUsage($"'{word}' cannot be left out: write --redact prices, --redact places, or --redact prices,places."),
            };
        }

        return words is null || redaction != Redaction.None ? redaction
            : throw new WrongUsage("Nothing was named to leave out: write --redact prices, --redact places, or --redact prices,places.");
    }

    private static void Print(IAnsiConsole page, LedgerFound found)
    {
        page.WriteLine(found.Verdict);
        foreach (var problem in found.Problems)
            page.WriteLine($"Wrong: {problem}");
        page.WriteLine($"Digest {found.Digest}");
        page.WriteLine(found.LastBackupDay is { } day ? $"Last backup: {day}." : "No backup of it is known. Make one with: undercroft backup --out FILE.zip");
    }
}
