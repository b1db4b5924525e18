using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Importing.Entering;

/// <summary>Rows become events: one import, its places, lots and packages, and a line for every doubt. All of them name the import as their cause, so that one undo takes all back.</summary>
/// <remarks>The IDs of the events come from the file's digest and their order, so the same import decided twice is the same import.</remarks>
internal sealed class RowEvents
{
    private readonly Cellar cellar;
    private readonly string file;
    private readonly string sha256;
    private readonly DateTimeOffset now;
    private readonly byte[] seed;
    private readonly List<CellarEvent> events = [];
    private readonly Dictionary<(string Sheet, int Row), List<Guid>> brought = [];
    private HashSet<(string Sheet, int Row)> doubted = [];
    private readonly Func<ShortId> next;
    private readonly PlaceBook places;
    private readonly Guid import;

    private RowEvents(Cellar cellar, string file, string sha256, DateTimeOffset now, int needed, SheetUpdate? update)
    {
        this.cellar = cellar;
        this.file = file;
        this.sha256 = sha256;
        seed = Seed(cellar, sha256);
        this.now = now;
        import = IdOf(seed, 0);
        if (update is not null)
        {
            (next, places) = (update.Following.Next, update.Following.Places);
            events.AddRange(update.Following.Events);
            return;
        }

        var ids = new Queue<ShortId>(cellar.NextIds(needed));
        next = ids.Dequeue;
        places = new PlaceBook(cellar, next);
    }

    /// <summary>The events of an import.</summary>
    /// <param name="cellar">As it stands.</param>
    /// <param name="reading">What the file says.</param>
    /// <param name="rows">The rows to enter; those of the reading, or only new ones.</param>
    /// <param name="file">Name of the file.</param>
    /// <param name="sha256">Its digest.</param>
    /// <param name="now">Instant of recording.</param>
    /// <param name="carried">What was answered about rows before, by sheet and row; such rows are entered as they were answered.</param>
    /// <param name="update">What becomes of the rows of an earlier import, or null.</param>
    public static IReadOnlyList<CellarEvent> Of(
        Cellar cellar, SheetReading reading, IReadOnlyList<RowFacts> rows, string file, string sha256, DateTimeOffset now, CarriedAnswers? carried = null, SheetUpdate? update = null)
    {
        var entered = rows.Select(row => carried is null ? row : carried.Answered(row)).OfType<RowFacts>().Where(row => row.Standing != Standing.HeldBack).ToList();
        var needed = entered.Sum(row => row.Groups.Sum(group => group.Count)) + entered.Count + PlaceBook.Most(entered);
        var made = new RowEvents(cellar, file, sha256, now, needed, update);
        made.Enter(reading, rows, entered, carried, update);
        return made.events;
    }

    /// <summary>The line that an import of a file will be.</summary>
    public static Guid ImportOf(Cellar cellar, string sha256) => IdOf(Seed(cellar, sha256), 0);

    private static byte[] Seed(Cellar cellar, string sha256) =>
        SHA256.HashData(Encoding.UTF8.GetBytes($"{sha256}/{cellar.Lines.Count(line => line.Event.Fact is Fact.SheetImported earlier && earlier.Sha256 == sha256)}"));

