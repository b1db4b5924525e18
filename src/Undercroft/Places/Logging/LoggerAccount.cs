using System.Globalization;
using Undercroft.Forecasts.Places;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Shell.Logs;

namespace Undercroft.Places.Logging;

/// <summary>A reading as it was understood.</summary>
/// <param name="Utc">Instant.</param>
/// <param name="C">Temperature; null where not noted.</param>
/// <param name="HumidityPct">Relative humidity as shown; null where not noted.</param>
/// <param name="KPa">Air pressure; null where not noted.</param>
/// <param name="Lux">Illuminance; null where not noted.</param>
public sealed record ReadingShown(string Utc, double? C, double? HumidityPct, double? KPa, double? Lux);

/// <summary>What came of a logger's file.</summary>
/// <param name="File">Its name.</param>
/// <param name="Place">Path of the place.</param>
/// <param name="NewPlace">The place as named where it is made for it; null where it was there.</param>
/// <param name="DryRun">True where nothing was written.</param>
/// <param name="AlreadyImported">True where the same file was brought to this place before.</param>
/// <param name="Event">Number of the line that tells of it; null where nothing was written.</param>
/// <param name="RowsRead">Rows below the header that are not blank; with one quantity a row, rows of one time count once.</param>
/// <param name="ReadingsAdded">Readings that were not there.</param>
/// <param name="Duplicates">Rows of an instant that stands in the file or at the place already.</param>
/// <param name="Rejected">Rows that could not be read or could not be so.</param>
/// <param name="FirstUtc">First instant.</param>
/// <param name="LastUtc">Last instant.</param>
/// <param name="IntervalSeconds">Usual step between readings; null for a single one.</param>
/// <param name="MeanC">Of the file, by trapezoids in time, gaps over three intervals left out; null without temperatures.</param>
/// <param name="MeanHumidityPct">Likewise, as shown by the logger.</param>
/// <param name="MeanHumidityCorrectedPct">Likewise, with the corrections that hold at the place; null where there are none.</param>
/// <param name="MeanKineticTemperatureC">With ΔH/R = 10 000 K.</param>
/// <param name="Form">How the file is written, and what is read of it.</param>
/// <param name="Sample">The first readings as understood.</param>
/// <param name="Warnings">What was assumed, left out or looks odd.</param>
public sealed record LoggerAccount(
    string File, string Place, string? NewPlace, bool DryRun, bool AlreadyImported, string? Event, int RowsRead, int ReadingsAdded, int Duplicates, int Rejected, string FirstUtc, string LastUtc,
    long? IntervalSeconds, double? MeanC, double? MeanHumidityPct, double? MeanHumidityCorrectedPct, double? MeanKineticTemperatureC, LogForm Form, IReadOnlyList<ReadingShown> Sample,
    IReadOnlyList<string> Warnings)
{
    private const int Shown = 8;

    internal static LoggerAccount Of(
        LoggerRequest request, Log log, LogFigures figures, Place? place, string? newPlace, int added, int known, bool alreadyImported, CellarEvent? written = null, Corrections? correction = null, int differing = 0)
    {
        var warnings = log.Notes.ToList();
        if (newPlace is not null)
            warnings.Add($"'{newPlace}' is a new place{(request.DryRun ? " and would be made" : "")}.");
        if (differing > 0)
            warnings.Add($"{differing.ToString(CultureInfo.InvariantCulture)} readings stand at the place with other values already; the earlier ones count.");
        if (alreadyImported)
            warnings.Add("This file was brought to this place before: nothing is added.");
        return new(
            request.Source.Name, place?.Name ?? request.Place.Trim(), newPlace, request.DryRun, alreadyImported, written?.Version.ToString(CultureInfo.InvariantCulture),
            log.RowsRead, added, log.Repeated + known, log.Rejected, Utc(log.Seconds[0]), Utc(log.Seconds[^1]), log.Interval > 0 ? log.Interval : null,
            figures.MeanC, figures.MeanHumidityPct, correction is null ? null : LogFigures.Of(log, correction.True).MeanHumidityPct, figures.MeanKineticTemperatureC, log.Form, [.. Enumerable.Range(0, Math.Min(Shown, log.Count)).Select(row => Of(log[row]))], warnings);
    }

    private static ReadingShown Of(LogRow row)
    {
        double? Known(double value) => double.IsNaN(value) ? null : value;
        return new(Utc(row.UtcSeconds), Known(row.Celsius) is { } celsius ? Math.Round(celsius, 6) : null, Known(100 * row.Humidity), Known(row.Pascals / 1000), Known(row.Lux));
    }

    private static string Utc(long seconds) => DateTimeOffset.FromUnixTimeSeconds(seconds).ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
