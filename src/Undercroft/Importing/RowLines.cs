using System.Text.RegularExpressions;
using Undercroft.Importing.Answering;
using Undercroft.Importing.Entering;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Importing;

/// <summary>Which lines of the ledger stand there because of a row of an earlier import, and what was noted of its packages since.</summary>
/// <remarks>A lot keeps the words of its rows, so a row is found by its cells, wherever it stood and in whichever import it came.</remarks>
internal sealed partial class RowLines
{
    private readonly Dictionary<string, Queue<IReadOnlyList<LedgerLine>>> byCells = [];
    private readonly Dictionary<(string Sheet, int Row), IReadOnlyList<LedgerLine>?> found = [];
    private readonly Dictionary<(string Sheet, int Row), Timed<Fact.RowDoubted>> doubts = [];
    private readonly HashSet<ShortId> noted = [];
    private readonly ILookup<Guid, Fact.RowAnswered> answers;
    private readonly HashSet<Guid> open;
    private readonly RowsPackages packages;

    private RowLines(Cellar cellar, EarlierSheet earlier)
    {
        packages = RowsPackages.Of(cellar);
        answers = cellar.RowAnswers.ToLookup(answer => answer.Fact.Doubt, answer => answer.Fact);
        open = cellar.OpenRows.Select(row => row.Entry.Event).ToHashSet();
        foreach (var doubt in cellar.DoubtfulRows)
        {
            if (doubt.Fact.Sha256 == earlier.Import.Fact.Sha256)
                doubts[(doubt.Fact.Sheet ?? "", doubt.Fact.Row)] = doubt;
        }

        var imports = cellar.Imports.Select(import => import.Entry.Event).Concat(cellar.RowAnswers.Select(answer => answer.Entry.Event)).ToHashSet();
        var lots = new Dictionary<LotId, (LedgerLine Lot, List<LedgerLine> Added)>();
        var since = new Dictionary<PackageId, List<LedgerLine>>();
        foreach (var line in cellar.Lines)
        {
            if (!line.Holds)
                continue;
            var brought = line.Event.Cause is { } cause && imports.Contains(cause);
            switch (line.Fact)
            {
                case Fact.LotAdded lot when brought: lots[lot.Lot] = (line, []); break;
                case Fact.PackagesAdded added when brought && lots.TryGetValue(added.Lot, out var mine): mine.Added.Add(line); break;
                case Fact.PackageOpened or Fact.PackageRemoved when brought:
                    var package = line.Fact is Fact.PackageOpened opened ? opened.Package : ((Fact.PackageRemoved)line.Fact).Package;
                    (since.TryGetValue(package, out var list) ? list : since[package] = []).Add(line);
                    break;
                case Fact.PackagesAdded or Fact.EventCorrected or Fact.EventUndone: break;
                default:
                    if (!brought)
                        noted.UnionWith(Speaks(line.Fact));
                    break;
            }
        }

        var groups = earlier.Former.Rows.GroupBy(Cells).ToDictionary(group => group.Key, group => group.First().Groups.Count);
        foreach (var (lot, added) in lots.Values)
            Share(lot, added, since, groups);
    }

    public static RowLines Of(Cellar cellar, EarlierSheet earlier) => new(cellar, earlier);

    /// <summary>The lines of a row, null where they are not found; what was noted of its packages since; whether the row was answered about.</summary>
    public (IReadOnlyList<LedgerLine>? Lines, IReadOnlyCollection<ShortId> Noted, bool Answered) Of(RowFacts row)
    {
        var doubt = doubts.TryGetValue((row.Sheet, row.Row), out var asked) ? asked : (Timed<Fact.RowDoubted>?)null;
        if (!found.TryGetValue((row.Sheet, row.Row), out var lines))
        {
            lines = doubt is { } of ? packages.LinesOf(of)
                : row.Standing == Standing.HeldBack ? []
                : byCells.TryGetValue(Cells(row), out var queue) && queue.TryDequeue(out var mine) ? mine : null;
            found[(row.Sheet, row.Row)] = lines;
        }

        var ids = (lines ?? []).SelectMany(line => line.Fact is Fact.PackagesAdded added ? added.Packages.Select(id => id.Id).Append(added.Lot.Id) : []).Where(noted.Contains).ToHashSet();
        return (lines, ids, doubt is { } one && answers[one.Entry.Event].Any());
    }

    /// <summary>What still waits for an answer about a row.</summary>
    public IEnumerable<Timed<Fact.RowDoubted>> Open(RowFacts row) => doubts.TryGetValue((row.Sheet, row.Row), out var doubt) && open.Contains(doubt.Entry.Event) ? [doubt] : [];

    // The packages of a lot among its rows, in their order; a lot that no longer has as many lines as its rows brought is not shared out.
    private void Share(LedgerLine lot, List<LedgerLine> added, Dictionary<PackageId, List<LedgerLine>> since, Dictionary<string, int> groups)
    {
        var rows = RowMark().Split(((Fact.LotAdded)lot.Fact).Text ?? "").Skip(1).ToList();
        if (rows.Count == 0 || rows.Exists(row => !groups.ContainsKey(row)) || rows.Sum(row => groups[row]) != added.Count)
            return;
        var next = 0;
        foreach (var row in rows)
        {
            List<LedgerLine> lines = rows.Count == 1 ? [lot] : [];
            foreach (var line in added.GetRange(next, groups[row]))
            {
                lines.Add(line);
                lines.AddRange(((Fact.PackagesAdded)line.Fact).Packages.SelectMany(package => since.GetValueOrDefault(package) ?? []));
            }

            next += groups[row];
            (byCells.TryGetValue(row, out var queue) ? queue : byCells[row] = new()).Enqueue(lines);
        }
    }

    private static string Cells(RowFacts row) => RowStated.Words(row);

    private static IEnumerable<ShortId> Speaks(Fact fact) => fact switch
    {
        Fact.LotValued valued => [valued.Lot.Id],
        Fact.Noted { About: { } about } => [about],
        Fact.SheetImported or Fact.RowDoubted or Fact.RowAnswered or Fact.PlaceAdded => [],
        _ => Mentioned.PackageOf(fact) is { } package ? [package.Id] : [],
    };

    [GeneratedRegex(@"(?:, | // )(?:[^|/,]* )?row \d+: ", RegexOptions.CultureInvariant)]
    private static partial Regex RowMark();
}
