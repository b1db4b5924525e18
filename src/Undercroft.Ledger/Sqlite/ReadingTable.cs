using Microsoft.Data.Sqlite;
using SQLitePCL;
using Undercroft.Ledger.Readings;

namespace Undercroft.Ledger.Sqlite;

/// <summary>The readings beside the lines of a ledger: kept by batch in pieces of <see cref="PackedReadings"/>, never changed, merged when they are read.</summary>
internal sealed class ReadingTable(SqliteConnection connection, string cellar)
{
    private sqlite3 Handle => connection.Handle ?? throw new InvalidOperationException("The ledger is closed.");

    /// <summary>The number under which a batch is kept; null where it is not there.</summary>
    internal long? NumberOf(Guid batch)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT number FROM reading_batches WHERE cellar = $cellar AND id = $id";
        command.Parameters.AddWithValue("$cellar", cellar);
        command.Parameters.AddWithValue("$id", batch.ToString());
        return command.ExecuteScalar() is long number ? number : null;
    }

    /// <summary>Every batch of this ledger that is in the file.</summary>
    internal List<Guid> Batches()
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT id FROM reading_batches WHERE cellar = $cellar ORDER BY number";
        command.Parameters.AddWithValue("$cellar", cellar);
        using var reader = command.ExecuteReader();
        List<Guid> all = [];
        while (reader.Read())
            all.Add(Guid.Parse(reader.GetString(0)));
        return all;
    }

    /// <summary>Writes a batch within the transaction that is open. Its readings are held packed until the last has come: only then is it known that none belongs between those before it.</summary>
    internal ReadingsTaken Take(ReadingBatch batch, CancellationToken cancellation = default)
    {
        var arrived = Arrived.Of(batch, cancellation);
        if (arrived.Count == 0)
            throw new Refusal("There are no readings in it. Nothing was kept; look at the file.");
        Write(connection, Begin(batch.Id), arrived.Pieces);
        var (first, last) = (arrived.Pieces[0].FirstUtc, arrived.Pieces[^1].LastUtc);
        var whole = new ReadingSpan([new ReadingPart(batch.Id, first, last, arrived.Count)], first, last);
        var (known, differing) = Beside(whole, (batch.Beside ?? ReadingSpan.None) with { FromUtc = first, ToUtc = last });
        return new ReadingsTaken(
            batch.Id, arrived.Count, arrived.Repeated, arrived.Contradicted, known, differing, DateTimeOffset.FromUnixTimeSeconds(first), DateTimeOffset.FromUnixTimeSeconds(last), arrived.Sha256);
    }

    /// <summary>Writes the pieces of a batch.</summary>
    internal static void Write(SqliteConnection connection, long number, IEnumerable<ReadingPiece> pieces)
    {
        using var insert = new RawStatement(connection.Handle!, "INSERT INTO reading_pieces (batch, first_utc, last_utc, count, packed) VALUES (?1, ?2, ?3, ?4, ?5)");
        insert.Bind(1, number);
        foreach (var piece in pieces)
        {
            insert.Bind(2, piece.FirstUtc);
            insert.Bind(3, piece.LastUtc);
            insert.Bind(4, piece.Count);
            insert.Bind(5, piece.Packed.AsSpan());
            insert.Run();
        }
    }

    /// <summary>The digest of a batch as it lies in the file, and how many readings that is.</summary>
    internal string SealOf(Guid batch, out long count)
    {
        using var sealing = new ReadingSeal();
        count = 0;
        foreach (var reading in Rows(batch))
        {
            sealing.Add(reading);
            count++;
        }

        return sealing.Done();
    }

    /// <summary>The readings of one batch in order of time.</summary>
    internal IEnumerable<Reading> Rows(Guid batch) => Merged(new ReadingSpan([new ReadingPart(batch, Reading.Earliest, Reading.Latest, 0)]));

    /// <summary>At most so many readings of a span, from its beginning.</summary>
    internal List<Reading> Read(ReadingSpan span, int most)
    {
        var read = new List<Reading>((int)Math.Min(span.Most, most));
        foreach (var reading in Merged(span))
        {
            read.Add(reading);
            if (read.Count == most)
                break;
        }

        return read;
    }

    /// <summary>
    /// The readings of a span in order of time, one an instant: where several batches hold it, the oldest batch's, and of the others what it lacks. A batch is opened only when the merge comes to its first
    /// instant, so hundreds of batches one after the other cost no more than one.
    /// </summary>
    internal IEnumerable<Reading> Merged(ReadingSpan span)
    {
        var waiting = new Queue<(ReadingPart Part, int Rank)>(span.Reaching);
        List<Cursor> open = [];
        try
        {
            while (waiting.Count > 0 || open.Count > 0)
            {
                while (waiting.TryPeek(out var next) && (open.Count == 0 || next.Part.FirstUtc <= open.Min(one => one.Current.UtcSeconds)))
                {
                    waiting.Dequeue();
                    Open(next.Part, next.Rank, span, open);
                }

                if (open.Count == 1)
                {
                    var only = open[0];
                    var until = waiting.TryPeek(out var following) ? following.Part.FirstUtc : long.MaxValue;
                    do
                        yield return only.Current;
                    while (only.Next() && only.Current.UtcSeconds < until);
                    if (only.Done)
                        Close(only, open);
                    continue;
                }

                if (open.Count == 0)
                    continue;
                var chosen = open.MinBy(one => (one.Current.UtcSeconds, one.Rank))!;
                var instant = chosen.Current.UtcSeconds;
                var reading = chosen.Current;
                foreach (var later in open.Where(one => one != chosen && one.Current.UtcSeconds == instant).OrderBy(one => one.Rank))
                    reading = reading.FilledFrom(later.Current);
                yield return reading;
                for (var i = open.Count - 1; i >= 0; i--)
                {
                    if (open[i].Current.UtcSeconds == instant && !open[i].Next())
                        Close(open[i], open);
                }
            }
        }
        finally
        {
            open.ForEach(one => one.Dispose());
        }
    }

    private static void Close(Cursor cursor, List<Cursor> open)
    {
        cursor.Dispose();
        open.Remove(cursor);
    }

    private void Open(ReadingPart part, int rank, ReadingSpan span, List<Cursor> open)
    {
        var number = NumberOf(part.Batch) ?? throw new InvalidDataException($"the readings of batch {part.Batch} are missing.");
        var cursor = new Cursor(Handle, number, rank, span.FromUtc, span.ToUtc);
        open.Add(cursor);
        if (!cursor.Next())
            Close(cursor, open);
    }

    private long Begin(Guid batch)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "INSERT INTO reading_batches (number, cellar, id) VALUES ((SELECT coalesce(max(number), 0) + 1 FROM reading_batches), $cellar, $id) RETURNING number";
        command.Parameters.AddWithValue("$cellar", cellar);
        command.Parameters.AddWithValue("$id", batch.ToString());
        return (long)command.ExecuteScalar()!;
    }

    private (long Known, long Differing) Beside(ReadingSpan fresh, ReadingSpan beside)
    {
        if (beside.IsEmpty)
            return (0, 0);
        var (known, differing) = (0L, 0L);
        using var old = Merged(beside).GetEnumerator();
        var there = old.MoveNext();
        foreach (var reading in Merged(fresh))
        {
            while (there && old.Current.UtcSeconds < reading.UtcSeconds)
                there = old.MoveNext();
            if (!there)
                break;
            if (old.Current.UtcSeconds != reading.UtcSeconds)
                continue;
            if (old.Current.FilledFrom(reading) != old.Current)
                continue; // it brings a quantity that was not there
            known++;
            if (reading.FilledFrom(old.Current) != old.Current)
                differing++;
        }

        return (known, differing);
    }

    /// <summary>One batch while it is read.</summary>
    private sealed class Cursor : IDisposable
    {
        private readonly RawStatement pieces;
        private readonly Reading[] piece = new Reading[PackedReadings.Most];
        private readonly long from;
        private readonly long to;
        private int at;
        private int count;

        internal Cursor(sqlite3 handle, long number, int rank, long from, long to)
        {
            (Rank, this.from, this.to) = (rank, from, to);
            // The piece that begins last before the span may reach into it.
            pieces = new RawStatement(handle, "SELECT first_utc, count, packed FROM reading_pieces WHERE batch = ?1 "
                + "AND first_utc >= coalesce((SELECT max(first_utc) FROM reading_pieces WHERE batch = ?1 AND first_utc <= ?2), ?2) AND first_utc <= ?3 ORDER BY first_utc");
            pieces.Bind(1, number);
            pieces.Bind(2, from);
            pieces.Bind(3, to);
        }

        internal int Rank { get; }

        internal Reading Current => piece[at];

        internal bool Done { get; private set; }

        internal bool Next()
        {
            do
            {
                if (++at >= count && !Fill())
                {
                    Done = true;
                    return false;
                }
            }
            while (piece[at].UtcSeconds < from);
            Done = piece[at].UtcSeconds > to;
            return !Done;
        }

        public void Dispose() => pieces.Dispose();

        private bool Fill()
        {
            if (!pieces.Step())
                return false;
            (at, count) = (0, (int)Math.Clamp(pieces.Whole(1), 0, int.MaxValue));
            PackedReadings.Read(pieces.Bytes(2), pieces.Whole(0), count, piece);
            return true;
        }
    }
}
