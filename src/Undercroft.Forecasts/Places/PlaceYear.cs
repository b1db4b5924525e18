using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Climate.Years;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Places;

/// <summary>What the year of a place rests on.</summary>
public enum YearBasis
{
    /// <summary>The room kind alone, or not even that.</summary>
    RoomKind,

    /// <summary>The room kind under a stated year outdoors.</summary>
    Outdoors,

    /// <summary>Somebody's word for this place.</summary>
    Stated,

    /// <summary>The log of the place around it.</summary>
    LogAround,

    /// <summary>Its own log.</summary>
    Log,
}

/// <summary>The year of a place as fitted from whatever is there, and from what.</summary>
/// <param name="Year">The year.</param>
/// <param name="Basis">The strongest thing it rests on.</param>
/// <param name="Log">Its own log, or null.</param>
/// <param name="Around">The place around it that is logged and that it follows; null where there is none.</param>
/// <param name="Follows">How it follows that, where both were logged together for three days.</param>
public sealed record PlaceYear(YearPosterior Year, YearBasis Basis, PlaceLog? Log, PlaceId? Around, Following? Follows)
{
    private const double StatedCelsiusSd = 1.0;
    private const double StatedHumiditySd = 5.0;

    /// <summary>How it follows the place around it where no log of its own tells: in a sentence, with what that rests on; null where it has a log or follows none.</summary>
    public string? Damping { get; init; }

    /// <summary>Of a place.</summary>
    /// <param name="cellar">As read, its logs fetched.</param>
    /// <param name="place">Which.</param>
    public static PlaceYear Of(Cellar cellar, PlaceId place)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var cache = PlaceLogs.CacheOf<PlaceYear>(cellar);
        if (cellar.HasUnreadLogs())
            return Fit(cellar, place); // not kept: the logs may be fetched yet
        return cache.TryGetValue(place, out var known) ? known : cache.GetOrAdd(place, Fit(cellar, place));
    }

    private static PlaceYear Fit(Cellar cellar, PlaceId place)
    {
        var log = cellar.LogOf(place);
        if (Followed(cellar, place) is { } around && cellar.LogOf(around) is { } aroundLog)
        {
            var outer = Of(cellar, around);
            var year = YearFit.Inside(log?.Days ?? DailyAir.Nothing, outer.Year, aroundLog.Days);
            return new(year, log is null ? YearBasis.LogAround : YearBasis.Log, log, around, log is null ? null : Following.Of(log.Air, aroundLog.Air)) { Damping = log is null ? DampedIn(cellar, around) : null };
        }

        var (prior, basis) = PriorOf(cellar, place);
        if (log is null && RoomOf(cellar, place) is { } room)
            return new(YearFit.Of(DailyAir.Nothing, YearPrior.Inside(YearFit.Of(DailyAir.Nothing, prior))), basis, null, null, null) { Damping = DampedIn(cellar, room) };
        return new(YearFit.Of(log?.Days ?? DailyAir.Nothing, prior), log is null ? basis : YearBasis.Log, log, null, null);
    }

    /// <summary>The nearest logged place around this one, unless something in between is said to be a room of its own or to have a climate of its own.</summary>
    private static PlaceId? Followed(Cellar cellar, PlaceId place)
    {
        foreach (var here in cellar.Outwards(place))
        {
            if (here.Id != place && cellar.LogOf(here.Id) is not null)
                return here.Id;
            if (here.RoomKind is not null || here.Climate is not null)
                return null;
        }

        return null;
    }

    /// <summary>The place around this one whose room kind or climate was said, where none was said of this one itself; null else.</summary>
    public static PlaceId? RoomOf(Cellar cellar, PlaceId place)
    {
        foreach (var here in (cellar ?? throw new ArgumentNullException(nameof(cellar))).Outwards(place))
        {
            if (here.RoomKind is not null || here.Climate is not null)
                return here.Id == place ? null : here.Id;
        }

        return null;
    }

    private static string DampedIn(Cellar cellar, PlaceId room)
    {
        static string Share(double hours) => FormattableString.Invariant($"{100 * RoomLag.Gain(hours, 24):0}");
        static string Later(double hours) => FormattableString.Invariant($"{RoomLag.DelayHours(hours, 24):0.#}");
        return $"It is taken to follow {cellar.PathOf(room)} as a shelf does: about {Share(RoomLag.ShelfHours)} % of the day's swing ({Share(RoomLag.ShelfMostHours)} to {Share(RoomLag.ShelfLeastHours)}), "
            + $"{Later(RoomLag.ShelfHours)} h later ({Later(RoomLag.ShelfLeastHours)} to {Later(RoomLag.ShelfMostHours)}) – common practice, no source; its own logger would tell.";
    }

    /// <summary>What is believed before any log.</summary>
    private static (YearPrior Prior, YearBasis Basis) PriorOf(Cellar cellar, PlaceId? place)
    {
        var kind = RoomKinds.Find(cellar.RoomKindAt(place) ?? "unknown") ?? RoomKinds.Find("unknown")!;
        if (cellar.ClimateAt(place) is { } stated && (stated.Temperature.IsKnown || stated.Humidity.IsKnown))
            return (YearPrior.Of(With(kind, stated)), YearBasis.Stated);
        return cellar.OutdoorsAt(place) is { } outdoors
            ? (RoomOutdoors.Prior(kind, YearOf(outdoors)), YearBasis.Outdoors)
            : (YearPrior.Of(kind), YearBasis.RoomKind);
    }

    /// <summary>The year outdoors as the physics takes it.</summary>
    public static OutdoorYear YearOf(Fact.OutdoorsStated outdoors)
    {
        ArgumentNullException.ThrowIfNull(outdoors);
        return new([.. outdoors.MonthlyTemperatureK.Select(kelvin => kelvin - Temperature.ZeroCelsius)], outdoors.MonthlyHumidityFraction, outdoors.DailySwingK);
    }

    /// <summary>A room kind with what somebody said in place of the guess.</summary>
    internal static RoomKind With(RoomKind kind, StatedClimate stated)
    {
        if (stated.Temperature is { IsKnown: true, Low: { } cold, High: { } warm })
        {
            kind = kind with
            {
                MeanCelsius = new((cold.Celsius + warm.Celsius) / 2, StatedCelsiusSd), AnnualSwing = new((warm.Celsius - cold.Celsius) / 2, Math.Max(0.5, (warm.Celsius - cold.Celsius) / 8)),
            };
        }

        if (stated.Humidity is { IsKnown: true, Low: { } dry, High: { } moist })
            kind = kind with { MeanHumidity = new(50 * (dry + moist), StatedHumiditySd), AnnualHumiditySwing = new(50 * (moist - dry), kind.AnnualHumiditySwing.Sd) };
        return kind;
    }
}
