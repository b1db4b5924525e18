using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Undercroft.Forecasts.Places;
using Undercroft.Ledger;
using Undercroft.Physics.Climate.Years;
using Undercroft.Places.Logging;
using Undercroft.Shell;

namespace Undercroft.Places.Showing;

/// <summary>The year as it is believed to be in a place.</summary>
/// <param name="MeanC">Mean temperature.</param>
/// <param name="MeanSdC">Its standard deviation, the logger's own error in it.</param>
/// <param name="AnnualSwingC">Half of summer minus winter.</param>
/// <param name="AnnualSwingSdC">Its standard deviation.</param>
/// <param name="WarmestDay">Month and day on which it is warmest, as <c>--07-20</c>.</param>
/// <param name="WarmestDaySdDays">Its standard deviation.</param>
/// <param name="DailySwingC">Half of afternoon minus night.</param>
/// <param name="MeanHumidityPct">Mean relative humidity.</param>
/// <param name="MeanHumiditySdPct">Its standard deviation, points.</param>
/// <param name="HumiditySwingPct">Half of summer minus winter, points.</param>
/// <param name="ScatterC">Spread of daily means about the waves.</param>
/// <param name="PressureKPa">Of the outside air, absolute.</param>
/// <param name="Basis">log, log-around, stated, outdoors, room-kind.</param>
/// <param name="Provenance">How all this is known.</param>
/// <param name="Source">Key of the bibliography, or null.</param>
/// <param name="Remark">What it rests on.</param>
/// <param name="Readings">Logger readings behind it.</param>
/// <param name="WeeksOfYear">Of 52, how many were watched.</param>
/// <param name="EffectiveDays">How many independent days the log is worth for the mean.</param>
/// <param name="LastReading">Instant of the last reading, or null.</param>
/// <param name="AgeDays">Days since then, or null.</param>
/// <param name="FollowsHours">Time constant with which it follows the place around it, where both were logged; else null.</param>
public sealed record PlaceClimate(
    double MeanC, double MeanSdC, double AnnualSwingC, double AnnualSwingSdC, string WarmestDay, double WarmestDaySdDays, double DailySwingC, double MeanHumidityPct, double MeanHumiditySdPct,
    double HumiditySwingPct, double ScatterC, double PressureKPa, string Basis, string Provenance, string? Source, string? Remark, long Readings, int WeeksOfYear, double EffectiveDays,
    string? LastReading, int? AgeDays, double? FollowsHours)
{
    /// <summary>What of the log is no part of all this, in sentences.</summary>
    public IReadOnlyList<string> LeftOut { get; init; } = [];

    /// <summary>How it follows the place around it where it has no log of its own; null where it has, or follows none.</summary>
    public string? Follows { get; init; }

    /// <summary>The logged place around it that it follows; null where there is none.</summary>
    public string? AroundPlace { get; init; }

    /// <summary>Days since the last reading there.</summary>
    public int? AroundAgeDays { get; init; }

    internal PlaceClimate Around(Cellar cellar, PlaceAnswer answer, DateOnly today) => answer.Fitted.Around is { } around && cellar.LogOf(around) is { } log
        ? this with { AroundPlace = cellar.PathOf(around), AroundAgeDays = today.DayNumber - DateOnly.FromDateTime(log.Last.UtcDateTime).DayNumber } : this;

    /// <summary>Of a judged place.</summary>
    public static PlaceClimate Of(PlaceAnswer answer, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var (belief, fitted, year) = (answer.Belief, answer.Fitted, answer.Fitted.Year);
        return new(
            belief.MeanCelsius, belief.MeanCelsiusSd, belief.AnnualSwing, year.AnnualSwing.Sd, MonthDay(year.WarmestDay), year.WarmestDay.Sd, belief.DailySwing, belief.MeanHumidity,
            belief.MeanHumiditySd, belief.HumiditySwing, year.CelsiusScatter, belief.Pressure.Kilopascals, CodeWords.Of(fitted.Basis), belief.Evidence.Tag,
            belief.Evidence.Source.Length == 0 ? null : belief.Evidence.Source, belief.Evidence.Remark, fitted.Log?.Readings ?? 0, year.WeeksOfYear, year.EffectiveDays,
            fitted.Log?.Last.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
            fitted.Log is { } log ? today.DayNumber - DateOnly.FromDateTime(log.Last.UtcDateTime).DayNumber : null, fitted.Follows?.TimeConstantHours)
        {
            LeftOut = fitted.Log is { } kept ? [.. kept.LeftOut.Select(LeftOutOf)] : [], Follows = fitted.Damping,
        };
    }

    private static string LeftOutOf(StoodStill one) => string.Create(CultureInfo.InvariantCulture,
        $"The {one.Quantity}{(one.Series.Length > 0 ? $" of {one.Series}" : "")} stood still from {one.From:yyyy-MM-dd} to {one.To:yyyy-MM-dd}, {one.Readings} readings: the sensor looks stuck, and none of this rests on them.");

    private static string MonthDay(Figure day) => new DateOnly(2027, 1, 1).AddDays(Math.Clamp((int)Math.Round(day.Middle), 0, 364)).ToString("'--'MM-dd", CultureInfo.InvariantCulture);
}

