using System.Buffers.Binary;
using System.Numerics;
using Undercroft.Ledger.Readings;

namespace Undercroft.Ledger.Sqlite;

/// <summary>
/// Up to <see cref="Most"/> readings of different instants, oldest first, in one piece of bytes: the steps between instants, then each quantity as its different values and which of them each reading has.
/// A sensor says few different values in a few days, so three bytes hold a reading where plain numbers took thirty-five, and every bit comes back.
/// </summary>
/// <remarks>
/// Little-endian. Steps stand as pairs of variable-length numbers, the step in seconds and how often it comes; the first instant stands beside the bytes. Each of the four quantities has the number of its
/// different values (two bytes), these values (eight each, not a number where nothing was noted), and, where there is more than one, the place of each reading's value among them: a byte each up to 256 values, else two.
/// </remarks>
internal sealed class PackedReadings
{
    /// <summary>Readings in one piece.</summary>
    internal const int Most = 2048;

    private const int Quantities = 4;
    private const int Slots = 2 * Most;

    private readonly long[] seconds = new long[Most];
    private readonly double[][] values = [new double[Most], new double[Most], new double[Most], new double[Most]];
    private readonly ushort[] slots = new ushort[Slots];
    private readonly ulong[] different = new ulong[Most];
    private readonly ushort[] places = new ushort[Most];
    private readonly byte[] bytes = new byte[(Most * 10) + (Quantities * (2 + (Most * 10)))];

    /// <summary>Readings held.</summary>
    internal int Count { get; private set; }

    /// <summary>First instant.</summary>
    internal long First => seconds[0];

    /// <summary>Last instant.</summary>
    internal long Last => seconds[Count - 1];

    /// <summary>Takes one that is later than the last.</summary>
    /// <returns>True once no more find room.</returns>
    internal bool Add(in Reading reading)
    {
        seconds[Count] = reading.UtcSeconds;
        values[0][Count] = reading.Kelvin;
        values[1][Count] = reading.HumidityFraction;
        values[2][Count] = reading.Pascals;
        values[3][Count] = reading.Lux;
        return ++Count == Most;
    }

    /// <summary>What was taken as bytes, which are gone with the next call; takes from the beginning again.</summary>
    internal ReadOnlySpan<byte> Bytes()
    {
        var at = 0;
        for (var row = 1; row < Count;)
        {
            var step = seconds[row] - seconds[row - 1];
            var times = 1;
            while (row + times < Count && seconds[row + times] - seconds[row + times - 1] == step)
                times++;
            Number(ref at, (ulong)step);
            Number(ref at, (ulong)times);
            row += times;
        }

        foreach (var quantity in values)
            Pack(quantity.AsSpan(0, Count), ref at);
        Count = 0;
        return bytes.AsSpan(0, at);
    }

    /// <summary>Reads what <see cref="Bytes"/> gave.</summary>
    /// <param name="from">The bytes.</param>
    /// <param name="first">First instant.</param>
    /// <param name="count">How many readings they hold.</param>
    /// <param name="into">At least <paramref name="count"/> long.</param>
    /// <exception cref="InvalidDataException">They are not whole.</exception>
    internal static void Read(ReadOnlySpan<byte> from, long first, int count, Span<Reading> into)
    {
        if (count is < 1 or > Most || first is < Reading.Earliest or > Reading.Latest)
            throw Broken();
        Span<long> at = stackalloc long[count];
        at[0] = first;
        for (var row = 1; row < count;)
        {
            var (step, times) = (Number(ref from), Number(ref from));
            if (step is 0 or > long.MaxValue >> 16 || times == 0 || times > (ulong)(count - row))
                throw Broken();
            for (; times > 0; times--, row++)
                at[row] = at[row - 1] + (long)step;
        }

        if (at[count - 1] > Reading.Latest)
            throw Broken();
        var kelvin = new Column(ref from, count);
        var humidity = new Column(ref from, count);
        var pascals = new Column(ref from, count);
        var lux = new Column(ref from, count);
        if (!from.IsEmpty)
            throw Broken();
        for (var row = 0; row < count; row++)
            into[row] = new Reading(at[row], kelvin[row], humidity[row], pascals[row], lux[row]);
    }

    private void Pack(ReadOnlySpan<double> quantity, ref int at)
    {
        Array.Clear(slots);
        var found = 0;
        ulong before = 0;
        for (var row = 0; row < quantity.Length; row++)
        {
            var bits = BitConverter.DoubleToUInt64Bits(quantity[row]);
            if (row > 0 && bits == before)
            {
                places[row] = places[row - 1];
                continue;
            }

            before = bits;
            var slot = (int)((bits * 0x9E37_79B9_7F4A_7C15) >> (64 - BitOperations.Log2(Slots)));
            while (slots[slot] != 0 && different[slots[slot] - 1] != bits)
                slot = (slot + 1) & (Slots - 1);
            if (slots[slot] == 0)
            {
                different[found++] = bits;
                slots[slot] = (ushort)found;
            }

            places[row] = (ushort)(slots[slot] - 1);
        }

        BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(at), (ushort)found);
        at += 2;
        for (var value = 0; value < found; value++, at += 8)
            BinaryPrimitives.WriteUInt64LittleEndian(bytes.AsSpan(at), different[value]);
        if (found == 1)
            return;
        for (var row = 0; row < quantity.Length; row++)
        {
            if (found > 256)
                BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(at), places[row]);
            else
                bytes[at] = (byte)places[row];
            at += found > 256 ? 2 : 1;
        }
    }

    private void Number(ref int at, ulong number)
    {
        for (; number >= 0x80; number >>= 7)
            bytes[at++] = (byte)(number | 0x80);
        bytes[at++] = (byte)number;
    }

    private static ulong Number(ref ReadOnlySpan<byte> from)
    {
        ulong number = 0;
        for (var shift = 0; shift < 63; shift += 7)
        {
            if (from.IsEmpty)
                throw Broken();
            var part = from[0];
            from = from[1..];
            number |= (ulong)(part & 0x7F) << shift;
            if (part < 0x80)
                return number;
        }

        throw Broken();
    }

    private static InvalidDataException Broken() => new("a piece of the readings is damaged.");

    private readonly ref struct Column
    {
        private readonly ReadOnlySpan<byte> different;
        private readonly ReadOnlySpan<byte> places;
        private readonly int values;

        internal Column(ref ReadOnlySpan<byte> from, int count)
        {
            values = from.Length < 2 ? 0 : BinaryPrimitives.ReadUInt16LittleEndian(from);
            var width = values > 256 ? 2 : values > 1 ? 1 : 0;
            if (values == 0 || values > count || from.Length < 2 + (8 * values) + (width * count))
                throw Broken();
            different = from.Slice(2, 8 * values);
            places = from.Slice(2 + (8 * values), width * count);
            from = from[(2 + (8 * values) + (width * count))..];
        }

        internal double this[int row]
        {
            get
            {
                var place = values > 256 ? BinaryPrimitives.ReadUInt16LittleEndian(places[(2 * row)..]) : values > 1 ? places[row] : 0;
                return place < values ? BinaryPrimitives.ReadDoubleLittleEndian(different[(8 * place)..]) : throw Broken();
            }
        }
    }
}
