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
public sealed record ShelfQuestion(string Container, string? Leaf = null, Mass? Mass = null, double? Moisture = null, string? Room = null)
{
    /// <summary>A cellar of one package, closed today.</summary>
    /// <exception cref="Refusal">A code that the catalogue lacks, or a mass or moisture that cannot be.</exception>
    public Cellar ToCellar(DateOnly today)
    {
        if (ContainerKinds.Find(Container) is null)
            throw new Refusal($"No container kind is called '{Container}'. Nearest: {string.Join(", ", ContainerKinds.Nearest(Container))}.");
        if (Leaf is not null && LeafKinds.Find(Leaf) is null)
            throw new Refusal($"No leaf kind is called '{Leaf}'. Nearest: {string.Join(", ", LeafKinds.Nearest(Leaf))}.");
        if (Room is not null && RoomKinds.Find(Room) is null)
            throw new Refusal($"No room kind is called '{Room}'. There are: {string.Join(", ", RoomKinds.All.Select(kind => kind.Code))}.");
        if (Mass is { Kilograms: var kilograms } && !(kilograms > 0))
            throw new Refusal("A mass of leaf is above zero.");
        if (Moisture is { } wet && !(wet is > 0 and < 1))
            throw new Refusal("Moisture on wet basis lies between 0 and 100 %.");
        ShortId[] ids = [.. ShortId.From(0).Take(3)];
        var (place, lot, package) = (new PlaceId(ids[0]), new LotId(ids[1]), new PackageId(ids[2]));
        var now = new DateTimeOffset(today, TimeOnly.MinValue, TimeSpan.Zero);
        Fact[] facts =
        [
            new Fact.PlaceAdded(place, "there", null, Room),
            new Fact.LotAdded(lot, new Blend(Leaf: Leaf is null ? [] : [new LeafShare(Leaf)])),
            new Fact.PackagesAdded(
                lot, [package], new Container(Container), Mass is { } mass ? StatedMass.Exactly(mass, SaidBy.Weighed) : default,
                Moisture: Moisture is { } fraction ? StatedFraction.Exactly(fraction) : default, Sealed: UnevenDate.On(today), Place: place),
        ];
        return Cellar.Fold(facts.Select((fact, n) => CellarEvent.New(fact, UnevenDate.On(today), now) with { Version = n + 1 }));
    }
}
