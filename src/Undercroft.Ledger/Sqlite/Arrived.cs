using Undercroft.Ledger.Readings;

namespace Undercroft.Ledger.Sqlite;

/// <summary>A piece of a batch as it lies in the file.</summary>
internal readonly record struct ReadingPiece(long FirstUtc, long LastUtc, int Count, byte[] Packed);

/// <summary>The readings of a batch as they came: packed in order of time, one an instant, and sealed.</summary>
internal sealed record Arrived(List<ReadingPiece> Pieces, long Count, long Repeated, long Contradicted, string Sha256)
{
    private const int Looked = 0xFFF;

    /// <summary>Takes all readings of a batch. Those that come out of order are sorted; of several of one instant the first counts.</summary>
    /// <exception cref="ArgumentException">One notes nothing.</exception>
    internal static Arrived Of(ReadingBatch batch, CancellationToken cancellation)
    {
        using var stream = Checked(batch, cancellation).GetEnumerator();
        using var sealing = new SealBeside();
        var taking = new Taking(sealing);
        while (stream.MoveNext())
        {
            if (!taking.Add(stream.Current))
                return Sorted(taking, stream);
        }

        return taking.Done(0, 0);
    }

    /// <summary>Packs readings that come in order of time.</summary>
    internal static IEnumerable<ReadingPiece> Packed(IEnumerable<Reading> readings)
    {
        var open = new PackedReadings();
        foreach (var reading in readings)
        {
            if (open.Add(reading))
                yield return Piece(open);
        }

        if (open.Count > 0)
            yield return Piece(open);
    }

    private static ReadingPiece Piece(PackedReadings open)
    {
        var (first, last, count) = (open.First, open.Last, open.Count);
        return new(first, last, count, open.Bytes().ToArray());
    }

    private static IEnumerable<Reading> Checked(ReadingBatch batch, CancellationToken cancellation)
    {
        var passed = 0;
        foreach (var reading in batch.Readings)
        {
            if ((passed++ & Looked) == 0)
                cancellation.ThrowIfCancellationRequested();
            if (double.IsNaN(reading.Kelvin) && double.IsNaN(reading.HumidityFraction) && double.IsNaN(reading.Pascals) && double.IsNaN(reading.Lux))
                throw new ArgumentException("A reading notes at least one value.", nameof(batch));
            yield return reading;
        }
    }

    private static Arrived Sorted(Taking taking, IEnumerator<Reading> stream)
    {
        List<Reading> all = [.. taking.Unpacked()];
        do
            all.Add(stream.Current);
        while (stream.MoveNext());
        var (repeated, contradicted) = (0L, 0L);
        using var sealing = new SealBeside();
        var again = new Taking(sealing);
        Reading last = default;
        foreach (var reading in all.OrderBy(one => one.UtcSeconds))
        {
            if (again.Add(reading))
                last = reading;
            else if (last == reading)
                repeated++;
            else
                contradicted++;
        }

        return again.Done(repeated, contradicted);
    }

    private sealed class Taking(SealBeside sealing)
    {
        private readonly List<ReadingPiece> pieces = [];
        private readonly PackedReadings open = new();
        private long count;
        private long last = long.MinValue;

        // False where it is not later than the last one.
        internal bool Add(in Reading reading)
        {
            if (reading.UtcSeconds <= last)
                return false;
            last = reading.UtcSeconds;
            count++;
            sealing.Add(reading);
            if (open.Add(reading))
                pieces.Add(Piece(open));
            return true;
        }

        internal IEnumerable<Reading> Unpacked()
        {
            Close();
            var piece = new Reading[PackedReadings.Most];
            foreach (var (first, _, held, packed) in pieces)
            {
                PackedReadings.Read(packed, first, held, piece);
                for (var row = 0; row < held; row++)
                    yield return piece[row];
            }
        }

        internal Arrived Done(long repeated, long contradicted)
        {
            Close();
            return new(pieces, count, repeated, contradicted, sealing.Done());
        }

        private void Close()
        {
            if (open.Count > 0)
                pieces.Add(Piece(open));
        }
    }
}
