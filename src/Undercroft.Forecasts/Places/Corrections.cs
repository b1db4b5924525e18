using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Places;

/// <summary>The corrections of a place's hygrometer, each from the day of its check until the next.</summary>
/// <param name="Steps">Oldest first.</param>
public sealed record Corrections(IReadOnlyList<(DateOnly From, HygrometerCorrection Correction)> Steps)
{
    private readonly long[] seconds = [.. Steps.Select(step => new DateTimeOffset(step.From, TimeOnly.MinValue, TimeSpan.Zero).ToUnixTimeSeconds())];

    /// <summary>Those of a place and sensor; null where none was written.</summary>
    /// <param name="cellar">As seen.</param>
    /// <param name="place">The place itself.</param>
    /// <param name="series">The sensor; null or empty for the one without a name.</param>
    public static Corrections? At(Cellar cellar, PlaceId place, string? series)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var name = (series ?? "").Trim();
        var steps = cellar.HygrometerChecks
            .Where(check => check.Fact.Place == place && (check.Fact.Series ?? "").Trim() == name && check.Fact.Gain is not null && check.Fact.OffsetFraction is not null)
            .Select(check => (From: check.Day, new HygrometerCorrection(check.Fact.Gain!.Value, check.Fact.OffsetFraction!.Value)))
            .OrderBy(step => step.From).ToList();
        return steps.Count == 0 ? null : new(steps);
    }

    /// <summary>True where a check was made on the day of an instant or before.</summary>
    /// <param name="utcSeconds">Seconds since 1970.</param>
    public bool HoldAt(long utcSeconds) => utcSeconds >= seconds[0];

    /// <summary>True humidity of what was shown at an instant: readings before the first check stay as shown.</summary>
    /// <param name="utcSeconds">Seconds since 1970.</param>
    /// <param name="fraction">As shown; not a number stays so.</param>
    public double True(long utcSeconds, double fraction)
    {
        if (double.IsNaN(fraction))
            return fraction;
        var step = seconds.Length - 1;
        while (step >= 0 && seconds[step] > utcSeconds)
            step--;
        return step < 0 ? fraction : Steps[step].Correction.Correct(new RelativeHumidity(fraction)).Fraction;
    }
}
