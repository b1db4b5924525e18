using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Shell;

namespace Undercroft.Keeping.Adding;

/// <summary>Says what the year is like at a place that is known already.</summary>
public static class StateClimate
{
    /// <summary>Reads, checks, writes.</summary>
    /// <param name="cellars">Where.</param>
    /// <param name="place">Its ID, name or path.</param>
    /// <param name="temperature">A band over the year, such as <c>16C..22C</c>; null where nobody says.</param>
    /// <param name="humidity">A band over the year, such as <c>40%..60%</c>; null where nobody says.</param>
    /// <param name="presentOf">The present for the cellar as it was read.</param>
    /// <param name="room">Kind of room, such as <c>cupboard</c>: how the place was added is corrected by it; null leaves it as it is.</param>
    /// <exception cref="Refusal">Nothing is said, or a part cannot be read or cannot be; nothing is written.</exception>
    public static async ValueTask<Change> Of(ICellars cellars, string place, string? temperature, string? humidity, Func<Cellar, Present> presentOf, string? room = null)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(presentOf);
        return await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            var climate = new StatedClimate(StatedTemperature.Parse(temperature, SaidBy.Memory), StatedFraction.Parse(humidity, SaidBy.Memory));
            var (about, kind) = (cellar.FindPlace(place), AddPlace.RoomOf(room));
            List<CellarEvent> lines = [];
            if (kind is not null && kind != about.RoomKind)
            {
                var added = (Fact.PlaceAdded)cellar.Lines.Last(line => line.Event.Id == about.AddedBy).Fact;
                lines.Add(CellarEvent.New(new Fact.EventCorrected(about.AddedBy, added with { RoomKind = kind }), UnevenDate.Unknown, present.Now));
            }

            if (climate.Temperature.IsKnown || climate.Humidity.IsKnown)
                lines.Add(CellarEvent.New(new Fact.ClimateStated(about.Id, climate), UnevenDate.On(present.Today), present.Now));
            return lines.Count > 0
                ? Recording.Checked(cellar, [.. lines.Take(lines.Count - 1).Select(line => line with { Cause = lines[^1].Id }), lines[^1]])
                : throw new Refusal("Nothing new was said of the place: give its kind of room, a band of temperature, such as 16C..22C, of humidity, such as 40%..60%, or several of them.");
        });
    }
}
