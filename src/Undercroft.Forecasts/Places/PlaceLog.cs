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
/// <param name="LeftOut">Stretches over which a sensor stood still: no part of the air nor of the days.</param>
public sealed record PlaceLog(LoggedAir Air, DailyAir Days, long Readings, DateTimeOffset First, DateTimeOffset Last, int Sensors, long Corrected, IReadOnlyList<StoodStill> LeftOut);

/// <summary>A stretch over which a sensor stood still.</summary>
/// <param name="Series">Which; empty for the one without a name.</param>
/// <param name="Quantity">temperature or humidity.</param>
/// <param name="From">First reading of it.</param>
/// <param name="To">Last reading of it.</param>
/// <param name="Readings">How many.</param>
public sealed record StoodStill(string Series, string Quantity, DateTimeOffset From, DateTimeOffset To, int Readings);

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
        List<StoodStill> leftOut = [];
        var (count, corrected) = (0L, 0L);
        var (first, last) = (long.MaxValue, long.MinValue);
        var sensors = cellar.SeriesAt(place);
        foreach (var series in sensors)
        {
            var corrections = Corrections.At(cellar, place, series);
            var begin = moments.Count;
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

            LeaveOut(moments, begin, series, "temperature", moment => moment.Kelvin, moment => moment with { Kelvin = double.NaN }, leftOut);
            LeaveOut(moments, begin, series, "humidity", moment => moment.Humidity, moment => moment with { Humidity = double.NaN }, leftOut);
        }

        var air = LoggedAir.Of(moments.Where(moment => !double.IsNaN(moment.Kelvin) || !double.IsNaN(moment.Humidity)));
        return new(air, DailyAir.Of(air), count, DateTimeOffset.FromUnixTimeSeconds(first), DateTimeOffset.FromUnixTimeSeconds(last), sensors.Count, corrected, leftOut);
    }

    // What a stuck sensor says is no air: the year of the place does not rest on it.
    private static void LeaveOut(
        List<LoggedMoment> moments, int begin, string series, string quantity, Func<LoggedMoment, double> of, Func<LoggedMoment, LoggedMoment> without, List<StoodStill> leftOut)
    {
        var count = moments.Count - begin;
        var (seconds, values) = (new double[count], new double[count]);
        for (var n = 0; n < count; n++)
            (seconds[n], values[n]) = (moments[begin + n].Seconds, of(moments[begin + n]));
        foreach (var stretch in Standstill.In(seconds, values))
        {
            for (var n = Array.BinarySearch(seconds, stretch.FromSeconds); n < count && seconds[n] <= stretch.ToSeconds; n++)
                moments[begin + n] = without(moments[begin + n]);
            leftOut.Add(new(series, quantity, DateTimeOffset.FromUnixTimeSeconds((long)stretch.FromSeconds), DateTimeOffset.FromUnixTimeSeconds((long)stretch.ToSeconds), stretch.Moments));
        }
    }
}
