using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Ledger;
using Undercroft.Shell;

namespace Undercroft.Importing.Answering;

/// <summary><c>doubts</c>: the rows of imported sheets that wait for an answer.</summary>
public static class DoubtsCommand
{
    private const int Listed = 12;

    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var row = new Argument<long?>("line") { Description = "The line of the ledger that keeps the row, as the queue names it; else the first that waits.", Arity = ArgumentArity.ZeroOrOne };
        var question = new Option<int?>("--question") { Description = "Which question, where several are asked about the row.", HelpName = "NUMBER" };
        var choose = new Option<string?>("--choose") { Description = "The reading that is right: its number or its word.", HelpName = "CHOICE" };
        var say = new Option<string[]>("--say") { Description = "How a cell should read, such as \"Bought=2013-04-12\".", HelpName = "COLUMN=TEXT" };
        var leave = new Option<bool>("--leave") { Description = "Leave it as it is." };
        var leaveOut = new Option<bool>("--leave-out") { Description = "The row is not to be in the cellar." };
        var similar = new Option<bool>("--similar") { Description = "Answer every such question of the sheet in the same way." };
        return line.Command("doubts", "Walk through the rows of imported sheets that were not understood, and answer them; undo takes an answer back.", async call =>
        {
            var folder = DataFolder.Existing(call.DataFolder);
            using var cellars = call.Cellars();
            var kept = new KeptSheets();
            var answer = new RowAnswer(call.Value(row) ?? 0, call.Value(question), call.Value(choose), call.Value(say), call.Value(leave), call.Value(leaveOut), call.Value(similar));
            if (answer is { Choice: null, Say: null or { Count: 0 }, Leave: false, LeaveOut: false })
                return Show(await cellars.ReadAsync(), folder, kept, call.Value(row));
            if (call.Value(row) is null)
                throw new WrongUsage("Name the row that you answer by its line: undercroft doubts LINE --choose 1. The queue shows it: undercroft doubts.");
            var done = await AnswerRows.RunAsync(cellars, folder, kept, answer, cellar => call.Present(cellar).Now);
            return new Answer(new { done.Rows, done.Open, done.Packages, @event = new { type = done.Change.Events[^1].Fact.Type, id = done.Change.Events[^1].Version.ToString(CultureInfo.InvariantCulture) } }, page => Print(page, done));
        }, row, question, choose, say, leave, leaveOut, similar);
    }

    private static Answer Show(Cellar cellar, DataFolder folder, KeptSheets kept, long? line)
    {
        var waiting = AnswerRows.Waiting(cellar, folder, kept);
        if (line is { } number && !waiting.Any(row => row.Line == number))
            throw new Refusal(cellar.DoubtfulRows.Any(row => row.Entry.Version == number) ? $"The row of line {number} is answered; nothing waits there." : $"Line {number} of the ledger is no doubtful row. The queue names the line of each: undercroft doubts.");
        var shown = line is { } wanted ? [.. waiting.Where(row => row.Line == wanted)] : waiting;
        return new Answer(
            new { open = waiting.Count, answered = cellar.DoubtfulRows.Count - waiting.Count, heldBack = waiting.Count(row => row.HeldBack), rows = shown },
            page => Print(page, waiting, shown));
    }

    private static void Print(IAnsiConsole page, IReadOnlyList<QueuedRow> waiting, IReadOnlyList<QueuedRow> shown)
    {
        void Say(string text) => page.Write(new Text(text + "\n"));
        if (waiting.Count == 0)
        {
            Say("No row waits for an answer.");
            return;
        }

        Say(waiting.Count == 1 ? "One row waits for an answer." : string.Create(CultureInfo.InvariantCulture, $"{waiting.Count} rows wait for an answer. The first:"));
        var row = shown[0];
        Say("");
        Say($"{row.File}{(row.Sheet is null ? "" : ", " + row.Sheet)}, row {row.Row} (line {row.Line}){(row.HeldBack ? ", held back" : "")}");
        foreach (var cell in row.Cells.Where(cell => cell.Text.Length > 0))
            Say($"  {(cell.Head.Length > 0 ? cell.Head : "column " + cell.Column)}: {cell.Text}");
        foreach (var question in row.Questions)
        {
            Say("");
            Say($"{(row.Questions.Count > 1 ? $"Question {question.Question}. " : "")}{question.Reason}");
            foreach (var choice in question.Choices)
                Say($"  {choice.Choice}  {choice.Words}");
            if (question.Alike > 0)
                Say($"  ({question.Alike} more {(question.Alike == 1 ? "row waits" : "rows wait")} with such a question: --similar answers them, too.)");
        }

        Say("");
        var which = row.Questions.Count > 1 ? " --question 1" : "";
        Say(row.Questions.Any(question => question.Choices.Count > 0) ? $"Choose:      undercroft doubts {row.Line}{which} --choose 1" : $"Say it:      undercroft doubts {row.Line} --say \"{(row.Cells.Count > 0 ? row.Cells[0].Head is { Length: > 0 } head ? head : row.Cells[0].Column : "A")}=...\"");
        Say($"Otherwise:   --say \"COLUMN=TEXT\", --leave (as it is), --leave-out");
        var rest = waiting.Where(other => other.Line != row.Line).ToList();
        if (rest.Count == 0)
            return;
        Say("");
        Say("Then:");
        foreach (var other in rest.Take(Listed))
            Say($"  line {other.Line}, row {other.Row}: {other.Questions[0].Reason}");
        if (rest.Count > Listed)
            Say($"  ... and {rest.Count - Listed} more");
    }

    private static void Print(IAnsiConsole page, Answered done)
    {
        void Say(string text) => page.Write(new Text(text + "\n"));
        Say($"{(done.Rows == 1 ? "One row is answered" : $"{done.Rows} rows are answered")}; {(done.Open == 0 ? "none waits any more" : $"{done.Open} still {(done.Open == 1 ? "waits" : "wait")}")}.");
        if (done.Packages.Count > 0)
            Say($"In the cellar because of {(done.Rows == 1 ? "it" : "them")}: {string.Join(", ", done.Packages.Take(24))}{(done.Packages.Count > 24 ? ", ..." : "")}.");
        Say($"Undo takes {(done.Rows == 1 ? "the answer" : "all of these answers")} back.");
    }
}
