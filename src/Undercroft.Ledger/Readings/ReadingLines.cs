using System.Buffers;
using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Readings;

/// <summary>
/// Readings as lines of text, the form in which they are sealed, backed up and exported whole: UTF-8, a header, then one line a reading in order of time,
/// <c>utc,temperature_k,humidity_fraction,pressure_pa,light_lux</c>; instants as <c>2026-05-01T06:10:00Z</c>, numbers as short as they read back the same, nothing where nothing was
/// noted, a line feed after each line.
/// </summary>
/// <remarks>The digest of a batch is the SHA-256 of exactly these bytes: in a backup, <c>sha256sum</c> of its file.</remarks>
public static class ReadingLines
{
    /// <summary>The first line.</summary>
    public const string Header = "utc,temperature_k,humidity_fraction,pressure_pa,light_lux";

    private const int Whole = 1 << 16;

    /// <summary>Writes the header and a line for each reading.</summary>
    /// <param name="to">Where to.</param>
    /// <param name="readings">In order of time.</param>
    public static void Write(Stream to, IEnumerable<Reading> readings)
    {
        ArgumentNullException.ThrowIfNull(to);
        ArgumentNullException.ThrowIfNull(readings);
        var buffer = new ArrayBufferWriter<byte>(Whole + 256);
        var text = new ReadingLineText();
        Encoding.UTF8.GetBytes(Header + "\n", buffer);
        foreach (var reading in readings)
        {
            text.Write(buffer, reading);
            if (buffer.WrittenCount < Whole)
                continue;
            to.Write(buffer.WrittenSpan);
            buffer.ResetWrittenCount();
        }

        to.Write(buffer.WrittenSpan);
    }

    /// <summary>Reads what <see cref="Write"/> wrote, one at a time.</summary>
    /// <param name="from">Where from; the caller closes it.</param>
    /// <exception cref="InvalidDataException">Not such lines; found while they are read.</exception>
    public static IEnumerable<Reading> Read(Stream from)
    {
        ArgumentNullException.ThrowIfNull(from);
        using var reader = new StreamReader(from, new UTF8Encoding(false, throwOnInvalidBytes: true), detectEncodingFromByteOrderMarks: false, Whole, leaveOpen: true);
        if (reader.ReadLine() != Header)
            throw new InvalidDataException("The readings do not begin with their header.");
        for (var number = 2; reader.ReadLine() is { } line; number++)
            yield return Parse(line, number);
    }

    private static Reading Parse(string line, int number)
    {
        try
        {
            Span<Range> cells = stackalloc Range[6];
            if (line.AsSpan().Split(cells, ',') == 5 && DateTimeOffset.TryParseExact(line.AsSpan()[cells[0]], "yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var at))
            {
                return new Reading(
                    at.ToUnixTimeSeconds(),
                    Value(line.AsSpan()[cells[1]]) is { } kelvin ? new Temperature(kelvin) : null,
                    Value(line.AsSpan()[cells[2]]) is { } fraction ? new RelativeHumidity(fraction) : null,
                    Value(line.AsSpan()[cells[3]]) is { } pascals ? new Pressure(pascals) : null,
                    Value(line.AsSpan()[cells[4]]));
            }
        }
        catch (Exception unfit) when (unfit is FormatException or OverflowException or ArgumentOutOfRangeException)
        {
            throw new InvalidDataException(string.Create(CultureInfo.InvariantCulture, $"Line {number} of the readings is none: {unfit.Message}"), unfit);
        }

        throw new InvalidDataException(string.Create(CultureInfo.InvariantCulture, $"Line {number} of the readings is none."));
    }

    private static double? Value(ReadOnlySpan<char> cell) => cell.IsEmpty ? null : double.Parse(cell, NumberStyles.Float, CultureInfo.InvariantCulture);
}

/// <summary>The digest of readings while they pass by in order of time.</summary>
internal sealed class ReadingSeal : IDisposable
{
    private const int Whole = 1 << 16;
    private readonly IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly ArrayBufferWriter<byte> buffer = new(Whole + 256);
    private readonly ReadingLineText text = new();

    internal ReadingSeal() => Encoding.UTF8.GetBytes(ReadingLines.Header + "\n", buffer);

    internal void Add(in Reading reading)
    {
        text.Write(buffer, reading);
        if (buffer.WrittenCount < Whole)
            return;
        hash.AppendData(buffer.WrittenSpan);
        buffer.ResetWrittenCount();
    }

    internal string Done()
    {
        hash.AppendData(buffer.WrittenSpan);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    public void Dispose() => hash.Dispose();
}

/// <summary>A seal that is worked out on a thread beside the writing, a few thousand readings at a time and in their order.</summary>
internal sealed class SealBeside : IDisposable
{
    private const int Chunk = 1 << 13;
    private const int MostWaiting = 16;
    private readonly ReadingSeal seal = new();
    private readonly BlockingCollection<(Reading[] Readings, int Count)> waiting = new(MostWaiting);
    private readonly Thread beside;
    private Reading[] chunk = new Reading[Chunk];
    private int filled;

    internal SealBeside()
    {
        beside = new Thread(Seal) { IsBackground = true, Name = "seal" };
        beside.Start();
    }

    internal void Add(in Reading reading)
    {
        chunk[filled++] = reading;
        if (filled < Chunk)
            return;
        waiting.Add((chunk, filled));
        (chunk, filled) = (new Reading[Chunk], 0);
    }

    internal string Done()
    {
        waiting.Add((chunk, filled));
        waiting.CompleteAdding();
        beside.Join();
        return seal.Done();
    }

    public void Dispose()
    {
        waiting.CompleteAdding();
        beside.Join();
        seal.Dispose();
        waiting.Dispose();
    }

    private void Seal()
    {
        foreach (var (readings, count) in waiting.GetConsumingEnumerable())
        {
            for (var i = 0; i < count; i++)
                seal.Add(readings[i]);
        }
    }
}
