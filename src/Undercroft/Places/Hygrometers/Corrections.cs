using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Readings;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;
using Undercroft.Shell.Logs;

namespace Undercroft.Places.Hygrometers;

/// <summary>The corrections of a place's hygrometer, each from the day of its check until the next.</summary>
/// <param name="Steps">Oldest first.</param>
public sealed record Corrections(IReadOnlyList<(DateOnly From, HygrometerCorrection Correction)> Steps)
{
    /// <summary>Those of a place and sensor; null where none was written.</summary>
    /// <param name="cellar">As seen.</param>
    /// <param name="place">The place itself.</param>
    /// <param name="series">The sensor; null for the one without a name.</param>
    public static Corrections? At(Cellar cellar, PlaceId place, string? series)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var steps = cellar.HygrometerChecks
            .Where(check => check.Fact.Place == place && (check.Fact.Series ?? "") == (series ?? "") && check.Fact.Gain is not null && check.Fact.OffsetFraction is not null)
            .Select(check => (From: check.Day, new HygrometerCorrection(check.Fact.Gain!.Value, check.Fact.OffsetFraction!.Value)))
            .OrderBy(step => step.From).ToList();
        return steps.Count == 0 ? null : new(steps);
    }

    /// <summary>True humidity of what was shown at an instant: readings before the first check stay as shown.</summary>
    /// <param name="utcSeconds">Seconds since 1970.</param>
    /// <param name="fraction">As shown; not a number stays so.</param>
    public double True(long utcSeconds, double fraction)
    {
        if (double.IsNaN(fraction))
            return fraction;
        var day = DateOnly.FromDateTime(DateTimeOffset.FromUnixTimeSeconds(utcSeconds).UtcDateTime);
        for (var step = Steps.Count - 1; step >= 0; step--)
        {
            if (Steps[step].From <= day)
                return Steps[step].Correction.Correct(new RelativeHumidity(fraction)).Fraction;
        }

        return fraction;
    }

    /// <summary>Readings with their humidity corrected.</summary>
    public IReadOnlyList<Reading> Applied(IReadOnlyList<Reading> readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        return [.. readings.Select(reading => reading.Humidity is { } shown ? new Reading(reading.UtcSeconds, reading.Temperature, new RelativeHumidity(True(reading.UtcSeconds, shown.Fraction)), reading.Pressure, reading.LightLux) : reading)];
    }

    /// <summary>Mean humidity of a log with these corrections, percent; null without humidities.</summary>
    internal double? MeanPct(Log log) => LogFigures.Of(log, True).MeanHumidityPct;
}
