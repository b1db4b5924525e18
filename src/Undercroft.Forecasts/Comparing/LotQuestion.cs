using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Comparing;

/// <summary>A lot that wants packing: which containers keep it, and what does that take?</summary>
/// <param name="Mass">How much leaf in all.</param>
/// <param name="Leaf">Code of a leaf kind; null for mixed leaf.</param>
/// <param name="Cut">Code of a cut; null where nobody says.</param>
/// <param name="Moisture">Wet basis now, fraction; null where nobody knows.</param>
/// <param name="Room">Code of a room kind; null for somewhere indoors.</param>
/// <param name="Place">A place of the cellar instead; null for none.</param>
public sealed record LotQuestion(Mass Mass, string? Leaf = null, string? Cut = null, double? Moisture = null, string? Room = null, PlaceId? Place = null)
{
    /// <summary>The same question about one container of a kind with its share of the lot.</summary>
    internal ShelfQuestion In(ContainerKind kind, Mass each) => new(kind.Code, Leaf, each, Moisture, Room, Place, Cut);

    /// <summary>A lot as a person states it: the place may be one of the cellar or a kind of room.</summary>
    /// <param name="cellar">Whose places.</param>
    /// <param name="place">As typed; null for somewhere indoors.</param>
    /// <param name="mass">How much.</param>
    /// <param name="leaf">Code of a leaf kind; null for mixed leaf.</param>
    /// <param name="cut">Code of a cut; null where nobody says.</param>
    /// <param name="moisture">Wet basis now; null where nobody knows.</param>
    /// <exception cref="Refusal">No place and no kind of room is called so.</exception>
    public static LotQuestion At(Cellar cellar, string? place, Mass mass, string? leaf, string? cut, double? moisture)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        if (string.IsNullOrWhiteSpace(place))
            return new(mass, leaf, cut, moisture);
        if (cellar.TryFindPlace(place) is { } known)
            return new(mass, leaf, cut, moisture, Place: known.Id);
        if (RoomKinds.Find(place) is { } room)
            return new(mass, leaf, cut, moisture, Room: room.Code);
        var names = Nearest.To(place, cellar.Places.Values.Select(each => each.Name));
        throw new Refusal($"No place and no kind of room is called '{place}'. {(names.Count > 0 ? $"Nearest places: {string.Join(", ", names)}. " : "")}Nearest kinds of room: {string.Join(", ", RoomKinds.Nearest(place))}.");
    }
}
