using System.Globalization;
using Undercroft.Forecasts.Places;
using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Readings;
using Undercroft.Physics.Climate;
using Undercroft.Shell;
using Undercroft.Shell.Logs;

namespace Undercroft.Places.Logging;

/// <summary>How a sensor of a place stands, judged by its own interval.</summary>
/// <param name="Place">Path of the place.</param>
/// <param name="Sensor">Its name; null for the one without.</param>
/// <param name="State"><c>current</c>, <c>stale</c>, <c>stuck</c>, or <c>ahead</c> where its clock runs more than a day before the present.</param>
/// <param name="Verdict">First line.</param>
/// <param name="LastUtc">Last reading.</param>
/// <param name="AgeSeconds">Since then.</param>
/// <param name="IntervalSeconds">Usual step between its readings; null for a single one.</param>
/// <param name="Readings">How many.</param>
/// <param name="CorrectedSince">Day of the correction in force; null where none is.</param>
public sealed record SensorState(
    string Place, string? Sensor, string State, string Verdict, string LastUtc, long AgeSeconds, long? IntervalSeconds, long Readings, string? CorrectedSince);

/// <summary>Which sensors still speak.</summary>
public static class Sensors
{
    private const int Looked = 4000;

    /// <summary>The sensors that a place rests on: its own, else those of the nearest place around it that has some.</summary>
    /// <param name="cellars">Where their readings lie.</param>
    /// <param name="cellar">As read.</param>
    /// <param name="place">Which.</param>
    /// <param name="now">The present.</param>
    /// <param name="cancellation">Stops waiting.</param>
    public static async ValueTask<IReadOnlyList<SensorState>> Behind(ICellars cellars, Cellar cellar, PlaceId place, DateTimeOffset now, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        return cellar.Outwards(place).FirstOrDefault(here => cellar.SeriesAt(here.Id).Count > 0) is { } logged
            ? await Of(cellars, cellar, logged.Id.ToString(), now, cancellation) : [];
    }

    /// <summary>The instant as of which sensors are judged: noon of the day that is looked back to, else the present.</summary>
    public static DateTimeOffset NowOf(View view, Present present) => view.AsOf is { } day ? Present.Noon(day) : (present ?? throw new ArgumentNullException(nameof(present))).Now;

    /// <summary>The sensors of one place, or of all.</summary>
    /// <param name="cellars">Where their readings lie.</param>
    /// <param name="cellar">As read.</param>
    /// <param name="place">ID, name or path; null for all.</param>
    /// <param name="now">The present.</param>
    /// <exception cref="Refusal">No such place.</exception>
    public static async ValueTask<IReadOnlyList<SensorState>> Of(ICellars cellars, Cellar cellar, string? place, DateTimeOffset now, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(cellar);
        var places = place is null ? cellar.Places.Keys.OrderBy(id => cellar.PathOf(id), NameOrder.Instance).ToList() : [cellar.FindPlace(place).Id];
        var states = new List<SensorState>();
        foreach (var id in places)
        {
            foreach (var series in cellar.SeriesAt(id))
            {
                if (await StateOf(cellars, cellar, id, series, now, cancellation) is { } state)
                    states.Add(state);
            }
        }

        return states;
    }

    private static async ValueTask<SensorState?> StateOf(ICellars cellars, Cellar cellar, PlaceId place, string series, DateTimeOffset now, CancellationToken cancellation)
    {
        var whole = cellar.ReadingsOf(place, series);
        var parts = whole.Parts.Where(part => part.FirstUtc <= whole.ToUtc).ToList();
        if (parts.Count == 0)
            return null;
        var last = parts.MaxBy(part => Math.Min(part.LastUtc, whole.ToUtc));
        // Enough of its end to know the interval and whether it still moves.
        var mean = last.Count > 1 ? (double)(last.LastUtc - last.FirstUtc) / (last.Count - 1) : 0;
        var from = DateTimeOffset.FromUnixTimeSeconds(Math.Min(last.LastUtc, whole.ToUtc)) - TimeSpan.FromSeconds(Math.Max(Looked * mean, 3 * Standstill.LeastSeconds));
        var readings = await cellars.AllReadingsAsync(cellar.ReadingsOf(place, series, from), cancellation);
        if (readings.Count == 0)
            return null;
        var interval = Steps.Usual([.. readings.Select(reading => reading.UtcSeconds)]);
        var age = now.ToUnixTimeSeconds() - readings[^1].UtcSeconds;
        var stuck = Stuck(readings);
        var state = age < -86_400 ? "ahead" : stuck is not null ? "stuck" : interval > 0 && age > Oddities.GapIntervals * interval ? "stale" : interval == 0 ? "stale" : "current";
        var usual = interval > 0 ? $"usual interval {Oddities.Span(interval)}" : "one reading alone";
        var verdict = state switch
        {
            "ahead" => $"Ahead: its last reading lies {Oddities.Span(-age)} in the future. Its clock is wrong, or day and month were taken the other way round; nothing tells whether it still runs.",
            "stuck" => $"Stuck: its {stuck} has not moved for two days or more at the end; last reading {Oddities.Span(age)} ago, {usual}. Look at the sensor.",
            "stale" => $"Stale: last reading {Oddities.Span(age)} ago; {usual}. Fetch its file, or look whether it still runs.",
            _ => $"Current: last reading {Oddities.Span(Math.Max(0, age))} ago; {usual}.",
        };
        var correction = Corrections.At(cellar, place, series.Length == 0 ? null : series);
        return new(
            cellar.PathOf(place)!, series.Length == 0 ? null : series, state, verdict, readings[^1].At.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture), age, interval > 0 ? interval : null,
            await Count(cellars, parts, whole.ToUtc, cancellation), correction?.Steps[^1].From.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
    }

    /// <summary>How many readings lie in view: a batch that reaches beyond the day as of which the cellar is seen is counted one by one.</summary>
    private static async ValueTask<long> Count(ICellars cellars, IReadOnlyList<ReadingPart> parts, long to, CancellationToken cancellation)
    {
        var count = parts.Where(part => part.LastUtc <= to).Sum(part => part.Count);
        foreach (var part in parts.Where(part => part.LastUtc > to))
        {
            await foreach (var _ in cellars.ReadingsAsync(new ReadingSpan([part], ToUtc: to), cancellation))
                count++;
        }

        return count;
    }

    private static string? Stuck(IReadOnlyList<Reading> readings) =>
        StandsStill(readings, reading => reading.Kelvin) ? "temperature" : StandsStill(readings, reading => reading.HumidityFraction) ? "humidity" : null;

    private static bool StandsStill(IReadOnlyList<Reading> readings, Func<Reading, double> value)
    {
        var known = readings.Where(reading => !double.IsNaN(value(reading))).ToList();
        if (known.Count < Standstill.LeastMoments)
            return false;
        var start = known.Count - 1;
        while (start > 0 && value(known[start - 1]) == value(known[^1]))
            start--;
        return known[^1].UtcSeconds - known[start].UtcSeconds >= Standstill.LeastSeconds && known.Count - start >= Standstill.LeastMoments;
    }
}
