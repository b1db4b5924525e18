using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Answering;

/// <summary>Answers become events: packages that stay keep their IDs and are corrected, others are taken back or added. The answer stands last and is the cause of them all.</summary>
internal sealed class RowAnswering
{
    private readonly Cellar cellar;
    private readonly RowQueue queue;
    private readonly DateTimeOffset now;
    private readonly Dictionary<string, Dictionary<(string Sheet, int Row), RowFacts?>> changing = [];
    private readonly RowsPackages packages;
    private readonly RowFollowing following;
    private readonly Dictionary<Guid, Guid?> causes;

    public RowAnswering(Cellar cellar, RowQueue queue, DateTimeOffset now)
    {
        this.cellar = cellar;
        this.queue = queue;
        this.now = now;
        packages = RowsPackages.Of(cellar);
        causes = cellar.Lines.Where(line => line.Fact is Fact.RowDoubted).ToDictionary(line => line.Event.Id, line => line.Event.Cause);
        following = new RowFollowing(cellar, now, "as answered about its row");
    }

    /// <summary>What is to be written. Of several answers the last is the cause of the others, so that one undo takes them all back.</summary>
    public IReadOnlyList<CellarEvent> Events()
    {
        var last = following.Events.FindLast(line => line.Fact is Fact.RowAnswered)!.Id;
        return [.. following.Events.Select(line => line.Fact is Fact.RowAnswered && line.Id != last ? line with { Cause = last } : line)];
    }

    /// <summary>One answer to one question.</summary>
    public void Enter(RowState row, Choice choice, string question)
    {
        var answer = new Fact.RowAnswered(row.Doubt.Entry.Event, question, choice.Words, choice.Cells, null, choice.LeaveOut, choice.Take);
        var after = RowState.Of(row.Doubt, [.. row.Answers, answer], row.Source, queue.Others(row.Doubt.Fact.Sha256));
        var id = Guid.CreateVersion7(now);
        if (choice.LeaveOut || choice.Take || choice.Cells is not null)
        {
            if (row.Source is { } source)
                (changing.TryGetValue(row.Doubt.Fact.Sha256, out var rows) ? rows : changing[row.Doubt.Fact.Sha256] = [])[(source.Sheet, source.Row)] = after.Facts;
            following.Follow(packages.LinesOf(row.Doubt), row.Doubt.Fact.File, after.Facts is { Standing: not Standing.HeldBack } facts ? facts : null, id);
        }

        Write(row, answer with { Open = after.Open.Count == 0 ? null : [.. after.Open.Select(open => open.Reason)] }, id);
    }

    /// <summary>What was asked of other rows because of these, and is no longer so: twins of which one is gone, totals that now add up.</summary>
    public void SettleOthers(IReadOnlyCollection<RowState> served)
    {
        var settled = new List<CellarEvent>();
        foreach (var (sha256, rows) in changing)
        {
            if (queue.OthersWith(sha256, rows) is not { } others)
                continue;
            foreach (var row in queue.Open().Where(row => row.Doubt.Fact.Sha256 == sha256 && !served.Any(other => other.Doubt.Entry.Event == row.Doubt.Entry.Event)))
            {
                var doubt = row.Doubt.Fact;
                var gone = row.Open.Where(question => row.Facts is { } facts ? !others.Holds(facts, question) : question.Kind == "total" && !others.TotalDiffers(doubt.Sheet ?? "", doubt.Row, doubt.Reason)).ToList();
                var open = row.Open.Select(question => question.Reason).ToList();
                foreach (var question in gone)
                {
                    open.Remove(question.Reason);
                    settled.Add(Answer(row, new Fact.RowAnswered(row.Doubt.Entry.Event, question.Reason, "no longer so, after an answer about another row", Open: open.Count == 0 ? null : [.. open]), Guid.CreateVersion7(now)));
                }
            }
        }

        // Before the answers, of which the last is the cause of all.
        following.Events.InsertRange(0, settled);
    }

    /// <summary>Everything that is asked about a row stays as it is.</summary>
    public void Leave(RowState row)
    {
        for (var i = 0; i < row.Open.Count; i++)
        {
            var open = row.Open.Skip(i + 1).Select(question => question.Reason).ToArray();
            Write(row, new Fact.RowAnswered(row.Doubt.Entry.Event, row.Open[i].Reason, "leave it as it is", Open: open.Length == 0 ? null : open), Guid.CreateVersion7(now));
        }
    }

    private void Write(RowState row, Fact.RowAnswered answer, Guid id) => following.Events.Add(Answer(row, answer, id));

    private CellarEvent Answer(RowState row, Fact.RowAnswered answer, Guid id) => new(0, id, UnevenDate.Unknown, now.ToUniversalTime(), answer, Cause: causes[row.Doubt.Entry.Event]);
}
