using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Ledger;
using Undercroft.Shell;
using Undercroft.Shell.Logs;

namespace Undercroft.Places.Logging;

/// <summary><c>import logger</c>.</summary>
public static class ImportLoggerCommand
{
    /// <summary>The command <c>logger</c>, for the group <c>import</c>.</summary>
    /// <param name="line">The command line.</param>
    /// <param name="workbook">Reads workbooks.</param>
    public static Command In(CommandLine line, WorkbookSheets workbook)
    {
        ArgumentNullException.ThrowIfNull(line);
        var file = new Argument<string>("FILE") { Description = "What a thermometer-hygrometer with a memory exported: text (.csv, .txt, .tsv) or a workbook (.xlsx)." };
        var place = new Option<string>("--place") { Description = "Where it stood; a new name makes a place.", HelpName = "NAME", Required = true };
        var unit = new Option<string?>("--unit") { Description = "Unit of the temperatures, where the file does not say.", HelpName = "C|F" };
        unit.AcceptOnlyFromAmong("C", "F");
        var zone = new Option<string?>("--zone") { Description = "Time zone of the logger's clock: Europe/Berlin, UTC, +01:00.", HelpName = "ZONE" };
        var order = new Option<string?>("--date-order") { Description = "Order of day, month and year, where the file leaves it open.", HelpName = "d/m/y|m/d/y|y/m/d" };
        var sensor = new Option<string?>("--sensor") { Description = "Which of several sensors in the file, by its name or heading.", HelpName = "NAME" };
        var columns = new Option<string?>("--columns") { Description = "What columns hold, by heading or number: temperature=2,humidity=3.", HelpName = "LIST" };
        var dry = new Option<bool>("--dry-run") { Description = "Write nothing and say the same numbers." };
        return line.Command("logger", "Bring in the readings of a logger for a place; the same file twice or an overlapping one adds nothing twice.", async call =>
        {
            var source = LogSource.File(call.Terminal.FullPath(call.Value(file)!));
            var answers = new LogAnswers(call.Value(unit)?[0], call.Value(zone), LogAnswers.OrderOf(call.Value(order)), call.Value(sensor), LogAnswers.ColumnsOf(call.Value(columns)));
            var request = new LoggerRequest(source, call.Value(place)!, answers, call.Value(dry));
            using var begun = request.DryRun && !File.Exists(Path.Combine(call.DataFolder, "ledger.sqlite")) ? null : call.CellarsOrNew();
            var account = await new ImportLogger(begun, () => DataFolder.Existing(call.DataFolder), call.Present, workbook).RunAsync(request);
            return new Answer(account, page => Print(page, account));
        }, file, place, unit, zone, order, sensor, columns, dry);
    }

    private static void Print(IAnsiConsole page, LoggerAccount account)
    {
        string Whole(int value) => value.ToString("#,0", CultureInfo.InvariantCulture).Replace(',', ' ');
        void Line(string text) => page.Write(new Text(text + "\n"));
        Line($"{(account.DryRun ? "Would add" : "Added")} {Whole(account.ReadingsAdded)} readings to {account.Place}: {Day(account.FirstUtc)} to {Day(account.LastUtc)}. {Figures(account)}");
        Line($"{Whole(account.RowsRead)} rows in, {Whole(account.Duplicates)} there already, {Whole(account.Rejected)} left out.");
        Line($"Read as: {Form(account.Form)}.");
        foreach (var warning in account.Warnings)
            Line("- " + warning);
        if (account.Event is { } number)
            Line($"Written as line {number}; take it back with: undercroft undo {number}");
        else if (account.DryRun)
            Line("Nothing was written.");
    }

    /// <summary>What it comes to, in a sentence.</summary>
    internal static string Figures(LoggerAccount account)
    {
        var parts = new List<string>();
        if (account.MeanC is { } mean)
            parts.Add($"mean {mean.As("0.0")} °C, {account.MeanKineticTemperatureC!.Value.As("0.0")} °C as ageing feels it");
        if (account.MeanHumidityPct is { } humidity)
            parts.Add($"{humidity.As("0")} % humidity{(account.MeanHumidityCorrectedPct is { } corrected ? $" as shown, {corrected.As("0")} % as corrected" : "")}");
        return parts.Count == 0 ? "" : string.Concat(parts[0][..1].ToUpperInvariant(), string.Join(", ", parts)[1..], ".");
    }

    /// <summary>How the file is written, in words.</summary>
    internal static string Form(LogForm form) => string.Join(", ", form.Columns.Select(column => $"{column.Meaning} from '{column.Heading}'"))
        + (form.Unit is { } unit ? $", {(unit == "K" ? "K" : "°" + unit)}" : "") + (form.Zone is { } zone ? $", clock in {zone}" : ", times with their own offset") + $"; {form.Encoding}, {form.Separator} between cells";

    private static string Day(string utc) => utc[..10];
}
