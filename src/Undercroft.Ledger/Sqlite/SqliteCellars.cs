using System.Runtime.CompilerServices;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;

namespace Undercroft.Ledger.Sqlite;

/// <summary>A ledger in one SQLite file: an append-only table in plain SQL, written through to the disk before an append returns.</summary>
/// <remarks>Several threads may use one of these, and several programs one file.</remarks>
public sealed class SqliteCellars : ICellars, IDisposable
{
    private const int ReadingsAtATime = 4096;

    private readonly Lock gate = new();
    private readonly SqliteConnection connection;
    private readonly string path;
    private readonly string cellar;
    private readonly List<CellarEvent> known = [];
    private readonly ReadingTable readings;
    private Cellar? folded;

    private SqliteCellars(SqliteConnection connection, string path, string cellar)
    {
        this.connection = connection;
        this.path = path;
        this.cellar = cellar;
        readings = new ReadingTable(connection, cellar);
    }

    /// <summary>The cellar of a folder that has one.</summary>
    /// <param name="folder">From <see cref="DataFolder.Existing"/>.</param>
    /// <param name="cellar">Which of several ledgers in the file; a person has one.</param>
    /// <exception cref="Refusal">The file is no ledger, or a newer program wrote it.</exception>
    public static SqliteCellars Open(DataFolder folder, string cellar = "cellar")
    {
        ArgumentNullException.ThrowIfNull(folder);
        return new(LedgerFile.Open(folder.Ledger, create: false), folder.Ledger, cellar);
    }

    /// <summary>The cellar of a folder, begun where there is none.</summary>
    /// <param name="folder">From <see cref="DataFolder.OrNew"/>.</param>
    /// <param name="cellar">Which of several ledgers in the file; a person has one.</param>
    /// <exception cref="Refusal">The file is no ledger, a newer program wrote it, or it cannot be made.</exception>
    public static SqliteCellars OpenOrCreate(DataFolder folder, string cellar = "cellar")
    {
        ArgumentNullException.ThrowIfNull(folder);
        return new(LedgerFile.Open(folder.Ledger, create: true), folder.Ledger, cellar);
    }

