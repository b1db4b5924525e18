using System.Globalization;
using Undercroft.Forecasts.Places;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Quantities;
using Undercroft.Places.Weather;
using Undercroft.Shell;

namespace Undercroft.Places.Stating;

/// <summary>What somebody says of a place: as typed.</summary>
/// <param name="Temperature">A band over the year inside, such as <c>16C..22C</c>.</param>
/// <param name="Humidity">A band over the year inside.</param>
/// <param name="Monthly">Twelve monthly means outdoors, such as <c>1,2,5,9,14,17,19,18,15,10,5,2C</c>.</param>
/// <param name="MonthlyHumidity">Twelve monthly means outdoors, such as <c>86,82,…,88%</c>.</param>
/// <param name="Altitude">Above sea level.</param>
/// <param name="Weather">A weather file that was read.</param>
public sealed record PlaceWords(string? Temperature = null, string? Humidity = null, string? Monthly = null, string? MonthlyHumidity = null, string? Altitude = null, WeatherFile? Weather = null);

/// <summary>What was written of a place, and what is believed of it now.</summary>
/// <param name="Change">The lines.</param>
/// <param name="Answer">The place, judged anew.</param>
public sealed record PlaceStated(Change Change, PlaceAnswer Answer);

/// <summary>Writes down what somebody says of the year inside or outside a place, and how high it lies.</summary>
public static class StatePlace
{
    /// <summary>Reads, checks, writes: all of it or nothing.</summary>
    /// <param name="cellars">Where.</param>
    /// <param name="typed">ID, name or path.</param>
    /// <param name="words">What is said.</param>
    /// <param name="presentOf">The present for the cellar as it was read.</param>
    /// <exception cref="Refusal">Nothing is said, or a part cannot be read or cannot be.</exception>
    public static async ValueTask<PlaceStated> Of(ICellars cellars, string typed, PlaceWords words, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(words);
        ArgumentNullException.ThrowIfNull(presentOf);
        var change = await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            var place = cellar.FindPlace(typed);
            var facts = Facts(cellar, place, words);
            if (facts.Count == 0)
                throw new Refusal("Nothing was said of the place: give a band inside (--temperature 16C..22C, --humidity 40%..60%), the year outdoors (--monthly, or --weather with an EPW file), or --altitude.");
            return [.. facts.Select(fact => CellarEvent.New(fact, UnevenDate.On(present.Today), present.Now))];
        });
        await cellars.LearnAsync(change.After);
        return new(change, PlaceAnswer.Of(change.After, change.After.FindPlace(typed).Id, presentOf(change.After).Today));
    }

    private static List<Fact> Facts(Cellar cellar, Place place, PlaceWords words)
    {
        List<Fact> facts = [];
        var inside = new StatedClimate(StatedTemperature.Parse(words.Temperature, SaidBy.Memory), StatedFraction.Parse(words.Humidity, SaidBy.Memory));
        if (inside.Temperature.IsKnown || inside.Humidity.IsKnown)
            facts.Add(new Fact.ClimateStated(place.Id, inside));
        if (words.Monthly is not null && words.Weather is not null)
            throw new Refusal("The year outdoors is said twice: give either twelve monthly means or a weather file.");
        if (words.Weather is { } file)
        {
            facts.Add(new Fact.OutdoorsStated(
                place.Id, [.. file.MonthlyKelvin.Select(Rounded)], file.MonthlyHumidity?.Select(Rounded).ToArray(), Rounded(file.DailySwing), $"weather file, {file.Station}"));
        }
        else if (words.Monthly is { } months)
        {
            facts.Add(new Fact.OutdoorsStated(
                place.Id, Twelve(months, QuantityText.OfTemperature, "monthly means of temperature", "1,2,5,9,14,17,19,18,15,10,5,2C"),
                words.MonthlyHumidity is { } humid ? Twelve(humid, QuantityText.OfPercent, "monthly means of humidity", "86,82,77,72,71,72,73,74,79,83,87,88%") : null));
        }
        else if (words.MonthlyHumidity is not null)
        {
            throw new Refusal("Humidity outdoors is taken together with temperature: give --monthly as well.");
        }

        if (words.Altitude is { } altitude)
            facts.Add(new Fact.AltitudeStated(place.Id, StatedLength.Parse(altitude, SaidBy.Memory)));
        else if (words.Weather?.Altitude is { } station && !cellar.AltitudeAt(place.Id).IsKnown)
            facts.Add(new Fact.AltitudeStated(place.Id, StatedLength.About(station, SaidBy.Unstated)));
        return facts;
    }

    /// <summary>Twelve values; a unit behind the last one counts for those that have none.</summary>
    private static double[] Twelve(string text, QuantityText units, string what, string example)
    {
        var parts = text.Split([',', ';', ' '], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (parts.Length != 12)
            throw new Refusal(string.Create(CultureInfo.InvariantCulture, $"The {what} are {parts.Length}, not twelve: write them from January to December, such as {example}."));
        var unit = parts[^1].TrimStart("+-.0123456789".ToCharArray());
        return [.. parts.Select(part => units.TryRead(part.EndsWith(unit, StringComparison.Ordinal) ? part : part + unit, out var why) ?? throw new Refusal($"The {what}: {why}"))];
    }

    private static double Rounded(double value) => Math.Round(value, 4);
}
