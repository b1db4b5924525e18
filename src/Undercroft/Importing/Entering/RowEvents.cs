using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Undercroft.Importing.Cells;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Importing.Entering;

/// <summary>Rows become events: one import, its places, lots and packages, and a line for every doubt. All of them name the import as their cause, so that one undo takes all back.</summary>
/// <remarks>The IDs of the events come from the file's digest and their order, so the same import decided twice is the same import.</remarks>
internal sealed class RowEvents
{
    private const int RowsInText = 12;
    private readonly string file;
    private readonly string sha256;
    private readonly DateTimeOffset now;
    private readonly byte[] seed;
    private readonly List<CellarEvent> events = [];
    private readonly Queue<ShortId> ids;
    private readonly PlaceBook places;
    private readonly Guid import;

    private RowEvents(Cellar cellar, string file, string sha256, int attempt, DateTimeOffset now, int needed)
    {
        this.file = file;
        this.sha256 = sha256;
        seed = SHA256.HashData(Encoding.UTF8.GetBytes($"{sha256}/{attempt}"));
        this.now = now;
        import = IdOf(0);
        ids = new Queue<ShortId>(cellar.NextIds(needed));
        places = new PlaceBook(cellar, () => ids.Dequeue());
    }

    /// <summary>The events of an import.</summary>
    /// <param name="cellar">As it stands.</param>
    /// <param name="reading">What the file says.</param>
    /// <param name="rows">The rows to enter; those of the reading, or only new ones.</param>
    /// <param name="file">Name of the file.</param>
    /// <param name="sha256">Its digest.</param>
    /// <param name="now">Instant of recording.</param>
    public static IReadOnlyList<CellarEvent> Of(Cellar cellar, SheetReading reading, IReadOnlyList<RowFacts> rows, string file, string sha256, DateTimeOffset now)
    {
        var attempt = cellar.Lines.Count(line => line.Event.Fact is Fact.SheetImported earlier && earlier.Sha256 == sha256);
        var entered = rows.Where(row => row.Standing != Standing.HeldBack).ToList();
        var needed = entered.Sum(row => row.Groups.Sum(group => group.Count)) + entered.Count + PlaceBook.Most(entered);
        var made = new RowEvents(cellar, file, sha256, attempt, now, needed);
        made.Enter(reading, rows, entered);
        return made.events;
    }

    private void Enter(SheetReading reading, IReadOnlyList<RowFacts> rows, List<RowFacts> entered)
    {
        foreach (var lot in entered.GroupBy(LotKey))
            Lot([.. lot]);
        var wanted = rows.ToHashSet();
        foreach (var doubt in reading.Doubts)
        {
            if (rows.Count == reading.Rows.Count || wanted.Any(row => row.Row == doubt.Row && row.Sheet == doubt.Sheet))
                Add(new Fact.RowDoubted(file, sha256, doubt.Row, [.. doubt.Cells.Take(60).Select(Short)], doubt.Reason, doubt.Sheet.Length > 0 ? doubt.Sheet : null), UnevenDate.Unknown);
        }

        // The import is the last line, so that an undo without a number takes it, and with it all that it brought.
        var map = SheetMap.Of(reading.Tables).Json();
        var imported = new Fact.SheetImported(file, sha256, rows.Count, rows.Count(row => row.Standing != Standing.Understood), map);
        events.Add(new CellarEvent(0, import, UnevenDate.Unknown, now.ToUniversalTime(), imported));
    }

    private static string LotKey(RowFacts row) => string.Join('\u0001',
        Name(row), row.Leaf?.Value, row.Cut?.Value, row.ComesFrom?.Value, Day(row, DateRole.Made), Day(row, DateRole.Bought), Day(row, DateRole.Unsaid));

