using System.CommandLine;
using Spectre.Console;
using Undercroft.Shell;

namespace Undercroft.History;

/// <summary><c>history</c>: what was written down, when, by whom, how sure.</summary>
public static class HistoryCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var id = new Argument<string?>("id") { Description = "A package; else the whole ledger.", Arity = ArgumentArity.ZeroOrOne };
        var views = new ViewOptions();
        return line.Command("history", "Show what was written down, with what was corrected or taken back.", async call =>
        {
            using var cellars = call.Cellars();
            var lines = HistoryOf.Lines(await cellars.ReadAsync(views.Of(call)), call.Value(id));
            return new Answer(new { events = lines }, page => Print(page, lines));
        }, id, views.AsOf, views.KnownOn);
    }

    private static void Print(IAnsiConsole page, IReadOnlyList<HistoryLine> lines)
    {
        var table = new Table().Border(TableBorder.None).AddColumn(new TableColumn("Line").RightAligned()).AddColumn("When").AddColumn("What");
        foreach (var line in lines)
        {
            var mark = line.Holds ? line.Corrected ? " (corrected later)" : "" : " (taken back)";
            table.AddRow(new Text(line.Id), new Text(line.Happened ?? "—"), new Text(line.What + mark));
        }

        page.Write(table);
    }
}