/// <summary>One place as it stands.</summary>
/// <param name="Id">Its ID.</param>
/// <param name="Path">From the outermost place inwards.</param>
/// <param name="Room">Code of its room kind, or of the place around it; null where nobody said.</param>
/// <param name="Verdict">First line.</param>
/// <param name="Fitness">not-for-leaf, this-year, some-years, thirty-years.</param>
/// <param name="Reasons">The two strongest.</param>
/// <param name="NextStep">What to do, by when.</param>
/// <param name="NarrowedBy">What would narrow it most.</param>
/// <param name="MeanKineticTemperatureC">5, 50 and 95 % of what is believed of a typical year.</param>
/// <param name="Climate">As believed.</param>
/// <param name="Exposure">What its log lived through over its last year, else what a typical year does; with each measure's meaning.</param>
/// <param name="Changes">What a box, a cooled cabinet, a lower shelf would come to.</param>
/// <param name="Packages">Packages in it and in the places inside it.</param>
/// <param name="LowG">Their leaf by the book, at least.</param>
/// <param name="HighG">At most.</param>
/// <param name="UnknownPackages">Packages of which no mass is known; they are not in the sum.</param>
public sealed record PlaceShown(
    string Id, string Path, string? Room, string Verdict, string Fitness, IReadOnlyList<string> Reasons, object NextStep, object NarrowedBy, object MeanKineticTemperatureC, PlaceClimate Climate,
    JsonObject Exposure, IReadOnlyList<object> Changes, int Packages, double LowG, double HighG, int UnknownPackages)
{
    /// <summary>The sensors that it rests on, its own or those of the place around it, each judged by its own interval.</summary>
    public IReadOnlyList<SensorState> Sensors { get; init; } = [];

    /// <summary>Of a judged place, with the sensors behind it.</summary>
    public static async ValueTask<PlaceShown> Of(ICellars cellars, Cellar cellar, PlaceAnswer answer, DateOnly today, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return Of(cellar, answer, today) with { Sensors = await Logging.Sensors.Behind(cellars, cellar, answer.Place.Id, now) };
    }

    /// <summary>Of a judged place.</summary>
    public static PlaceShown Of(Cellar cellar, PlaceAnswer answer, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(answer);
        var total = MassTotal.Of(cellar.Here.Where(package => cellar.Outwards(package.Place).Any(around => around.Id == answer.Place.Id)));
        return new(
            answer.Place.Id.ToString(), answer.Path, cellar.RoomKindAt(answer.Place.Id), answer.Verdict, CodeWords.Of(answer.Fitness), answer.Reasons,
            new { on = answer.Next.On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), what = answer.Next.What },
            new { measurement = answer.NarrowedBy.What, spreadNowK = 2 * answer.NarrowedBy.NowK, spreadAfterK = 2 * answer.NarrowedBy.AfterK },
            new { p5 = answer.MeanKinetic.P5, p50 = answer.MeanKinetic.P50, p95 = answer.MeanKinetic.P95 }, PlaceClimate.Of(answer, today).Around(cellar, answer, today), ExposureOf(answer),
            [.. answer.Changes.Select(change => (object)new { change.Change, change.MeanKineticTemperatureC, change.DailySwingK, change.AgeingRate, fitness = CodeWords.Of(change.Fitness), change.Rests })],
            total.Packages, total.Low.Grams, total.High.Grams, total.Unknown);
    }

    private static JsonObject ExposureOf(PlaceAnswer answer)
    {
        var seen = answer.Logged ?? answer.Typical;
        var all = Node(seen).AsObject();
        all["insectBand"] = CodeWords.Of(seen.InsectBand);
        all["basis"] = answer.Logged is null ? "typical-year" : "log";
        var typical = Node(answer.Typical).AsObject();
        typical["insectBand"] = CodeWords.Of(answer.Typical.InsectBand);
        all["typicalYear"] = typical;
        all["measures"] = Node(Meaning.Of(seen));
        return all;
    }

    private static JsonNode Node(object value) => JsonSerializer.SerializeToNode(value, value.GetType(), JsonText.Settings)!;
}
