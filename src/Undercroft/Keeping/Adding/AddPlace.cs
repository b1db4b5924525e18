using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;
using Undercroft.Shell;

namespace Undercroft.Keeping.Adding;

/// <summary>A place that was added.</summary>
/// <param name="Id">Its ID.</param>
/// <param name="Path">From the outermost place inwards.</param>
/// <param name="Event">The line.</param>
/// <param name="Known">What its climate rests on, in a sentence.</param>
public sealed record PlaceKept(PlaceId Id, string Path, CellarEvent Event, string Known);

/// <summary>Adds a place, or says more of one of which nothing is known but its name.</summary>
public static class AddPlace
{
    /// <summary>Reads, checks, writes.</summary>
    /// <exception cref="Refusal">A part that cannot be read or cannot be; nothing is written.</exception>
    public static async ValueTask<PlaceKept> To(
        ICellars cellars, string name, string? inside, string? room, string? altitude, string? temperature, string? humidity, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        PlaceId id = default;
        var change = await cellars.ChangeAsync(cellar =>
        {
            var climate = new StatedClimate(Band(temperature), StatedFraction.Parse(humidity, SaidBy.Memory));
            var said = new Fact.PlaceAdded(
                default, name.Trim(), inside is null ? null : cellar.FindPlace(inside).Id, RoomOf(room), StatedLength.Parse(altitude, SaidBy.Memory),
                climate.Temperature.IsKnown || climate.Humidity.IsKnown ? climate : null);
            var bare = SaysMore(said) ? cellar.Places.Values.FirstOrDefault(place => IsBare(place) && place.Inside == said.Inside && string.Equals(place.Name, said.Name, StringComparison.OrdinalIgnoreCase)) : null;
            id = bare?.Id ?? new PlaceId(cellar.NextIds(1)[0]);
            Fact fact = bare is null ? said with { Place = id } : new Fact.EventCorrected(bare.AddedBy, said with { Place = id, Name = bare.Name }, false, UnevenDate.Unknown, null);
            return Recording.Checked(cellar, CellarEvent.New(fact, UnevenDate.Unknown, presentOf(cellar).Now));
        });
        var after = change.After;
        var known = after.ClimateAt(id) is not null ? "Its climate is as you state it."
            : after.RoomKindAt(id) is { } kind ? $"Its climate is guessed from the room kind {kind}, widely."
            : "Nothing is known of its climate: forecasts there are wide.";
        return new(id, after.PathOf(id)!, change.Events[^1], known);
    }

    /// <summary>A place that came with a package or a sheet has a name and no more.</summary>
    private static bool IsBare(Place place) => place is { RoomKind: null, Climate: null, Altitude.IsKnown: false };

    private static bool SaysMore(Fact.PlaceAdded said) => said.RoomKind is not null || said.Climate is not null || said.Altitude.IsKnown;

    private static StatedTemperature Band(string? text) => StatedTemperature.Parse(text, SaidBy.Memory);

    /// <summary>Code of a room kind; null where nothing is said.</summary>
    /// <exception cref="Refusal">No such kind.</exception>
    internal static string? RoomOf(string? code) => string.IsNullOrWhiteSpace(code) ? null : (RoomKinds.Find(code.Trim())
        ?? throw new Refusal($"No room kind is called '{code}'. There are: {string.Join(", ", RoomKinds.All.Select(kind => kind.Code))}. Leave it out if none fits.")).Code;
}
