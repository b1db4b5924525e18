using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Answering;

/// <summary>Which lines of the ledger stand there because of a doubtful row: what it brought at first, and what answers brought since.</summary>
internal sealed class RowsPackages
{
    private readonly Dictionary<Guid, LedgerLine> lines = [];
    private readonly ILookup<Guid, LedgerLine> byAnswer;
    private readonly ILookup<Guid, Guid> answers;

    private RowsPackages(Cellar cellar)
    {
        answers = cellar.RowAnswers.ToLookup(answer => answer.Fact.Doubt, answer => answer.Entry.Event);
        var wanted = cellar.RowAnswers.Select(answer => answer.Entry.Event).ToHashSet();
        var brought = cellar.DoubtfulRows.SelectMany(row => row.Fact.Brought ?? []).ToHashSet();
        List<LedgerLine> caused = [];
        foreach (var line in cellar.Lines)
        {
            if (!line.Holds || line.Fact is not (Fact.LotAdded or Fact.PackagesAdded or Fact.PackageOpened or Fact.PackageRemoved))
                continue;
            if (brought.Contains(line.Event.Id))
                lines[line.Event.Id] = line;
            if (line.Event.Cause is { } cause && wanted.Contains(cause))
                caused.Add(line);
        }

        byAnswer = caused.ToLookup(line => line.Event.Cause!.Value);
    }

    public static RowsPackages Of(Cellar cellar) => new(cellar);

    /// <summary>Lots, packages, openings and removals that hold, in the order of the ledger.</summary>
    public IReadOnlyList<LedgerLine> LinesOf(Timed<Fact.RowDoubted> doubt) =>
    [
        .. (doubt.Fact.Brought ?? []).Where(lines.ContainsKey).Select(id => lines[id]),
        .. answers[doubt.Entry.Event].SelectMany(answer => byAnswer[answer]),
    ];
}
