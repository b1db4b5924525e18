using System.Collections.Concurrent;
using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Air;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Beliefs;

/// <summary>The year that is expected in a place, and how well it is known.</summary>
/// <param name="Name">For people.</param>
/// <param name="MeanCelsius">Of the year.</param>
/// <param name="MeanCelsiusSd">Its standard deviation.</param>
/// <param name="AnnualSwing">Half of summer minus winter, K.</param>
/// <param name="DailySwing">Half of afternoon minus night, K.</param>
/// <param name="MeanHumidity">Of the year, percent.</param>
/// <param name="MeanHumiditySd">Its standard deviation, points.</param>
/// <param name="HumiditySwing">Half of summer minus winter, points.</param>
/// <param name="Pressure">Of the outside air.</param>
/// <param name="Evidence">What all this rests on.</param>
public sealed record PlaceBelief(
    string Name, double MeanCelsius, double MeanCelsiusSd, double AnnualSwing, double DailySwing, double MeanHumidity, double MeanHumiditySd, double HumiditySwing,
    Pressure Pressure, Evidence Evidence)
{
    /// <summary>Day of every climate table that stands for the day of the question: tables count whole days from sixty years before it.</summary>
    public const int TodayIndex = 60 * 365;

    private const int WarmestDayOfYear = 201; // 20 July: the northern half of the world is assumed
    private const double StatedCelsiusSd = 1.0;
    private const double StatedHumiditySd = 5.0;

    private static readonly Evidence Unnamed = new(Provenance.Assumption, "", "");
    private static readonly ConcurrentDictionary<(PlaceBelief Place, int DayOfYear), ClimateTable> Tables = new();

    /// <summary>What is believed of a place: what somebody stated, else its room kind, else "somewhere indoors".</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="place">Null where nobody knows where.</param>
    public static PlaceBelief Of(Cellar cellar, PlaceId? place)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var code = cellar.RoomKindAt(place) ?? "unknown";
        var room = RoomKinds.Find(code) ?? RoomKinds.Find("unknown")!;
        var altitude = cellar.AltitudeAt(place).Mid ?? new Length(0);
        var guess = new PlaceBelief(
            cellar.PathOf(place) ?? room.Name, room.MeanCelsius.Middle, room.MeanCelsius.Sd, room.AnnualSwing.Middle, room.DailySwing.Middle,
            room.MeanHumidity.Middle, room.MeanHumidity.Sd, room.AnnualHumiditySwing.Middle, StandardAtmosphere.At(altitude), room.Evidence);
        if (cellar.ClimateAt(place) is not { } stated)
            return guess;
        var said = new Evidence(Provenance.Assumption, "", "the person's own word, taken as it stands; no logger");
        if (stated.Temperature is { IsKnown: true, Low: { } cold, High: { } warm })
        {
            guess = guess with
            {
                MeanCelsius = (cold.Celsius + warm.Celsius) / 2, MeanCelsiusSd = StatedCelsiusSd, AnnualSwing = (warm.Celsius - cold.Celsius) / 2, Evidence = said,
            };
        }

        if (stated.Humidity is { IsKnown: true, Low: { } dry, High: { } moist })
        {
            guess = guess with
            {
                MeanHumidity = 50 * (dry + moist), MeanHumiditySd = StatedHumiditySd, HumiditySwing = 50 * (moist - dry), Evidence = said,
            };
        }

        return guess;
    }

    /// <summary>The year as tables for the solver, shared by all packages of the place.</summary>
    /// <param name="today">Day of the question, at <see cref="TodayIndex"/>.</param>
    public ClimateTable Table(DateOnly today) => Tables.GetOrAdd((this with { Name = "", Evidence = Unnamed }, today.DayOfYear), static key =>
    {
        var warmest = TodayIndex - (key.DayOfYear - WarmestDayOfYear);
        var phase = (Math.PI / 2) - (Math.Tau * warmest / 365);
        var place = key.Place;
        var swing = Math.Min(Math.Abs(place.HumiditySwing), Math.Min(place.MeanHumidity, 100 - place.MeanHumidity) - 1) * Math.Sign(place.HumiditySwing);
        return ClimateTable.Daily(
            new SinusoidClimate(
                place.MeanCelsius, place.AnnualSwing, place.DailySwing, phase, place.MeanHumidity / 100, swing / 100, phase, 365, place.Pressure.Pascals),
            365);
    });
}