    private void Lot(List<RowFacts> rows)
    {
        var first = rows[0];
        var lot = new LotId(ids.Dequeue());
        var came = Date(first, DateRole.Bought) is { IsKnown: true } bought ? bought : Date(first, DateRole.Unsaid);
        var blend = new Blend(Name(first), Leaf(first.Leaf?.Value), first.Cut?.Value);
        Add(new Fact.LotAdded(lot, blend, Date(first, DateRole.Made), Paid: Paid(rows), Source: first.ComesFrom?.Value, Text: Text(rows)), came);
        foreach (var row in rows)
        {
            foreach (var group in row.Groups)
                Packages(lot, row, group, came);
        }
    }

    private void Packages(LotId lot, RowFacts row, PackageGroup group, UnevenDate came)
    {
        PackageId[] packages = [.. Enumerable.Range(0, group.Count).Select(_ => new PackageId(ids.Dequeue()))];
        var place = row.Place is { } path ? places.Of(path.Value, fact => Add(fact, UnevenDate.Unknown)) : null;
        var openedOn = Date(row, DateRole.Opened);
        var gross = row.GrossGrams is { Value: > 0 } weighed && group.Count == 1 && row.Groups.Count == 1 ? StatedMass.Exactly(Mass.FromGrams(weighed.Value), SaidBy.Weighed) : StatedMass.Unknown;
        var moisture = row.MoisturePct is { } percent ? StatedFraction.About(percent.Value / 100, SaidBy.Unstated) : default;
        Add(new Fact.PackagesAdded(lot, packages, ContainerCodes.Of(row, group), Net(group), gross, moisture, Date(row, DateRole.Sealed), place, Note(row), row.Open && !openedOn.IsKnown), came);
        foreach (var package in packages)
        {
            if (openedOn.IsKnown)
                Add(new Fact.PackageOpened(package, row.Dates[DateRole.Opened].Raw), openedOn);
            if (row.Gone)
                Add(new Fact.PackageRemoved(package, How(row), Text: "as the sheet says"), Date(row, DateRole.Gone));
        }
    }

    private static StatedMass Net(PackageGroup group)
    {
        if (group.Each is not { Grams: > 0 } each)
            return StatedMass.Unknown;
        if (each.LowGrams < each.HighGrams)
            return StatedMass.Between(Mass.FromGrams(each.LowGrams), Mass.FromGrams(each.HighGrams));
        return each.About || group.Split ? StatedMass.About(Mass.FromGrams(each.Grams)) : StatedMass.Exactly(Mass.FromGrams(each.Grams));
    }

    private static RemovedAs How(RowFacts row)
    {
        var words = Folding.Fold(string.Join(' ', row.Notes));
        return words.Contains("sold", StringComparison.Ordinal) || words.Contains("trade", StringComparison.Ordinal) || words.Contains("swap", StringComparison.Ordinal) ? RemovedAs.Sold
            : words.Contains("gave", StringComparison.Ordinal) || words.Contains("given", StringComparison.Ordinal) || words.Contains("gift", StringComparison.Ordinal) ? RemovedAs.Given
            : words.Contains("discard", StringComparison.Ordinal) || words.Contains("binned", StringComparison.Ordinal) || words.Contains("trash", StringComparison.Ordinal) ? RemovedAs.Discarded
            : RemovedAs.Finished;
    }

    // Money of a lot is for all of it: known only where every row says it, in one currency.
    private static Money? Paid(List<RowFacts> rows)
    {
        decimal sum = 0;
        string? currency = null;
        foreach (var row in rows)
        {
            var count = row.Groups.Sum(group => group.Count);
            if (row.Paid is not { } said || said.Value.Currency.Length == 0 || (said.Value.Share == Share.Unsaid && count > 1) || (currency ??= said.Value.Currency) != said.Value.Currency)
                return null;
            sum += said.Value.Value * (said.Value.Share == Share.Each ? count : 1);
        }

        return currency is not null && sum >= 0 && Money.TryParse(sum.ToString("0.####", CultureInfo.InvariantCulture) + " " + currency, SaidBy.Unstated, out var money, out _) ? money : null;
    }

