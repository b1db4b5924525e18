using Microsoft.Data.Sqlite;
using SQLitePCL;
using Undercroft.Ledger.Readings;

namespace Undercroft.Ledger.Sqlite;

/// <summary>The readings beside the lines of a ledger: kept by batch, never changed, merged when they are read.</summary>
/// <remarks>A million rows pass through here at a time, so it speaks to SQLite's own prepared statements without the objects in between.</remarks>
internal sealed class ReadingTable(SqliteConnection connection, string cellar)
{
    private const string Columns = "utc, temperature_k, humidity_fraction, pressure_pa, light_lux";

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

    /// <summary>Writes a batch within the transaction that is open.</summary>
    internal ReadingsTaken Take(ReadingBatch batch, CancellationToken cancellation = default)
    {
        var number = Begin(batch.Id);
        var (count, repeated, contradicted, first, last, ordered, sealing) = (0L, 0L, 0L, long.MaxValue, long.MinValue, true, new SealBeside());
        using (sealing)
        using (var insert = new RawStatement(Handle, $"INSERT OR IGNORE INTO readings (batch, {Columns}) VALUES (?1, ?2, ?3, ?4, ?5, ?6)"))
        {
            insert.Bind(1, number);
            foreach (var reading in batch.Readings)
            {
                if (double.IsNaN(reading.Kelvin) && double.IsNaN(reading.HumidityFraction) && double.IsNaN(reading.Pascals) && double.IsNaN(reading.Lux))
                    throw new ArgumentException("A reading notes at least one value.", nameof(batch));
                if ((count & 0xFFF) == 0)
                    cancellation.ThrowIfCancellationRequested();
                insert.Bind(2, reading.UtcSeconds);
                insert.Bind(3, reading.Kelvin);
                insert.Bind(4, reading.HumidityFraction);
                insert.Bind(5, reading.Pascals);
                insert.Bind(6, reading.Lux);
                insert.Run();
                if (reading.UtcSeconds <= last && raw.sqlite3_changes(Handle) == 0)
                {
                    if (ReadingAt(number, reading.UtcSeconds) == reading)
                        repeated++;
                    else
                        contradicted++;
                    continue;
                }

                count++;
                ordered &= reading.UtcSeconds > last;
                if (ordered)
                    sealing.Add(reading);
                first = Math.Min(first, reading.UtcSeconds);
                last = Math.Max(last, reading.UtcSeconds);
            }

            if (count == 0)
                throw new Refusal("There are no readings in it. Nothing was kept; look at the file.");
            var whole = new ReadingSpan([new ReadingPart(batch.Id, first, last, count)], first, last);
            var sha = ordered ? sealing.Done() : SealOf(batch.Id, out _);
            var (known, differing) = Beside(whole, (batch.Beside ?? ReadingSpan.None) with { FromUtc = first, ToUtc = last });
            return new ReadingsTaken(batch.Id, count, repeated, contradicted, known, differing, DateTimeOffset.FromUnixTimeSeconds(first), DateTimeOffset.FromUnixTimeSeconds(last), sha);
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

    private Reading ReadingAt(long number, long utc)
    {
        using var cursor = new Cursor(Handle, number, 0, utc, utc);
        return cursor.Next() ? cursor.Current : default;
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
        private readonly RawStatement rows;

        internal Cursor(sqlite3 handle, long number, int rank, long from, long to)
        {
            Rank = rank;
            rows = new RawStatement(handle, $"SELECT {Columns} FROM readings WHERE batch = ?1 AND utc BETWEEN ?2 AND ?3 ORDER BY utc");
            rows.Bind(1, number);
            rows.Bind(2, from);
            rows.Bind(3, to);
        }

        internal int Rank { get; }

        internal Reading Current { get; private set; }

        internal bool Done { get; private set; }

        internal bool Next()
        {
            if (!rows.Step())
            {
                Done = true;
                return false;
            }

            Current = new Reading(rows.Whole(0), rows.Real(1), rows.Real(2), rows.Real(3), rows.Real(4));
            return true;
        }

        public void Dispose() => rows.Dispose();
    }
}
