using System.Collections.Concurrent;
using Undercroft.Forecasts.Places;
using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Air;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Climate.Years;
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

    /// <summary>Standard deviation of a logger's own error of temperature, K: common practice, no source.</summary>
    public const double LoggerKelvin = 0.3;

    /// <summary>The same of humidity, points, where nobody checked it against salts: common practice, no source.</summary>
    public const double LoggerHumidity = 2.5;

    /// <summary>The same after a check: what references and drift leave; common practice, no source.</summary>
    public const double CheckedHumidity = 1.2;

    private const int WarmestDayOfYear = 201; // 20 July: the northern half of the world is assumed
    private const double StatedCelsiusSd = 1.0;
    private const double StatedHumiditySd = 5.0;

    private static readonly Evidence Unnamed = new(Provenance.Assumption, "", "");
    private static readonly ConcurrentDictionary<(PlaceBelief Place, int DayOfYear), ClimateTable> Tables = new();

    /// <summary>The waves of the year where a log or a stated year outdoors gave them; null where two sine waves are guessed.</summary>
    public HarmonicYear? Year { get; init; }

    /// <summary>What is believed of a place: what its log says, or that of the place around it, else what somebody stated, else its room kind, else "somewhere indoors".</summary>
    /// <param name="cellar">As read, its logs fetched (<see cref="PlaceLogs.LearnAsync"/>).</param>
    /// <param name="place">Null where nobody knows where.</param>
    public static PlaceBelief Of(Cellar cellar, PlaceId? place)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var guess = Guess(cellar, place);
        if (place is not { } id || !cellar.Places.ContainsKey(id))
            return guess;
        if (cellar.HasUnreadLogs() && cellar.ReadingsNear(id) is not null)
            return guess with { Evidence = guess.Evidence with { Remark = guess.Evidence.Remark + "; its logger was not asked for this answer" } };
        var fitted = PlaceYear.Of(cellar, id);
        return fitted.Basis switch
        {
            YearBasis.RoomKind or YearBasis.Stated => fitted.Damping is null ? guess : guess with { DailySwing = guess.DailySwing * RoomLag.Gain(RoomLag.ShelfHours, 24) },
            YearBasis.Outdoors or YearBasis.Log or YearBasis.LogAround => guess.Fitted(fitted),
            _ => throw new InvalidOperationException($"No belief from {fitted.Basis}."),
        };
    }

    /// <summary>The year as tables for the solver, shared by all packages of the place.</summary>
    /// <param name="today">Day of the question, at <see cref="TodayIndex"/>.</param>
    public ClimateTable Table(DateOnly today) => Tables.GetOrAdd((this with { Name = "", Evidence = Unnamed }, today.DayOfYear), static key =>
    {
        var place = key.Place;
        if (place.Year is { } year)
            return ClimateTable.Daily(year.From(key.DayOfYear - 1), HarmonicYear.Days); // TodayIndex is a whole number of such years
        var warmest = TodayIndex - (key.DayOfYear - WarmestDayOfYear);
        var phase = (Math.PI / 2) - (Math.Tau * warmest / 365);
        var swing = Math.Min(Math.Abs(place.HumiditySwing), Math.Min(place.MeanHumidity, 100 - place.MeanHumidity) - 1) * Math.Sign(place.HumiditySwing);
        return ClimateTable.Daily(
            new SinusoidClimate(
                place.MeanCelsius, place.AnnualSwing, place.DailySwing, phase, place.MeanHumidity / 100, swing / 100, phase, 365, place.Pressure.Pascals),
            365);
    });

    private static PlaceBelief Guess(Cellar cellar, PlaceId? place)
    {
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

    private PlaceBelief Fitted(PlaceYear fitted)
    {
        var (year, logged) = (fitted.Year, fitted.Basis != YearBasis.Outdoors);
        var (humidity, checkedSensor) = (year.MeanHumidity, fitted.Log is { Corrected: > 0 });
        double With(double sd, double sensor) => logged ? Math.Sqrt((sd * sd) + (sensor * sensor)) : sd;
        return this with
        {
            MeanCelsius = year.MeanCelsius.Middle,
            MeanCelsiusSd = With(year.MeanCelsius.Sd, LoggerKelvin),
            AnnualSwing = year.AnnualSwing.Middle,
            DailySwing = year.DailySwing.Middle,
            MeanHumidity = 100 * humidity.Middle,
            MeanHumiditySd = With(100 * humidity.Sd, checkedSensor ? CheckedHumidity : LoggerHumidity),
            HumiditySwing = 100 * year.HumiditySwing.Middle,
            Year = year.Year(Pressure.Pascals),
            Evidence = EvidenceOf(fitted),
        };
    }

    private static Evidence EvidenceOf(PlaceYear fitted)
    {
        var sensor = "the logger's own error assumed: ±0.3 K, ±2.5 points, ±1.2 once checked";
        return fitted.Basis switch
        {
            YearBasis.Log => new(Provenance.Derived, "", FormattableString.Invariant(
                $"fitted from its own logger, {fitted.Log!.Days.Temperature.Count} days with {fitted.Year.WeeksOfYear} of 52 weeks of the year, shrunk towards {(fitted.Around is null ? "the room kind" : "the place around it")}; {sensor}")),
            YearBasis.LogAround => new(Provenance.Derived, "", $"it follows the logged place around it, damped as a shelf (common practice); {sensor}"),
            YearBasis.Outdoors => new(Provenance.Derived, "", "from the stated year outdoors and the assumed behaviour of such a room; the spread is that of the room kind"),
            _ => throw new InvalidOperationException($"No evidence from {fitted.Basis}."),
        };
    }
}
