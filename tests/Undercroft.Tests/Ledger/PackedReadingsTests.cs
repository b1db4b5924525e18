using Undercroft.Ledger.Readings;
using Undercroft.Ledger.Sqlite;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Ledger;

/// <summary>Readings packed into pieces.</summary>
public sealed class PackedReadingsTests
{
    [Theory]
    [InlineData(1, 5, 60)]
    [InlineData(2, 1, 1)]
    [InlineData(256, 256, 600)] // a byte each
    [InlineData(257, 257, 600)] // two
    [InlineData(PackedReadings.Most, 40, 60)]
    [InlineData(PackedReadings.Most, PackedReadings.Most, 1_000_000)]
    public void Every_bit_comes_back(int count, int different, int longestStep)
    {
        var readings = Some(count, different, longestStep);
        var (bytes, first) = Packed(readings);
        var back = new Reading[count];
        PackedReadings.Read(bytes, first, count, back);
        Assert.Equal(readings, back);
    }

    [Fact]
    public void A_steady_logger_takes_three_bytes_a_reading()
    {
        Reading[] readings = [.. Enumerable.Range(0, PackedReadings.Most).Select(i => new Reading(60L * i, new Temperature(290 + (i % 50 / 10d)), new RelativeHumidity((50 + (i % 20)) / 100d)))];
        Assert.InRange(Packed(readings).Bytes.Length, 1, 3 * PackedReadings.Most);
    }

    [Fact]
    public void A_piece_that_is_not_whole_is_told_and_nothing_else_happens()
    {
        var (bytes, first) = Packed(Some(300, 270, 90));
        var into = new Reading[PackedReadings.Most];
        for (var length = 0; length < bytes.Length; length++)
            Assert.Throws<InvalidDataException>(() => PackedReadings.Read(bytes.AsSpan(0, length), first, 300, into));
        Assert.Throws<InvalidDataException>(() => PackedReadings.Read([.. bytes, 0], first, 300, into));
        Assert.Throws<InvalidDataException>(() => PackedReadings.Read(bytes, first, 299, into));
        Assert.Throws<InvalidDataException>(() => PackedReadings.Read(bytes, first, int.MaxValue, into));
        Assert.Throws<InvalidDataException>(() => PackedReadings.Read(bytes, long.MaxValue, 300, into));
        Assert.Throws<InvalidDataException>(() => PackedReadings.Read(bytes, Reading.Latest, 300, into));
        var told = 0;
        for (var bit = 0; bit < 8 * bytes.Length; bit++)
        {
            var flipped = (byte[])bytes.Clone();
            flipped[bit / 8] ^= (byte)(1 << (bit % 8));
            try
            {
                PackedReadings.Read(flipped, first, 300, into);
            }
            catch (InvalidDataException)
            {
                told++;
            }
        }

        Assert.InRange(told, 100, (8 * bytes.Length) - 100); // values that changed are found by the seal
    }

    private static (byte[] Bytes, long First) Packed(Reading[] readings)
    {
        var packed = new PackedReadings();
        for (var row = 0; row < readings.Length; row++)
            Assert.Equal(row + 1 == PackedReadings.Most, packed.Add(readings[row]));
        Assert.Equal((readings.Length, readings[0].UtcSeconds, readings[^1].UtcSeconds), (packed.Count, packed.First, packed.Last));
        var first = packed.First;
        return (packed.Bytes().ToArray(), first);
    }

    private static Reading[] Some(int count, int different, int longestStep)
    {
        var random = new Random(count + different);
        var at = Reading.Earliest;
        return [.. Enumerable.Range(0, count).Select(i => new Reading(
            at += random.Next(1, longestStep + 1), new Temperature(250 + (random.Next(different) * Math.PI)), random.Next(3) == 0 ? null : new RelativeHumidity(random.NextDouble()),
            i % 5 == 0 ? new Pressure(101_325 + i) : null, i % 7 == 0 ? 0 : null))];
    }
}
