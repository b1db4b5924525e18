using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Ledger.Amounts;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Totals;

/// <summary><c>totals</c>: how much there is and how long it lasts; <c>pace</c>: how fast it is used.</summary>
public static class TotalsCommands
{
    /// <summary>The commands.</summary>
    public static Command[] In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return [All(line), Stated(line)];
    }

    private static Command All(CommandLine line)
    {
        var pace = new Option<string?>("--pace") { Description = "A pace to try, a week, such as 20g or 15g..25g; else the one stated.", HelpName = "MASS" };
        var views = new ViewOptions();
        return line.Command("totals", "Say how much there is by leaf, as a range, and how long it lasts at a pace.", async call =>
        {
            using var cellars = call.Cellars();
            var totals = LeafTotals.Of(await cellars.ReadAsync(views.Of(call)), call.Value(pace) is { } tried ? StatedMass.Parse(tried) : null);
            return new Answer(totals, page => Print(page, totals));
        }, pace, views.AsOf, views.KnownOn);
    }

    private static Command Stated(CommandLine line)
    {
        var mass = new Argument<string>("mass") { Description = "What is used in a week, such as 20g or 15g..25g." };
        return line.Command("pace", "State how fast leaf is used.", async call =>
        {
            using var cellars = call.Cellars();
            var change = await Pace.State(cellars, call.Value(mass), call.Present);
            var written = change.Events[^1];
            var totals = LeafTotals.Of(change.After);
            return new Answer(
                new { @event = new { type = written.Fact.Type, id = written.Version.ToString(CultureInfo.InvariantCulture) }, verdict = totals.Verdict, doubts = Array.Empty<string>() },
                page => page.Write(new Text($"{totals.Verdict}\nWritten as line {written.Version}; take it back with: undercroft undo {written.Version}\n")));
        }, mass);
    }

    private static void Print(IAnsiConsole page, LeafTotals totals)
    {
        page.Write(new Text(totals.Verdict + "\n"));
        var table = new Table().Border(TableBorder.None).AddColumn("Leaf").AddColumn(new TableColumn("Packages").RightAligned()).AddColumn(new TableColumn("On record").RightAligned()).AddColumn("Lasts, used alone");
        foreach (var row in totals.Rows)
        {
            table.AddRow(
                new Text(row.Name), new Text(row.Packages.ToString(CultureInfo.InvariantCulture)),
                new Text(row.HighG > 0 ? PackageWords.Range(new(row.LowG / 1000), new(row.HighG / 1000)) + (row.UnknownPackages > 0 ? $" + {row.UnknownPackages} ?" : "") : "?"),
                new Text(row.Lasts is null ? "" : LeafTotals.Words(row.Lasts)));
        }

        page.Write(table);
    }
}
