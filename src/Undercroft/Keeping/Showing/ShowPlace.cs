using System.Globalization;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;

namespace Undercroft.Keeping.Showing;

/// <summary>The year as it is believed to be in a place.</summary>
/// <param name="MeanC">Mean temperature.</param>
/// <param name="MeanSdC">Its standard deviation.</param>
/// <param name="AnnualSwingC">Half of summer minus winter.</param>
/// <param name="DailySwingC">Half of afternoon minus night.</param>
/// <param name="MeanHumidityPct">Mean relative humidity.</param>
/// <param name="MeanHumiditySdPct">Its standard deviation, points.</param>
/// <param name="HumiditySwingPct">Half of summer minus winter, points.</param>
/// <param name="PressureKPa">Of the outside air, absolute.</param>
/// <param name="Provenance">How all this is known.</param>
/// <param name="Source">Key of the bibliography, or null.</param>
/// <param name="Remark">What it rests on.</param>
/// <param name="Readings">Logger readings behind it: none, until loggers can be read.</param>
public sealed record PlaceClimate(
    double MeanC, double MeanSdC, double AnnualSwingC, double DailySwingC, double MeanHumidityPct, double MeanHumiditySdPct, double HumiditySwingPct, double PressureKPa,
    string Provenance, string? Source, string? Remark, int Readings);

/// <summary>One place as it stands.</summary>
/// <param name="Id">Its ID.</param>
/// <param name="Path">From the outermost place inwards.</param>
/// <param name="Room">Code of its room kind, or of the place around it; null where nobody said.</param>
/// <param name="Verdict">First line.</param>
/// <param name="Climate">As believed.</param>
/// <param name="Exposure">What leaf there lived through, from logger readings: null, since there are none yet.</param>
/// <param name="Packages">Packages in it and in the places inside it.</param>
/// <param name="LowG">Their leaf by the book, at least.</param>
/// <param name="HighG">At most.</param>
/// <param name="UnknownPackages">Packages of which no mass is known; they are not in the sum.</param>
public sealed record PlaceShown(
    string Id, string Path, string? Room, string Verdict, PlaceClimate Climate, object? Exposure, int Packages, double LowG, double HighG, int UnknownPackages);

/// <summary>What is believed of a place, and what stands there.</summary>
public static class ShowPlace
{
    // The usual aims for keeping leaf, 15 to 21 °C and below 70 % humidity: common practice, no source.
    private const double CoolestAim = 15;
    private const double WarmestAim = 21;
    private const double DampFrom = 70;

    /// <summary>Of a place.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="typed">ID, name or path.</param>
    /// <exception cref="Refusal">No such place, with the nearest ones, or several of that name.</exception>
    public static PlaceShown Of(Cellar cellar, string typed)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var place = cellar.FindPlace(typed);
        var belief = PlaceBelief.Of(cellar, place.Id);
        var total = MassTotal.Of(cellar.Here.Where(package => cellar.Outwards(package.Place).Any(around => around.Id == place.Id)));
        return new(
            place.Id.ToString(), cellar.PathOf(place.Id)!, cellar.RoomKindAt(place.Id), Verdict(belief),
            new(
                belief.MeanCelsius, belief.MeanCelsiusSd, belief.AnnualSwing, belief.DailySwing, belief.MeanHumidity, belief.MeanHumiditySd, belief.HumiditySwing,
                belief.Pressure.Kilopascals, belief.Evidence.Tag, belief.Evidence.Source.Length == 0 ? null : belief.Evidence.Source, belief.Evidence.Remark, 0),
            null, total.Packages, total.Low.Grams, total.High.Grams, total.Unknown);
    }

    private static string Verdict(PlaceBelief belief)
    {
        var warmth = belief.MeanCelsius > WarmestAim ? "warmer than the usual aim of 15 to 21 °C" : belief.MeanCelsius < CoolestAim ? "cooler than the usual aim of 15 to 21 °C" : "within the usual aim of 15 to 21 °C";
        var damp = belief.MeanHumidity >= DampFrom ? ", and damp: look for rust on tins" : "";
        return string.Create(CultureInfo.InvariantCulture, $"About {belief.MeanCelsius:0.#} °C and {belief.MeanHumidity:0} % over the year, {warmth}{damp}. No logger has been read here.");
    }
}
