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

    /// <summary>Who wrote it, who says so, and when it was written where that is another day.</summary>
    internal static string Said(HistoryLine line)
    {
        string[] parts =
        [
            .. line.Source is { } source ? [source] : Array.Empty<string>(),
            .. line.Who is { } who ? [$"by {who}"] : Array.Empty<string>(),
            .. line.Happened != line.Recorded[..10] ? [$"written {line.Recorded[..10]}"] : Array.Empty<string>(),
        ];
        return parts.Length == 0 ? "" : $" [{string.Join("; ", parts)}]";
    }

    private static void Print(IAnsiConsole page, IReadOnlyList<HistoryLine> lines)
    {
        var table = new Table().Border(TableBorder.None).AddColumn(new TableColumn("Line").RightAligned()).AddColumn("When").AddColumn("What");
        foreach (var line in lines)
        {
            var mark = line.Holds ? line.Corrected ? $" (corrected later; at first: {line.Before})" : "" : " (taken back)";
            table.AddRow(new Text(line.Id), new Text(line.Happened ?? "—"), new Text(line.What + Said(line) + mark));
        }

        page.Write(table);
    }
}
