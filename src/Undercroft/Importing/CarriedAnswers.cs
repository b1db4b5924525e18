using Undercroft.Importing.Answering;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing;

/// <summary>What was answered about rows of an earlier import and still holds, since the rows did not change.</summary>
internal sealed class CarriedAnswers
{
    private readonly Dictionary<(string Sheet, int Row), IReadOnlyList<Fact.RowAnswered>> answers = [];

    private CarriedAnswers(IReadOnlyList<int> dropped) => Dropped = dropped;

    /// <summary>Rows of the new file that bring their answers with them.</summary>
    public IReadOnlyDictionary<(string Sheet, int Row), IReadOnlyList<Fact.RowAnswered>> ByRow => answers;

    /// <summary>Rows of the earlier file of which the answers would be lost.</summary>
    public IReadOnlyList<int> Dropped { get; }

    /// <summary>The answers of an import by the rows of the file that takes its place.</summary>
    public static CarriedAnswers Of(Cellar cellar, Guid import, SheetReading former, SheetReading now, SheetChanges changes)
    {
        var given = cellar.RowAnswers.ToLookup(answer => answer.Fact.Doubt, answer => answer.Fact);
        var rows = former.Rows.ToDictionary(row => (row.Sheet, row.Row));
        var dropped = new List<int>();
        var brought = cellar.Lines.Where(line => line.Fact is Fact.RowDoubted && line.Event.Cause == import).Select(line => line.Event.Id).ToHashSet();
        var carried = new CarriedAnswers(dropped);
        foreach (var doubt in cellar.DoubtfulRows)
        {
            if (!brought.Contains(doubt.Entry.Event) || given[doubt.Entry.Event].ToList() is not { Count: > 0 } mine)
                continue;
            var at = (doubt.Fact.Sheet ?? "", doubt.Fact.Row);
            if (rows.TryGetValue(at, out var before) && changes.Kept.TryGetValue(at, out var after)
                && mine.ConvertAll(answer => SheetChanges.Carried(answer, before, after)) is var said && said.TrueForAll(answer => answer is not null))
                carried.answers[(after.Sheet, after.Row)] = said!;
            else if (!rows.ContainsKey(at) && now.Doubts.FirstOrDefault(other => other.Sheet == at.Item1 && other.Reason == doubt.Fact.Reason) is { } total)
                carried.answers[(total.Sheet, total.Row)] = mine;
            else
                dropped.Add(doubt.Fact.Row);
        }

        return carried;
    }

    /// <summary>The row as it was answered; null where the answer leaves it out.</summary>
    public RowFacts? Answered(RowFacts row) => answers.TryGetValue((row.Sheet, row.Row), out var given) ? RowState.Answered(given, row) : row;
}
