using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger;

/// <summary>All that one person keeps, as the ledger tells it: immutable, and nothing in it that the events do not say.</summary>
public sealed partial record Cellar
{
    /// <summary>Number of events in the ledger; an append states it to be sure that nothing came between.</summary>
    public required long Version { get; init; }

    /// <summary>What the person calls it.</summary>
    public string? Name { get; init; }

    /// <summary>True for the invented household.</summary>
    public bool IsDemo { get; init; }

    /// <summary>The fixed present of a demo; null elsewhere.</summary>
    public DateOnly? DemoDay { get; init; }

    /// <summary>Places by ID, oldest first.</summary>
    public required IReadOnlyDictionary<PlaceId, Place> Places { get; init; }

    /// <summary>Lots by ID, oldest first.</summary>
    public required IReadOnlyDictionary<LotId, Lot> Lots { get; init; }

    /// <summary>Packages by ID, oldest first; removed ones too.</summary>
    public required IReadOnlyDictionary<PackageId, Package> Packages { get; init; }

    /// <summary>Packages that are in the cellar.</summary>
    public IEnumerable<Package> Here => Packages.Values.Where(package => package.IsHere);

    /// <summary>Rows of sheets that were not understood, answered or not.</summary>
    public required IReadOnlyList<Timed<Fact.RowDoubted>> DoubtfulRows { get; init; }

    /// <summary>What a person decided about them, in the order of the ledger.</summary>
    public required IReadOnlyList<Timed<Fact.RowAnswered>> RowAnswers { get; init; }

    /// <summary>Doubtful rows about which something is still to be asked.</summary>
    public IEnumerable<Timed<Fact.RowDoubted>> OpenRows
    {
        get
        {
            var last = new Dictionary<Guid, Fact.RowAnswered>();
            foreach (var answer in RowAnswers)
                last[answer.Fact.Doubt] = answer.Fact;
            return DoubtfulRows.Where(row => !last.TryGetValue(row.Entry.Event, out var answer) || answer is { LeftOut: false, Open.Count: > 0 });
        }
    }

    /// <summary>Sheets that were read.</summary>
    public required IReadOnlyList<Timed<Fact.SheetImported>> Imports { get; init; }

    /// <summary>Batches of readings in force, oldest in the ledger first.</summary>
    public required IReadOnlyList<Timed<Fact.ReadingsImported>> Readings { get; init; }

    /// <summary>Checks of loggers and hygrometers, in time order.</summary>
    public required IReadOnlyList<Timed<Fact.HygrometerChecked>> HygrometerChecks { get; init; }

    /// <summary>Notes about the whole cellar, in time order.</summary>
    public required IReadOnlyList<TimelineEntry> Notes { get; init; }

    /// <summary>The pace of the whole cellar as last stated; null where nobody did.</summary>
    public Fact.PaceStated? Pace { get; init; }

    /// <summary>The pace of single packages as last stated.</summary>
    public required IReadOnlyDictionary<PackageId, Fact.PaceStated> Paces { get; init; }

    /// <summary>Films of the keeper's own by code, as last described.</summary>
    public required IReadOnlyDictionary<string, Fact.FilmDescribed> OwnFilms { get; init; }

    /// <summary>Container kinds of the keeper's own by code, as last described.</summary>
    public required IReadOnlyDictionary<string, Fact.ContainerDescribed> OwnContainers { get; init; }

    /// <summary>Codes of the rules of practice that are switched off.</summary>
    public required IReadOnlySet<string> RulesOff { get; init; }

    /// <summary>Every event in the order of the ledger, with corrections and undoings resolved; undone ones too.</summary>
    public required IReadOnlyList<LedgerLine> Lines { get; init; }

    /// <summary>Lines that change what others say: corrections, and what was taken back.</summary>
    public required IReadOnlyList<LedgerLine> Amended { get; init; }

    /// <summary>The line of a number; null where there is none.</summary>
    public LedgerLine? LineOf(long version) => version >= 1 && version <= Lines.Count ? Lines[(int)version - 1] : null;

    /// <summary>An empty ledger.</summary>
    public static Cellar Empty { get; } = Fold([]);

    private int NextCounter { get; init; }

    /// <summary>True where an ID was ever given out in this ledger, even by an event that was undone.</summary>
    public bool IsUsed(ShortId id) => used.Contains(id);

    private readonly HashSet<ShortId> used;

    private Cellar(HashSet<ShortId> used) => this.used = used;

    /// <summary>IDs that were never used in this ledger, not even by events that were undone.</summary>
    /// <param name="count">How many.</param>
    /// <exception cref="Refusal">The sequence is used up.</exception>
    public IReadOnlyList<ShortId> NextIds(int count)
    {
        ShortId[] ids = [.. ShortId.From(NextCounter).Take(count)];
        return ids.Length == count ? ids : throw new Refusal("No short IDs are left in this cellar. Begin another one.");
    }

    /// <summary>The blend of a package.</summary>
    public Blend BlendOf(Package package) => Lots[package.Lot].Blend;

    /// <summary>A place and all that it is inside of, innermost first.</summary>
    public IEnumerable<Place> Outwards(PlaceId? place)
    {
        var seen = 0;
        while (place is { } id && Places.TryGetValue(id, out var here) && seen++ <= Places.Count)
        {
            yield return here;
            place = here.Inside;
        }
    }

    /// <summary>Names from the outermost inwards, such as <c>House › Cellar › Shelf 2</c>; null where nobody said where it is.</summary>
    public string? PathOf(PlaceId? place)
    {
        string[] names = [.. Outwards(place).Select(here => here.Name).Reverse()];
        return names.Length == 0 ? null : string.Join(" › ", names);
    }

    /// <summary>The climate stated for a place or for the nearest that it is inside of.</summary>
    public StatedClimate? ClimateAt(PlaceId? place) => Outwards(place).Select(here => here.Climate).FirstOrDefault(climate => climate is not null);

    /// <summary>The room kind of a place or of the nearest that it is inside of.</summary>
    public string? RoomKindAt(PlaceId? place) => Outwards(place).Select(here => here.RoomKind).FirstOrDefault(kind => kind is not null);

    /// <summary>The year outdoors as stated for a place or for the nearest that it is inside of.</summary>
    public Fact.OutdoorsStated? OutdoorsAt(PlaceId? place) => Outwards(place).Select(here => here.Outdoors).FirstOrDefault(outdoors => outdoors is not null);

    /// <summary>The altitude of a place or of the nearest that it is inside of.</summary>
    public StatedLength AltitudeAt(PlaceId? place) => Outwards(place).Select(here => here.Altitude).FirstOrDefault(altitude => altitude.IsKnown);
}
