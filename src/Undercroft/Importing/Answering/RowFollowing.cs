using Undercroft.Importing.Entering;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Importing.Answering;

/// <summary>Rows that read otherwise than when they were entered: packages that stay keep their IDs and are corrected, others are taken back or added.</summary>
internal sealed class RowFollowing
{
    private readonly Cellar cellar;
    private readonly DateTimeOffset now;
    private readonly string reason;
    private readonly Dictionary<string, LotId> lots = [];
    private readonly IEnumerator<ShortId> ids;

    public RowFollowing(Cellar cellar, DateTimeOffset now, string reason)
    {
        this.cellar = cellar;
        this.now = now;
        this.reason = reason;
        ids = Ids(cellar).GetEnumerator();
        Places = new PlaceBook(cellar, Next);
    }

    /// <summary>What is to be written.</summary>
    public List<CellarEvent> Events { get; } = [];

    /// <summary>The places, with those that are about to be made.</summary>
    public PlaceBook Places { get; }

    /// <summary>The row's packages as it now reads. Those that stay keep their IDs and are corrected.</summary>
    /// <param name="lines">The lines that stand there because of the row.</param>
    /// <param name="file">Name of its file.</param>
    /// <param name="facts">The row; null where it brings none.</param>
    /// <param name="cause">The event that all of it names as its cause.</param>
    public void Follow(IReadOnlyList<LedgerLine> lines, string file, RowFacts? facts, Guid cause)
    {
        var added = lines.Where(line => line.Fact is Fact.PackagesAdded).ToList();
        if (facts is null || added.Count == 0)
        {
            foreach (var line in lines)
                Undo(line, cause);
            if (facts is not null)
                Anew(facts, file, cause);
            return;
        }

        var old = cellar.Lots[((Fact.PackagesAdded)added[0].Fact).Lot];
        var lot = RowStated.Lot(file, [facts]) with { Lot = old.Id };
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
            Anew(facts, file, cause);
            return;
        }

        if (own && (!same || EventLine.WriteFact(lotLine.Fact) != EventLine.WriteFact(lot)))
            Correct(lotLine, lot, came, cause);
        Groups(facts, old.Id, added, came, cause, lines);
    }

    /// <summary>Nothing is asked any more about a doubt.</summary>
    public void Settle(Timed<Fact.RowDoubted> doubt, string why, Guid cause) => Add(new Fact.RowAnswered(doubt.Entry.Event, doubt.Fact.Reason, why), UnevenDate.Unknown, cause);

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

    private PlaceId? PlaceOf(RowFacts facts, Guid cause) => facts.Place is { } path ? Places.Of(path.Value, fact => Add(fact, UnevenDate.Unknown, cause)) : null;

    private void Correct(LedgerLine line, Fact fact, UnevenDate happened, Guid cause) =>
        Add(new Fact.EventCorrected(line.Event.Id, fact, ReplacesDate: true, happened, reason), UnevenDate.Unknown, cause);

    private void Undo(LedgerLine line, Guid cause) => Add(new Fact.EventUndone(line.Event.Id, reason), UnevenDate.Unknown, cause);

    private void Add(Fact fact, UnevenDate happened, Guid cause) => Events.Add(CellarEvent.New(fact, happened, now, cause: cause));

    public ShortId Next() => ids.MoveNext() ? ids.Current : throw new InvalidOperationException("The sequence of IDs ended.");

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
