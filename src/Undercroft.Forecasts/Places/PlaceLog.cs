using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Climate.Years;

namespace Undercroft.Forecasts.Places;

/// <summary>What the loggers of one place saw, corrected by the checks of its hygrometers.</summary>
/// <param name="Air">By time; seconds since 1970-01-01 UTC.</param>
/// <param name="Days">The same as days.</param>
/// <param name="Readings">How many.</param>
/// <param name="First">The first.</param>
/// <param name="Last">The last.</param>
/// <param name="Sensors">How many sensors.</param>
/// <param name="Corrected">Readings whose humidity a check corrected.</param>
public sealed record PlaceLog(LoggedAir Air, DailyAir Days, long Readings, DateTimeOffset First, DateTimeOffset Last, int Sensors, long Corrected);

/// <summary>The logs of the places of a cellar. They lie beside the ledger's lines, so they are fetched once, before the questions: <see cref="LearnAsync"/>.</summary>
public static class PlaceLogs
{
    private const int MostKept = 64;

    /// <summary>By the list of batches, which a cellar hands on to every what-if made from it.</summary>
    private static readonly ConditionalWeakTable<object, Known> Learnt = [];
    private static readonly ConcurrentDictionary<string, PlaceLog> Kept = new();

    /// <summary>Fetches the readings of every place that has some. What was fetched before and has not changed is not read again.</summary>
    /// <param name="cellars">Where they lie.</param>
    /// <param name="cellar">As read; every later question about it rests on them.</param>
    /// <param name="cancellation">Stops waiting.</param>
    /// <returns>The same cellar.</returns>
    public static async ValueTask<Cellar> LearnAsync(this ICellars cellars, Cellar cellar, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(cellar);
        if (cellar.Readings.Count == 0 || Learnt.TryGetValue(cellar.Readings, out _))
            return cellar;
        Dictionary<PlaceId, PlaceLog> logs = [];
        foreach (var place in cellar.Readings.Select(batch => batch.Fact.Place).Distinct())
        {
            if (cellar.ReadingsOf(place).IsEmpty)
                continue;
            var key = Key(cellar, place);
            if (!Kept.TryGetValue(key, out var log))
            {
                log = await Read(cellars, cellar, place, cancellation).ConfigureAwait(false);
                if (Kept.Count >= MostKept)
                    Kept.Clear();
                Kept[key] = log;
            }

            logs[place] = log;
        }

        Learnt.AddOrUpdate(cellar.Readings, new(logs));
        return cellar;
    }

    /// <summary>The log of a place itself; null where there is none, or where nobody fetched it.</summary>
    public static PlaceLog? LogOf(this Cellar cellar, PlaceId place) => (cellar ?? throw new ArgumentNullException(nameof(cellar))).Readings.Count > 0 && Learnt.TryGetValue(cellar.Readings, out var known) ? known.Logs.GetValueOrDefault(place) : null;

    /// <summary>True where readings exist that were not fetched: answers then rest on the guess, and say so.</summary>
    public static bool HasUnreadLogs(this Cellar cellar)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        return cellar.Readings.Count > 0 && !Learnt.TryGetValue(cellar.Readings, out _);
    }

    internal static ConcurrentDictionary<PlaceId, T> CacheOf<T>(Cellar cellar)
        where T : class => Cache<T>.Of.GetValue(cellar, _ => new());

    private static class Cache<T>
        where T : class
    {
        public static readonly ConditionalWeakTable<Cellar, ConcurrentDictionary<PlaceId, T>> Of = [];
    }

    private sealed record Known(IReadOnlyDictionary<PlaceId, PlaceLog> Logs);

    private static string Key(Cellar cellar, PlaceId place)
    {
        var span = cellar.ReadingsOf(place);
        return FormattableString.Invariant(
            $"{string.Join(',', span.Parts.Select(part => part.Batch))}|{span.ToUtc}|{string.Join(',', cellar.HygrometerChecks.Where(check => check.Fact.Place == place).Select(check => check.Entry.Event))}");
    }

    private static async ValueTask<PlaceLog> Read(ICellars cellars, Cellar cellar, PlaceId place, CancellationToken cancellation)
    {
        List<LoggedMoment> moments = [];
        var (count, corrected) = (0L, 0L);
        var (first, last) = (long.MaxValue, long.MinValue);
        var sensors = cellar.SeriesAt(place);
        foreach (var series in sensors)
        {
            var corrections = Corrections.At(cellar, place, series);
            await foreach (var reading in cellars.ReadingsAsync(cellar.ReadingsOf(place, series), cancellation).ConfigureAwait(false))
            {
                count++;
                (first, last) = (Math.Min(first, reading.UtcSeconds), Math.Max(last, reading.UtcSeconds));
                var humidity = reading.HumidityFraction;
                if (!double.IsNaN(humidity) && corrections?.HoldAt(reading.UtcSeconds) == true)
                {
                    humidity = corrections.True(reading.UtcSeconds, humidity);
                    corrected++;
                }

                var kelvin = reading.Kelvin is >= 173.15 and <= 473.15 ? reading.Kelvin : double.NaN; // beyond, no formula here holds
                if (!double.IsNaN(kelvin) || !double.IsNaN(humidity))
                    moments.Add(new(reading.UtcSeconds, kelvin, humidity));
            }
        }

        var air = LoggedAir.Of(moments);
        return new(air, DailyAir.Of(air), count, DateTimeOffset.FromUnixTimeSeconds(first), DateTimeOffset.FromUnixTimeSeconds(last), sensors.Count, corrected);
    }
}
