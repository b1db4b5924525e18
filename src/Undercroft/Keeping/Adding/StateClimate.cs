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
    /// <exception cref="Refusal">Neither is said, or a part cannot be read or cannot be; nothing is written.</exception>
    public static async ValueTask<Change> Of(ICellars cellars, string place, string? temperature, string? humidity, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(presentOf);
        return await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            var climate = new StatedClimate(StatedTemperature.Parse(temperature, SaidBy.Memory), StatedFraction.Parse(humidity, SaidBy.Memory));
            if (!climate.Temperature.IsKnown && !climate.Humidity.IsKnown)
                throw new Refusal("Nothing was said of the climate: give a band of temperature, such as 16C..22C, of humidity, such as 40%..60%, or both.");
            return Recording.Checked(cellar, CellarEvent.New(new Fact.ClimateStated(cellar.FindPlace(place).Id, climate), UnevenDate.On(present.Today), present.Now));
        });
    }
}
