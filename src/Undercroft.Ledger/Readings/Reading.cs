using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Readings;

/// <summary>What a logger noted at one instant. At least one of its values is known.</summary>
/// <remarks>A small value type of bare SI numbers, since there are millions of them: not-a-number inside where nothing was noted, null at the border.</remarks>
public readonly record struct Reading
{
    /// <summary>The earliest instant that is taken: 1900-01-01.</summary>
    public const long Earliest = -2_208_988_800;

    /// <summary>The latest instant that is taken: the end of 2999.</summary>
    public const long Latest = 32_503_679_999;

    /// <summary>A reading.</summary>
    /// <param name="utcSeconds">Seconds since 1970-01-01T00:00:00Z.</param>
    /// <param name="temperature">Of the air; null where not noted.</param>
    /// <param name="humidity">Over liquid water; null where not noted.</param>
    /// <param name="pressure">Of the air, absolute; null where not noted.</param>
    /// <param name="lightLux">Illuminance in lx; null where not noted.</param>
    /// <exception cref="ArgumentOutOfRangeException">Impossible: not above absolute zero, humidity outside 0 to 1, pressure or light below zero, an instant out of range, or no value at all.</exception>
    public Reading(long utcSeconds, Temperature? temperature, RelativeHumidity? humidity = null, Pressure? pressure = null, double? lightLux = null)
    {
        if (utcSeconds is < Earliest or > Latest)
            throw new ArgumentOutOfRangeException(nameof(utcSeconds), utcSeconds, "An instant lies from 1900 to 2999.");
        if (temperature is { } warmth && !(warmth.Kelvin > 0 && double.IsFinite(warmth.Kelvin)))
            throw new ArgumentOutOfRangeException(nameof(temperature), warmth.Kelvin, "A temperature is above 0 K.");
        if (humidity is { } damp && !(damp.Fraction is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(humidity), damp.Fraction, "Humidity lies from 0 to 1.");
        if (pressure is { } air && !(air.Pascals >= 0 && double.IsFinite(air.Pascals)))
            throw new ArgumentOutOfRangeException(nameof(pressure), air.Pascals, "Air pressure is not below 0 Pa.");
        if (lightLux is { } light && !(light >= 0 && double.IsFinite(light)))
            throw new ArgumentOutOfRangeException(nameof(lightLux), light, "Light is not below 0 lx.");
        if (temperature is null && humidity is null && pressure is null && lightLux is null)
            throw new ArgumentOutOfRangeException(nameof(temperature), "A reading notes at least one value.");
        UtcSeconds = utcSeconds;
        Kelvin = temperature?.Kelvin ?? double.NaN;
        HumidityFraction = (humidity?.Fraction ?? double.NaN) + 0.0; // -0 becomes 0
        Pascals = (pressure?.Pascals ?? double.NaN) + 0.0;
        Lux = (lightLux ?? double.NaN) + 0.0;
    }

    internal Reading(long utcSeconds, double kelvin, double humidityFraction, double pascals, double lux)
    {
        UtcSeconds = utcSeconds;
        Kelvin = kelvin;
        HumidityFraction = humidityFraction;
        Pascals = pascals;
        Lux = lux;
    }

    /// <summary>Seconds since 1970-01-01T00:00:00Z.</summary>
    public long UtcSeconds { get; }

    /// <summary>Temperature in K; not a number where not noted.</summary>
    public double Kelvin { get; }

    /// <summary>Relative humidity over liquid water, 0 to 1; not a number where not noted.</summary>
    public double HumidityFraction { get; }

    /// <summary>Air pressure in Pa; not a number where not noted.</summary>
    public double Pascals { get; }

    /// <summary>Illuminance in lx; not a number where not noted.</summary>
    public double Lux { get; }

    /// <summary>The instant.</summary>
    public DateTimeOffset At => DateTimeOffset.FromUnixTimeSeconds(UtcSeconds);

    /// <summary>Of the air; null where not noted.</summary>
    public Temperature? Temperature => double.IsNaN(Kelvin) ? null : new Temperature(Kelvin);

    /// <summary>Over liquid water; null where not noted.</summary>
    public RelativeHumidity? Humidity => double.IsNaN(HumidityFraction) ? null : new RelativeHumidity(HumidityFraction);

    /// <summary>Of the air, absolute; null where not noted.</summary>
    public Pressure? Pressure => double.IsNaN(Pascals) ? null : new Pressure(Pascals);

    /// <summary>Illuminance in lx; null where not noted.</summary>
    public double? LightLux => double.IsNaN(Lux) ? null : Lux;

    /// <summary>This reading, with what it lacks filled in from another of the same instant: thermometer and hygrometer may write files of their own.</summary>
    /// <param name="other">Counts only where this one notes nothing.</param>
    public Reading FilledFrom(Reading other) => new(
        UtcSeconds, Or(Kelvin, other.Kelvin), Or(HumidityFraction, other.HumidityFraction), Or(Pascals, other.Pascals), Or(Lux, other.Lux));

    private static double Or(double value, double other) => double.IsNaN(value) ? other : value;
}