    /// <inheritdoc/>
    public ValueTask<Cellar> ReadAsync(View view = default, CancellationToken cancellation = default)
    {
        cancellation.ThrowIfCancellationRequested();
        lock (gate)
        {
            Cellar? read = null;
            Guarded(() =>
            {
                CatchUp();
                read = view == View.Now ? folded ??= Cellar.Fold(known) : Cellar.Fold(known, view);
            });
            return ValueTask.FromResult(read!);
        }
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<CellarEvent>> EventsAsync(long after = 0, CancellationToken cancellation = default)
    {
        cancellation.ThrowIfCancellationRequested();
        lock (gate)
        {
            Guarded(CatchUp);
            return ValueTask.FromResult<IReadOnlyList<CellarEvent>>([.. known.Where(line => line.Version > after)]);
        }
    }

    /// <inheritdoc/>
    public ValueTask<AppendResult> AppendAsync(long expectedVersion, IReadOnlyList<CellarEvent> events, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(events);
        if (events.Any(line => line.Fact is Fact.ReadingsImported))
            throw new ArgumentException("Readings come with the event that tells of them: append their batch.", nameof(events));
        cancellation.ThrowIfCancellationRequested();
        lock (gate)
        {
            AppendResult? result = null;
            Guarded(() => result = Append(expectedVersion, events));
            return ValueTask.FromResult(result!);
        }
    }

    /// <inheritdoc/>
    public ValueTask<AppendResult> AppendAsync(long expectedVersion, ReadingBatch batch, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(batch);
        cancellation.ThrowIfCancellationRequested();
        lock (gate)
        {
            AppendResult? result = null;
            Told(() => result = Append(expectedVersion, batch, cancellation));
            return ValueTask.FromResult(result!);
        }
    }

    /// <inheritdoc/>
    public async IAsyncEnumerable<Reading> ReadingsAsync(ReadingSpan span, [EnumeratorCancellation] CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(span);
        for (var from = span.FromUtc; ;)
        {
            cancellation.ThrowIfCancellationRequested();
            var some = await ValueTask.FromResult(Read(span with { FromUtc = from }, ReadingsAtATime)).ConfigureAwait(false);
            foreach (var reading in some)
                yield return reading;
            if (some.Count < ReadingsAtATime)
                yield break;
            from = some[^1].UtcSeconds + 1;
        }
    }

    /// <inheritdoc/>
    public ValueTask<IReadOnlyList<Reading>> AllReadingsAsync(ReadingSpan span, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(span);
        cancellation.ThrowIfCancellationRequested();
        return ValueTask.FromResult<IReadOnlyList<Reading>>(Read(span, int.MaxValue));
    }

    /// <summary>Closes the file.</summary>
    public void Dispose() => connection.Dispose();

    private AppendResult Append(long expectedVersion, IReadOnlyList<CellarEvent> events)
    {
        using var transaction = connection.BeginTransaction(deferred: false);
        return Append(expectedVersion, events, transaction);
    }

    private AppendResult Append(long expectedVersion, ReadingBatch batch, CancellationToken cancellation)
    {
        using var transaction = connection.BeginTransaction(deferred: false);
        var (found, _) = Last(transaction);
        if (readings.NumberOf(batch.Id) is not null)
        {
            CatchUp();
            return new AppendResult.Written(found, [.. known.Where(line => line.Fact is Fact.ReadingsImported before && before.Batch == batch.Id)]);
        }

        if (found != expectedVersion)
            return new AppendResult.Conflict(found);
        var events = batch.Decided(readings.Take(batch, cancellation));
        return events.Count == 0 ? new AppendResult.Written(found, []) : Append(expectedVersion, events, transaction);
    }

    private AppendResult Append(long expectedVersion, IReadOnlyList<CellarEvent> events, SqliteTransaction transaction)
    {
        var (found, digest) = Last(transaction);
        var version = found;
        var written = new List<CellarEvent>(events.Count);
        using var insert = new LineInsert(connection, cellar);
        using var texts = new LineTexts(events);
        for (var i = 0; i < events.Count; i++)
        {
            var given = events[i];
            if (found != expectedVersion)
            {
                if (Known(given, transaction) is not { } older)
                    return new AppendResult.Conflict(found);
                written.Add(older);
                continue;
            }

            var line = texts.At(i, version + 1, out var text);
            var after = LedgerDigest.After(digest, text);
            if (!insert.Add(line, text, after))
            {
                written.Add(Known(given, transaction) ?? throw new InvalidDataException("a line stands behind the last one already."));
                continue;
            }

            (version, digest) = (line.Version, after);
            written.Add(line);
        }

        transaction.Commit();
        return new AppendResult.Written(version, written);
    }

    private (long Version, string Digest) Last(SqliteTransaction transaction)
    {
        using var command = Command("SELECT version, digest FROM events WHERE cellar = $cellar ORDER BY version DESC LIMIT 1", transaction);
        using var reader = command.ExecuteReader();
        return reader.Read() ? (reader.GetInt64(0), reader.GetString(1)) : (0, LedgerDigest.Start);
    }

    private CellarEvent? Known(CellarEvent given, SqliteTransaction transaction)
    {
        using var command = Command("SELECT line FROM events WHERE cellar = $cellar AND id = $id", transaction);
        command.Parameters.AddWithValue("$id", given.Id.ToString());
        if (command.ExecuteScalar() is not string line)
            return null;
        var before = EventLine.Read(line);
        return EventLine.Write(given with { Version = before.Version }) == line
            ? before
            : throw new Refusal("An event with this ID is in the ledger already and says something else. Nothing was written; give a new event an ID of its own.");
    }

    /// <summary>Reads what others wrote since. Events are never changed, so what is known stays true.</summary>
    private void CatchUp()
    {
        var fresh = LineReader.After(connection, cellar, known.Count == 0 ? 0 : known[^1].Version);
        if (fresh.Count == 0)
            return;
        known.AddRange(fresh);
        folded = folded?.After(fresh);
    }

    private SqliteCommand Command(string sql, SqliteTransaction? transaction = null)
    {
        var command = connection.CreateCommand();
        command.CommandText = sql;
        command.Transaction = transaction ?? command.Transaction;
        command.Parameters.AddWithValue("$cellar", cellar);
        return command;
    }

    private List<Reading> Read(ReadingSpan span, int most)
    {
        List<Reading>? read = null;
        lock (gate)
            Guarded(() => read = readings.Read(span, most));
        return read!;
    }

    /// <summary>Failures of the file in words.</summary>
    private void Told(Action act)
    {
        try
        {
            act();
        }
        catch (SqliteException failed)
        {
            var told = LedgerFile.Told(failed, path);
            if (ReferenceEquals(told, failed))
                throw;
            throw told;
        }
    }

    /// <summary>Failures of the file, and of what lies in it, in words.</summary>
    private void Guarded(Action act)
    {
        try
        {
            Told(act);
        }
        catch (InvalidDataException unread)
        {
            throw new Refusal($"{path} holds something that this program cannot read: {unread.Message} A newer Undercroft may have written it: update this program. 'verify' names what is wrong.");
        }
    }
}