    private static List<LeafShare> Leaf(string? text)
    {
        var shares = new List<LeafShare>();
        foreach (var part in (text ?? "").Split([',', '/', '+', ';', '&'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Take(12))
        {
            var gap = part.LastIndexOf(' ');
            var percent = part.EndsWith('%') && gap > 0 && StatedFraction.TryParse(part[(gap + 1)..], SaidBy.Unstated, out var share, out _) && share is { IsKnown: true, Si: { First: >= 0, Second: <= 1 } } ? share : default;
            var name = percent.IsKnown ? part[..gap].Trim() : part;
            var folded = Folding.Fold(name);
            shares.Add(new LeafShare((LeafKinds.Find(folded) ?? LeafKinds.Find(folded.TrimEnd('s')))?.Code ?? name, percent));
        }

        return shares.Sum(share => share.Share.IsKnown ? share.Share.Si.First : 0) > 1.01 ? [.. shares.Select(share => new LeafShare(share.Kind))] : shares;
    }

    private static string? Name(RowFacts row)
    {
        var maker = row.Maker?.Value;
        var blend = row.Blend?.Value;
        return maker is null ? blend : blend is null ? maker : Folding.Fold(blend).StartsWith(Folding.Fold(maker), StringComparison.Ordinal) ? blend : $"{maker} {blend}";
    }

    private static string? Note(RowFacts row)
    {
        var notes = new List<string>();
        if (row.Label is { } label)
            notes.Add($"label {label.Value}");
        notes.AddRange(row.Notes);
        if (row.Paid is { } paid && (paid.Value.Currency.Length == 0 || (paid.Value.Share == Share.Unsaid && row.Groups.Sum(group => group.Count) > 1)))
            notes.Add($"paid: {paid.Raw}");
        return notes.Count == 0 ? null : string.Join("; ", notes);
    }

    private string Text(List<RowFacts> rows)
    {
        var text = new StringBuilder(file);
        foreach (var row in rows.Take(RowsInText))
        {
            text.Append(CultureInfo.InvariantCulture, $"{(text.Length == file.Length ? ", " : " // ")}{(row.Sheet.Length > 0 ? row.Sheet + " " : "")}row {row.Row}: ");
            text.AppendJoin(" | ", row.Source.Cells.Take(60).Select(cell => Short(cell.Text)));
        }

        if (rows.Count > RowsInText)
            text.Append(CultureInfo.InvariantCulture, $" // and rows {string.Join(", ", rows.Skip(RowsInText).Take(200).Select(row => row.Row))}{(rows.Count > RowsInText + 200 ? ", ..." : "")}");
        return text.ToString();
    }

    private static string Short(string text) => text.Length <= 300 ? text : text[..300];

    private static string? Day(RowFacts row, DateRole role) => row.DateOf(role)?.Edtf;

    private static UnevenDate Date(RowFacts row, DateRole role) =>
        row.DateOf(role) is { } date && UnevenDate.TryParse(date.Edtf, out var uneven, out _) ? uneven : UnevenDate.Unknown;

    private void Add(Fact fact, UnevenDate happened) =>
        events.Add(new CellarEvent(0, IdOf(events.Count + 1), happened, now.ToUniversalTime(), fact, Cause: import));

    // An ID of RFC 9562 version 8: bits of the import's digest, the order at the end, version and variant set.
    private Guid IdOf(int order)
    {
        Span<byte> digest = stackalloc byte[32];
        seed.CopyTo(digest);
        BinaryPrimitives.WriteInt32BigEndian(digest[12..], order);
        digest[6] = (byte)((digest[6] & 0x0F) | 0x80);
        digest[8] = (byte)((digest[8] & 0x3F) | 0x80);
        return new Guid(digest[..16], bigEndian: true);
    }
}
