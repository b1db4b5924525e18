using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts;

/// <summary>"If I leave this in that, there, when is it too dry?": a question that needs no records.</summary>
/// <param name="Container">Code of a container kind.</param>
/// <param name="Leaf">Code of a leaf kind; null for mixed leaf.</param>
/// <param name="Mass">How much; null for as much as usually goes in.</param>
/// <param name="Moisture">Wet basis now, fraction; null where nobody knows.</param>
/// <param name="Room">Code of a room kind; null for somewhere indoors.</param>
/// <param name="Place">A place of the cellar around the question instead of a kind of room; null for none.</param>
/// <param name="Cut">Code of a cut; null where nobody says.</param>
public sealed record ShelfQuestion(
    string Container, string? Leaf = null, Mass? Mass = null, double? Moisture = null, string? Room = null, PlaceId? Place = null, string? Cut = null)
{
    /// <summary>A cellar of one package, closed today.</summary>
    /// <param name="today">The day of the question.</param>
    /// <param name="around">Whose places and own container kinds it knows; null for none.</param>
    /// <exception cref="Refusal">A code that the catalogue lacks, or a mass or moisture that cannot be.</exception>
    public Cellar ToCellar(DateOnly today, Cellar? around = null)
    {
        KnownKinds.Get(around ?? Cellar.Empty, Container);
        if (Leaf is not null && LeafKinds.Find(Leaf) is null)
            throw new Refusal($"No leaf kind is called '{Leaf}'. Nearest: {string.Join(", ", LeafKinds.Nearest(Leaf))}.");
        if (Cut is not null && Cuts.Find(Cut) is null)
            throw new Refusal($"No cut is called '{Cut}'. There are: {string.Join(", ", Cuts.All.Select(cut => cut.Code))}.");
        if (Room is not null && RoomKinds.Find(Room) is null)
            throw new Refusal($"No room kind is called '{Room}'. There are: {string.Join(", ", RoomKinds.All.Select(kind => kind.Code))}.");
        if (Mass is { Kilograms: var kilograms } && !(kilograms > 0 && double.IsFinite(kilograms)))
            throw new Refusal("A mass of leaf is above zero.");
        if (Moisture is { } wet && !(wet is > 0 and < 1))
            throw new Refusal("Moisture on wet basis lies between 0 and 100 %.");
        ShortId[] ids = [.. ShortId.From(0).Take(3)];
        var (place, lot, package) = (new PlaceId(ids[0]), new LotId(ids[1]), new PackageId(ids[2]));
        var now = new DateTimeOffset(today, TimeOnly.MinValue, TimeSpan.Zero);
        Fact[] facts =
        [
            new Fact.PlaceAdded(place, "there", null, Room),
            new Fact.LotAdded(lot, new Blend(Leaf: Leaf is null ? [] : [new LeafShare(Leaf)], Cut: Cut)),
            new Fact.PackagesAdded(
                lot, [package], new Container(Container), Mass is { } mass ? StatedMass.Exactly(mass, SaidBy.Weighed) : default,
                Moisture: Moisture is { } fraction ? StatedFraction.Exactly(fraction) : default, Sealed: UnevenDate.On(today), Place: place),
        ];
        var alone = Cellar.Fold(facts.Select((fact, n) => CellarEvent.New(fact, UnevenDate.On(today), now) with { Version = n + 1 }));
        if (around is null)
            return alone;
        var asked = alone.Packages[package] with { Place = Place ?? place };
        return around with
        {
            Places = Place is null ? alone.Places : around.Places,
            Lots = alone.Lots,
            Packages = new Dictionary<PackageId, Package> { [package] = Place is { } there ? Elsewhere(asked, there) : asked },
        };
    }

    /// <summary>The story of a package starts from its first entry: it names the place too.</summary>
    private static Package Elsewhere(Package package, PlaceId there)
    {
        var first = package.Timeline[0];
        return package with { Timeline = [first with { Fact = ((Fact.PackagesAdded)first.Fact) with { Place = there } }, .. package.Timeline.Skip(1)] };
    }
}
