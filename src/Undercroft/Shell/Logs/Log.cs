using Undercroft.Physics.Quantities;

namespace Undercroft.Shell.Logs;

/// <summary>One figure of a log in SI units; not a number inside where nothing was noted.</summary>
/// <param name="UtcSeconds">Seconds since 1970-01-01T00:00:00Z.</param>
/// <param name="Kelvin">Air temperature.</param>
/// <param name="Humidity">Relative humidity over liquid water, 0 to 1.</param>
/// <param name="Pascals">Air pressure.</param>
/// <param name="Lux">Illuminance.</param>
public readonly record struct LogRow(long UtcSeconds, double Kelvin, double Humidity, double Pascals, double Lux)
{
    /// <summary>In °C; not a number where not noted.</summary>
    public double Celsius => Kelvin - Temperature.ZeroCelsius;
}

/// <summary>What was found and assumed while a log was read, for people.</summary>
/// <param name="Encoding">Of the letters.</param>
/// <param name="Separator">Between cells.</param>
/// <param name="Columns">What is read, and from which heading.</param>
/// <param name="Unit">Of temperature as read; null where there is none.</param>
/// <param name="Order">Of dates, where they leave it open; null where they do not.</param>
/// <param name="Zone">In which times were read; null where the file's rows say it.</param>
/// <param name="Sensor">Which was chosen; null where there is one.</param>
public sealed record LogForm(string Encoding, string Separator, IReadOnlyList<LogFormColumn> Columns, string? Unit, string? Order, string? Zone, string? Sensor);

/// <summary>A column as it was understood.</summary>
/// <param name="Meaning">temperature, humidity, …</param>
/// <param name="Heading">As it stands, or the number of the column.</param>
public sealed record LogFormColumn(string Meaning, string Heading);

/// <summary>A log as it was read: rows of different instants, oldest first, in columns.</summary>
public sealed class Log
{
    private readonly long[] seconds;
    private readonly double[] kelvin;
    private readonly double[] humidity;
    private readonly double[]? pascals;
    private readonly double[]? lux;

    internal Log(long[] seconds, double[] kelvin, double[] humidity, double[]? pascals, double[]? lux, int count)
    {
        (this.seconds, this.kelvin, this.humidity, this.pascals, this.lux) = (seconds, kelvin, humidity, pascals, lux);
        Count = count;
    }

    /// <summary>Rows.</summary>
    public int Count { get; }

    /// <summary>A row.</summary>
    public LogRow this[int index] => new(seconds[index], kelvin[index], humidity[index], pascals is null ? double.NaN : pascals[index], lux is null ? double.NaN : lux[index]);

    /// <summary>Rows below the header that are not blank.</summary>
    public required int RowsRead { get; init; }

    /// <summary>Rows of an instant that stands in the file before.</summary>
    public required int Repeated { get; init; }

    /// <summary>Of them with other values.</summary>
    public required int Contradicted { get; init; }

    /// <summary>Rows that could not be read or could not be so.</summary>
    public required int Rejected { get; init; }

    /// <summary>How the file is written.</summary>
    public required LogForm Form { get; init; }

    /// <summary>What was assumed, left out or looks odd, in sentences.</summary>
    public required IReadOnlyList<string> Notes { get; init; }

    /// <summary>Usual seconds between rows; 0 for a single one.</summary>
    public required long Interval { get; init; }

    /// <summary>Seconds since 1970, oldest first.</summary>
    public ReadOnlySpan<long> Seconds => seconds.AsSpan(0, Count);

    /// <summary>In K.</summary>
    public ReadOnlySpan<double> Kelvin => kelvin.AsSpan(0, Count);

    /// <summary>0 to 1.</summary>
    public ReadOnlySpan<double> Humidity => humidity.AsSpan(0, Count);
}