    private void Enter(SheetReading reading, IReadOnlyList<RowFacts> rows, List<RowFacts> entered, CarriedAnswers? carried, SheetUpdate? update)
    {
        doubted = [.. reading.Doubts.Select(doubt => (doubt.Sheet, doubt.Row))];
        var drafts = Drafts(entered);
        for (var i = 0; i < drafts.Length; i++)
        {
            Lot(drafts[i]);
            drafts[i] = default; // of a long sheet what is written down is not kept twice
        }

        var wanted = rows.Select(row => (row.Sheet, row.Row)).ToHashSet();
        foreach (var doubt in reading.Doubts)
        {
            if (rows.Count == reading.Rows.Count || wanted.Contains((doubt.Sheet, doubt.Row)))
            {
                var cells = doubt.Cells.Take(60).Select(RowStated.Short).ToArray();
                var kept = Add(new Fact.RowDoubted(file, sha256, doubt.Row, cells, doubt.Reason, doubt.Sheet.Length > 0 ? doubt.Sheet : null, brought.GetValueOrDefault((doubt.Sheet, doubt.Row))), UnevenDate.Unknown);
                foreach (var answer in carried?.ByRow.GetValueOrDefault((doubt.Sheet, doubt.Row)) ?? [])
                    Add(answer with { Doubt = kept }, UnevenDate.Unknown);
            }
        }

        foreach (var asked in update?.Doubts ?? [])
            Add(asked, UnevenDate.Unknown);

        // The import is the last line, so that an undo without a number takes it, and with it all that it brought.
        var map = SheetMap.Of(reading).Json();
        var imported = new Fact.SheetImported(file, sha256, rows.Count, rows.Count(row => row.Standing != Standing.Understood), map);
        events.Add(new CellarEvent(0, import, UnevenDate.Unknown, now.ToUniversalTime(), imported));
    }

    // Rows that came together, as facts that do not have their IDs yet: these need no order, so that all cores can make them.
    private Draft[] Drafts(List<RowFacts> entered)
    {
        var keys = new string[entered.Count];
        Parallel.For(0, keys.Length, i => keys[i] = RowStated.LotKey(entered[i]));
        var lots = new Dictionary<string, List<RowFacts>>(entered.Count);
        for (var i = 0; i < keys.Length; i++)
        {
            if (lots.TryGetValue(keys[i], out var rows))
                rows.Add(entered[i]);
            else
                lots.Add(keys[i], [entered[i]]);
        }

        var drafts = lots.Values.Select(rows => new Draft(rows)).ToArray();
        Parallel.For(0, drafts.Length, i => drafts[i] = drafts[i] with
        {
            Came = RowStated.Came(drafts[i].Rows[0]),
            Lot = RowStated.Lot(file, drafts[i].Rows),
            Groups = [.. drafts[i].Rows.SelectMany(row => row.Groups.Select(group => RowStated.Packages(cellar, row, group)))],
        });
        return drafts;
    }

    private void Lot(in Draft draft)
    {
        var lot = new LotId(next());
        var (rows, came) = (draft.Rows, draft.Came);
        var own = Add(draft.Lot! with { Lot = lot }, came);
        var at = 0;
        foreach (var row in rows)
        {
            List<Guid> mine = rows.Count == 1 ? [own] : [];
            foreach (var group in row.Groups)
            {
                var packages = new PackageId[group.Count];
                for (var i = 0; i < packages.Length; i++)
                    packages[i] = new PackageId(next());
                var place = row.Place is { } path ? places.Of(path.Value, fact => Add(fact, UnevenDate.Unknown)) : null;
                mine.Add(Add(draft.Groups![at++] with { Lot = lot, Packages = packages, Place = place }, came));
                foreach (var (fact, happened) in RowStated.Since(packages, row, group))
                    mine.Add(Add(fact, happened));
            }

            if (doubted.Contains((row.Sheet, row.Row)))
                brought[(row.Sheet, row.Row)] = mine;
        }
    }

    /// <summary>Rows of one lot and what is stated of them, without IDs.</summary>
    private readonly record struct Draft(List<RowFacts> Rows, UnevenDate Came = default, Fact.LotAdded? Lot = null, Fact.PackagesAdded[]? Groups = null);

    private Guid Add(Fact fact, UnevenDate happened)
    {
        var id = IdOf(seed, events.Count + 1);
        events.Add(new CellarEvent(0, id, happened, now.ToUniversalTime(), fact, Cause: import));
        return id;
    }

    // An ID of RFC 9562 version 8: bits of the import's digest, the order at the end, version and variant set.
    private static Guid IdOf(byte[] seed, int order)
    {
        Span<byte> digest = stackalloc byte[32];
        seed.CopyTo(digest);
        BinaryPrimitives.WriteInt32BigEndian(digest[12..], order);
        digest[6] = (byte)((digest[6] & 0x0F) | 0x80);
        digest[8] = (byte)((digest[8] & 0x3F) | 0x80);
        return new Guid(digest[..16], bigEndian: true);
    }
}
