using Undercroft.Importing.Cells;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Answering;

/// <summary>What a person says about a row.</summary>
/// <param name="Line">The line of the ledger that keeps the doubt.</param>
/// <param name="Question">Number of the question; null where there is one, or where the answer is about the whole row.</param>
/// <param name="Choice">Number or code of the choice; null where none was chosen.</param>
/// <param name="Say">Cells as they should read: <c>Column=text</c>, the column by its head or its letter.</param>
/// <param name="Leave">True where it is to stay as it is.</param>
/// <param name="LeaveOut">True where the row is not to be in the cellar.</param>
/// <param name="Alike">True where the same answer holds for every such question of the sheet.</param>
public sealed record RowAnswer(long Line, int? Question = null, string? Choice = null, IReadOnlyList<string>? Say = null, bool Leave = false, bool LeaveOut = false, bool Alike = false);

/// <summary>What an answer did.</summary>
/// <param name="Rows">How many rows it served.</param>
/// <param name="Open">How many rows still wait.</param>
/// <param name="Packages">The packages of the rows as they now stand.</param>
/// <param name="Change">What was written.</param>
public sealed record Answered(int Rows, int Open, IReadOnlyList<string> Packages, Change Change);

/// <summary>Answers questions about rows that were not understood. An answer is an event like any other and can be taken back.</summary>
public static class AnswerRows
{
    /// <summary>The rows that wait.</summary>
    /// <param name="cellar">As it stands.</param>
    /// <param name="folder">Where the files are kept.</param>
    /// <param name="kept">Readings of them.</param>
    public static IReadOnlyList<QueuedRow> Waiting(Cellar cellar, DataFolder folder, KeptSheets kept)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(kept);
        lock (kept.Gate)
        {
            return RowQueue.Shown(cellar, new RowQueue(cellar, folder, kept).Open());
        }
    }

    /// <summary>Writes an answer and all that follows from it.</summary>
    /// <param name="cellars">The cellar.</param>
    /// <param name="folder">Where the files are kept.</param>
    /// <param name="kept">Readings of them.</param>
    /// <param name="answer">What the person says.</param>
    /// <param name="now">The instant that is written beside it.</param>
    /// <exception cref="Refusal">There is no such row, question or choice, or what follows is impossible. Nothing was written.</exception>
    public static async ValueTask<Answered> RunAsync(ICellars cellars, DataFolder folder, KeptSheets kept, RowAnswer answer, Func<Cellar, DateTimeOffset> now)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(kept);
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(now);
        IReadOnlyList<Guid> served = [];
        var change = await cellars.ChangeAsync(cellar =>
        {
            lock (kept.Gate)
            {
                (var events, served) = Decide(cellar, folder, kept, answer, now(cellar));
                return events;
            }
        });
        var packages = RowsPackages.Of(change.After);
        var rows = change.After.DoubtfulRows.Where(row => served.Contains(row.Entry.Event)).SelectMany(packages.LinesOf);
        return new Answered(served.Count, change.After.OpenRows.Count(), [.. rows.SelectMany(line => line.Fact is Fact.PackagesAdded added ? added.Packages : []).Select(id => id.ToString())], change);
    }

    private static (IReadOnlyList<CellarEvent> Events, IReadOnlyList<Guid> Served) Decide(Cellar cellar, DataFolder folder, KeptSheets kept, RowAnswer answer, DateTimeOffset now)
    {
        var queue = new RowQueue(cellar, folder, kept);
        var row = queue.At(answer.Line);
        if (row.Open.Count == 0)
            throw new Refusal($"Nothing is asked any more about row {row.Doubt.Fact.Row} of {row.Doubt.Fact.File}. To answer otherwise, undo the answer first.");
        var ways = (answer.Choice is null ? 0 : 1) + (answer.Say is { Count: > 0 } ? 1 : 0) + (answer.Leave ? 1 : 0) + (answer.LeaveOut ? 1 : 0);
        if (ways != 1)
            throw new Refusal("Say one thing: choose a reading, say how a cell should read, leave the row as it is, or leave it out.");
        var entering = new RowAnswering(cellar, queue, now);
        if (answer.Say is { Count: > 0 } said)
        {
            if (answer.Alike)
                throw new Refusal("How a cell should read is said for one row. Choose a reading to answer similar rows with it.");
            entering.Enter(row, new Choice("say", string.Join("; ", said), Cells(row, said)), AboutAll(row));
            entering.SettleOthers([row]);
            return (entering.Events(), [row.Doubt.Entry.Event]);
        }

        if (answer.LeaveOut && answer.Question is null && !answer.Alike)
        {
            entering.Enter(row, new Choice("leave-out", "leave the row out", LeaveOut: true), AboutAll(row));
            entering.SettleOthers([row]);
            return (entering.Events(), [row.Doubt.Entry.Event]);
        }

        if (answer.Leave && answer.Question is null && !answer.Alike)
        {
            entering.Leave(row);
            return (entering.Events(), [row.Doubt.Entry.Event]);
        }

        var asked = Asked(row, answer.Question);
        List<RowState> served = [];
        var code = answer.Choice is { } choice ? Chosen(asked, choice).Code : null;
        foreach (var other in answer.Alike ? [.. RowQueue.Alike(queue.Open(), row, asked), row] : new[] { row })
        {
            var question = other == row ? asked : other.Open.First(one => RowQueue.IsAlike(one, asked));
            var chosen = code is null
                ? answer.LeaveOut ? new Choice("leave-out", "leave the row out", LeaveOut: true) : new Choice("keep", "leave it as it is")
                : question.Choices.FirstOrDefault(one => one.Code == code);
            // A similar row in which that reading is impossible stays in the queue.
            if (chosen is null)
                continue;
            entering.Enter(other, chosen, question.Reason);
            served.Add(other);
        }

        entering.SettleOthers(served);
        return (entering.Events(), [.. served.Select(other => other.Doubt.Entry.Event)]);
    }

    private static string AboutAll(RowState row) => row.Open.Count == 1 ? row.Open[0].Reason : string.Join(" ", row.Open.Select(question => question.Reason));

    private static Question Asked(RowState row, int? number)
    {
        if (number is null && row.Open.Count > 1)
            throw new Refusal($"{row.Open.Count} things are asked about this row. Say which: --question 1 to {row.Open.Count}.");
        var at = (number ?? 1) - 1;
        return at >= 0 && at < row.Open.Count ? row.Open[at] : throw new Refusal($"There is no question {number} about this row: they go from 1 to {row.Open.Count}.");
    }

    private static Choice Chosen(Question question, string choice)
    {
        if (question.Choices.Count == 0)
            throw new Refusal("There is no reading to choose here. Say how a cell should read, leave the row as it is, or leave it out.");
        if (int.TryParse(choice, System.Globalization.CultureInfo.InvariantCulture, out var number) && number >= 1 && number <= question.Choices.Count)
            return question.Choices[number - 1];
        return question.Choices.FirstOrDefault(one => string.Equals(one.Code, choice, StringComparison.OrdinalIgnoreCase))
            ?? throw new Refusal($"There is no choice '{choice}' here. There are: {string.Join(", ", question.Choices.Select((one, n) => $"{n + 1} ({one.Code})"))}.");
    }

    private static List<CellSaid> Cells(RowState row, IReadOnlyList<string> said)
    {
        if (row.Source?.Context is not { } context)
            throw new Refusal("The file of this row is not kept any more, so it cannot be read anew. Leave it as it is and add the packages by hand.");
        var cells = new List<CellSaid>();
        foreach (var one in said)
        {
            var mark = one.IndexOf('=', StringComparison.Ordinal);
            if (mark <= 0)
                throw new Refusal($"'{one}' does not say how a cell should read. Write the column, an equals sign and the words: \"Bought=2013-04-12\".");
            var name = one[..mark].Trim();
            var column = context.Table.Columns.FirstOrDefault(column => column.Head.Length > 0 && Folding.Fold(column.Head) == Folding.Fold(name))
                ?? context.Table.Columns.FirstOrDefault(column => string.Equals(SheetMap.Letter(column.Index), name, StringComparison.OrdinalIgnoreCase))
                ?? throw new Refusal($"There is no column '{name}'. There are: {string.Join(", ", context.Table.Columns.Select(RowReader.Name))}.");
            cells.Add(new CellSaid(SheetMap.Letter(column.Index), one[(mark + 1)..].Trim()));
        }

        return cells;
    }
}
