using System.Buffers;
using System.Globalization;

namespace Undercroft.Ledger.Readings;

/// <summary>Writes readings as the lines of <see cref="ReadingLines"/>. A sensor says few different values and many instants of one day: their text is made once and copied.</summary>
internal sealed class ReadingLineText
{
    private const int Longest = 160;
    private const int Width = 32;
    private const int SlotBits = 10;

    private static readonly int FirstDay = new DateOnly(1900, 1, 1).DayNumber;

    private readonly ulong[] known = new ulong[1 << SlotBits];
    private readonly byte[] lengths = new byte[1 << SlotBits];
    private readonly byte[] texts = new byte[Width << SlotBits];
    private readonly byte[] date = new byte[11];
    private long day = long.MinValue;

    /// <summary>Writes one line.</summary>
    internal void Write(ArrayBufferWriter<byte> buffer, in Reading reading)
    {
        var span = buffer.GetSpan(Longest);
        Instant(span, reading.UtcSeconds);
        var at = 20;
        Number(span, ref at, reading.Kelvin);
        Number(span, ref at, reading.HumidityFraction);
        Number(span, ref at, reading.Pascals);
        Number(span, ref at, reading.Lux);
        span[at++] = (byte)'\n';
        buffer.Advance(at);
    }

    private void Instant(Span<byte> span, long utcSeconds)
    {
        var now = Math.DivRem(utcSeconds - Reading.Earliest, 86_400L, out var second);
        if (now != day)
        {
            var (year, month, number) = DateOnly.FromDayNumber((int)now + FirstDay);
            Digits(date, 0, year, 4);
            date[4] = (byte)'-';
            Digits(date, 5, month, 2);
            date[7] = (byte)'-';
            Digits(date, 8, number, 2);
            date[10] = (byte)'T';
            day = now;
        }

        date.CopyTo(span);
        Digits(span, 11, (int)second / 3600, 2);
        span[13] = (byte)':';
        Digits(span, 14, (int)second / 60 % 60, 2);
        span[16] = (byte)':';
        Digits(span, 17, (int)second % 60, 2);
        span[19] = (byte)'Z';
    }

    private static void Digits(Span<byte> span, int at, int value, int count)
    {
        for (var i = at + count - 1; i >= at; i--, value /= 10)
            span[i] = (byte)('0' + (value % 10));
    }

    private void Number(Span<byte> span, ref int at, double value)
    {
        span[at++] = (byte)',';
        if (double.IsNaN(value))
            return;
        var bits = BitConverter.DoubleToUInt64Bits(value);
        var slot = (int)((bits * 0x9E37_79B9_7F4A_7C15) >> (64 - SlotBits));
        var text = texts.AsSpan(slot * Width, Width);
        if (known[slot] != bits || lengths[slot] == 0)
        {
            value.TryFormat(text, out var written, "R", CultureInfo.InvariantCulture);
            (known[slot], lengths[slot]) = (bits, (byte)written);
        }

        text[..lengths[slot]].CopyTo(span[at..]);
        at += lengths[slot];
    }
}
