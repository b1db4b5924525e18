using Undercroft.Importing.Entering;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Importing.Answering;

/// <summary>Answers become events: packages that stay keep their IDs and are corrected, others are taken back or added. The answer stands last and is the cause of them all.</summary>
internal sealed class RowAnswering
{
    private readonly Cellar cellar;
    private readonly RowQueue queue;
    private readonly DateTimeOffset now;
    private readonly Dictionary<string, Dictionary<(string Sheet, int Row), RowFacts?>> changing = [];
    private readonly RowsPackages packages;
    private readonly List<CellarEvent> events = [];
    private readonly Dictionary<string, LotId> lots = [];
    private readonly Dictionary<Guid, Guid?> causes;
    private readonly IEnumerator<ShortId> ids;
    private readonly PlaceBook places;

    public RowAnswering(Cellar cellar, RowQueue queue, DateTimeOffset now)
    {
        this.cellar = cellar;
        this.queue = queue;
        this.now = now;
        packages = RowsPackages.Of(cellar);
        causes = cellar.Lines.Where(line => line.Fact is Fact.RowDoubted).ToDictionary(line => line.Event.Id, line => line.Event.Cause);
        ids = Ids(cellar).GetEnumerator();
        places = new PlaceBook(cellar, Next);
    }

    /// <summary>What is to be written. Of several answers the last is the cause of the others, so that one undo takes them all back.</summary>
    public IReadOnlyList<CellarEvent> Events()
    {
        var last = events.FindLast(line => line.Fact is Fact.RowAnswered)!.Id;
        return [.. events.Select(line => line.Fact is Fact.RowAnswered && line.Id != last ? line with { Cause = last } : line)];
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
            Follow(row, after.Facts is { Standing: not Standing.HeldBack } facts ? facts : null, id);
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
        events.InsertRange(0, settled);
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

    private void Write(RowState row, Fact.RowAnswered answer, Guid id) => events.Add(Answer(row, answer, id));

    private CellarEvent Answer(RowState row, Fact.RowAnswered answer, Guid id) => new(0, id, UnevenDate.Unknown, now.ToUniversalTime(), answer, Cause: causes[row.Doubt.Entry.Event]);

    private void Follow(RowState row, RowFacts? facts, Guid cause)
    {
        var lines = packages.LinesOf(row.Doubt);
        var added = lines.Where(line => line.Fact is Fact.PackagesAdded).ToList();
        if (facts is null || added.Count == 0)
        {
            foreach (var line in lines)
                Undo(line, cause);
            if (facts is not null)
                Anew(facts, row.Doubt.Fact.File, cause);
            return;
        }

        var old = cellar.Lots[((Fact.PackagesAdded)added[0].Fact).Lot];
        var lot = RowStated.Lot(row.Doubt.Fact.File, [facts]) with { Lot = old.Id };
        var lotLine = cellar.Lines.First(line => line.Event.Id == old.AddedBy);
        var came = RowStated.Came(facts);
        var same = lotLine.Fact is Fact.LotAdded was && was.Made.Equals(lot.Made) && was.Source == lot.Source && EventLine.WriteFact(was with { Text = null, Paid = null }) == EventLine.WriteFact(lot with { Text = null, Paid = null })
            && lotLine.Happened.Equals(came);
        var mine = added.SelectMany(line => ((Fact.PackagesAdded)line.Fact).Packages).ToHashSet();
        var own = old.Packages.All(mine.Contains);
        if (!same && !own)
        {
            // The other rows of the lot keep it; this one came at another time or is something else.
            foreach (var line in lines)
                Undo(line, cause);
            Anew(facts, row.Doubt.Fact.File, cause);
            return;
        }

        if (own && (!same || EventLine.WriteFact(lotLine.Fact) != EventLine.WriteFact(lot)))
            Correct(lotLine, lot, came, cause);
        Groups(facts, old.Id, added, came, cause, lines);
    }

    private void Groups(RowFacts facts, LotId lot, List<LedgerLine> added, UnevenDate came, Guid cause, IReadOnlyList<LedgerLine> lines)
    {
        var since = new List<(Fact Fact, UnevenDate Happened)>();
        for (var i = 0; i < Math.Max(added.Count, facts.Groups.Count); i++)
        {
            if (i >= facts.Groups.Count)
            {
                Undo(added[i], cause);
                continue;
            }

            var group = facts.Groups[i];
            var place = PlaceOf(facts, cause);
            IReadOnlyList<PackageId> stay = i < added.Count ? ((Fact.PackagesAdded)added[i].Fact).Packages : [];
            if (stay.Count > group.Count)
            {
                Undo(added[i], cause);
                stay = [];
            }

            if (stay.Count > 0)
            {
                var fact = RowStated.Packages(cellar, facts, group) with { Lot = lot, Packages = stay, Place = place };
                if (EventLine.WriteFact(fact) != EventLine.WriteFact(added[i].Fact) || !added[i].Happened.Equals(came))
                    Correct(added[i], fact, came, cause);
                since.AddRange(RowStated.Since(stay, facts, group));
            }

            if (group.Count > stay.Count)
                since.AddRange(AddGroup(facts, lot, group, group.Count - stay.Count, place, came, cause));
        }

        // Openings and removals are written anew where they differ.
        var before = lines.Where(line => line.Fact is Fact.PackageOpened or Fact.PackageRemoved).ToList();
        if (before.Select(line => (EventLine.WriteFact(line.Fact), line.Happened)).SequenceEqual(since.Select(one => (EventLine.WriteFact(one.Fact), one.Happened))))
            return;
        foreach (var line in before)
            Undo(line, cause);
        foreach (var (fact, happened) in since)
            Add(fact, happened, cause);
    }

    private void Anew(RowFacts facts, string file, Guid cause)
    {
        var came = RowStated.Came(facts);
        var key = RowStated.LotKey(facts);
        if (!lots.TryGetValue(key, out var lot))
        {
            lot = new LotId(Next());
            lots[key] = lot;
            Add(RowStated.Lot(file, [facts]) with { Lot = lot }, came, cause);
        }

        foreach (var group in facts.Groups)
        {
            foreach (var (fact, happened) in AddGroup(facts, lot, group, group.Count, PlaceOf(facts, cause), came, cause))
                Add(fact, happened, cause);
        }
    }

    private IEnumerable<(Fact Fact, UnevenDate Happened)> AddGroup(RowFacts facts, LotId lot, PackageGroup group, int count, PlaceId? place, UnevenDate came, Guid cause)
    {
        PackageId[] added = [.. Enumerable.Range(0, count).Select(_ => new PackageId(Next()))];
        Add(RowStated.Packages(cellar, facts, group) with { Lot = lot, Packages = added, Place = place }, came, cause);
        return RowStated.Since(added, facts, group);
    }

    private PlaceId? PlaceOf(RowFacts facts, Guid cause) => facts.Place is { } path ? places.Of(path.Value, fact => Add(fact, UnevenDate.Unknown, cause)) : null;

    private void Correct(LedgerLine line, Fact fact, UnevenDate happened, Guid cause) =>
        Add(new Fact.EventCorrected(line.Event.Id, fact, ReplacesDate: true, happened, "as answered about its row"), UnevenDate.Unknown, cause);

    private void Undo(LedgerLine line, Guid cause) => Add(new Fact.EventUndone(line.Event.Id, "as answered about its row"), UnevenDate.Unknown, cause);

    private void Add(Fact fact, UnevenDate happened, Guid cause) => events.Add(CellarEvent.New(fact, happened, now, cause: cause));

    private ShortId Next() => ids.MoveNext() ? ids.Current : throw new InvalidOperationException("The sequence of IDs ended.");

    private static IEnumerable<ShortId> Ids(Cellar cellar)
    {
        var given = 0;
        for (var ask = 64; ; ask *= 4)
        {
            foreach (var id in cellar.NextIds(ask).Skip(given))
            {
                given++;
                yield return id;
            }
        }
    }
}
