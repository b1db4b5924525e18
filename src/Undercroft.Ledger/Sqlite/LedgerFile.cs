using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Undercroft.Ledger.Sqlite;

/// <summary>One stored event, as it stands in the file.</summary>
internal sealed record LedgerRow(long Version, string Id, string Type, string Line, string Digest);

/// <summary>The file of a ledger: recognised, made and brought forward to the present schema.</summary>
internal static class LedgerFile
{
    /// <summary>Marks the file as a ledger of this program: <c>UCRL</c>.</summary>
    internal const int ApplicationId = 0x5543524C;

    /// <summary>One step for every schema ever released, forwards only. Released steps never change; a new schema appends a step.</summary>
    private static readonly Step[] Steps =
    [
        new("""
        CREATE TABLE events (
            cellar  TEXT    NOT NULL,
            version INTEGER NOT NULL CHECK (version > 0),
            id      TEXT    NOT NULL,
            type    TEXT    NOT NULL,
            line    TEXT    NOT NULL,
            digest  TEXT    NOT NULL,
            PRIMARY KEY (cellar, version),
            UNIQUE (cellar, id)
        ) WITHOUT ROWID;
        CREATE TABLE marks (name TEXT NOT NULL PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
        CREATE TRIGGER events_are_never_changed BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'events are never changed'); END;
        CREATE TRIGGER events_are_never_removed BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'events are never removed'); END;
        """),
        new("""
        CREATE TABLE reading_batches (
            number INTEGER NOT NULL PRIMARY KEY,
            cellar TEXT    NOT NULL,
            id     TEXT    NOT NULL,
            UNIQUE (cellar, id)
        );
        CREATE TABLE readings (
            batch             INTEGER NOT NULL,
            utc               INTEGER NOT NULL,
            temperature_k     REAL,
            humidity_fraction REAL,
            pressure_pa       REAL,
            light_lux         REAL,
            PRIMARY KEY (batch, utc)
        ) WITHOUT ROWID;
        CREATE TRIGGER batches_are_never_changed BEFORE UPDATE ON reading_batches BEGIN SELECT RAISE(ABORT, 'batches are never changed'); END;
        CREATE TRIGGER batches_are_never_removed BEFORE DELETE ON reading_batches BEGIN SELECT RAISE(ABORT, 'batches are never removed'); END;
        CREATE TRIGGER readings_are_never_changed BEFORE UPDATE ON readings BEGIN SELECT RAISE(ABORT, 'readings are never changed'); END;
        CREATE TRIGGER readings_are_never_removed BEFORE DELETE ON readings BEGIN SELECT RAISE(ABORT, 'readings are never removed'); END;
        """),
        new(
            """
            CREATE TABLE reading_pieces (
                batch     INTEGER NOT NULL,
                first_utc INTEGER NOT NULL,
                last_utc  INTEGER NOT NULL,
                count     INTEGER NOT NULL CHECK (count > 0),
                packed    BLOB    NOT NULL,
                PRIMARY KEY (batch, first_utc)
            );
            """,
            PackRows.Of,
            """
            DROP TABLE readings;
            CREATE TRIGGER pieces_are_never_changed BEFORE UPDATE ON reading_pieces BEGIN SELECT RAISE(ABORT, 'readings are never changed'); END;
            CREATE TRIGGER pieces_are_never_removed BEFORE DELETE ON reading_pieces BEGIN SELECT RAISE(ABORT, 'readings are never removed'); END;
            """),
    ];

    internal static int NewestSchema => Steps.Length;

    /// <summary>Opens a ledger. One that lies where nothing can be written, on a disc or in a locked copy, is opened to be read.</summary>
    internal static SqliteConnection Open(string path, bool create)
    {
        try
        {
            return OpenToWrite(path, create);
        }
        catch (SqliteException failed) when (failed.SqliteErrorCode is 8 or 14 && !create && IsAtRest(path))
        {
            return OpenToRead(path) ?? throw Told(failed, path);
        }
        catch (SqliteException failed)
        {
            throw Told(failed, path);
        }
    }

    private static SqliteConnection OpenToWrite(string path, bool create)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = create ? SqliteOpenMode.ReadWriteCreate : SqliteOpenMode.ReadWrite,
            Pooling = false,
            DefaultTimeout = 30,
        }.ToString());
        try
        {
            connection.Open();
            Recognise(connection, path, create);
            Run(connection, "PRAGMA synchronous = FULL; PRAGMA journal_size_limit = 4194304");
            BringForward(connection, path);
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>True where the file stands alone: what its log may hold besides cannot be read without writing beside it.</summary>
    private static bool IsAtRest(string path) => File.Exists(path) && (!File.Exists(path + "-wal") || new FileInfo(path + "-wal").Length == 0);

    private static SqliteConnection? OpenToRead(string path)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = "file:" + Uri.EscapeDataString(path).Replace("%2F", "/", StringComparison.Ordinal) + "?immutable=1",
            Mode = SqliteOpenMode.ReadOnly,
            Pooling = false,
        }.ToString());
        try
        {
            connection.Open();
            Recognise(connection, path, create: false);
            if (Number(connection, "PRAGMA user_version") == NewestSchema)
                return connection;
            throw new Refusal($"{path} was written by an older Undercroft and lies where it cannot be brought forward. Copy the folder to where you may write, and open the copy.");
        }
        catch (SqliteException)
        {
            connection.Dispose();
            return null;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>All rows of a ledger as they stood at one moment, while others may go on writing.</summary>
    internal static List<LedgerRow> Rows(SqliteConnection connection, string cellar)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT version, id, type, line, digest FROM events WHERE cellar = $cellar ORDER BY version";
        command.Parameters.AddWithValue("$cellar", cellar);
        using var reader = command.ExecuteReader();
        var rows = new List<LedgerRow>();
        while (reader.Read())
            rows.Add(new(reader.GetInt64(0), reader.GetString(1), reader.GetString(2), reader.GetString(3), reader.GetString(4)));
        return rows;
    }

    internal static Exception Told(SqliteException failed, string path) => failed.SqliteErrorCode switch
    {
        8 => new Refusal($"{path} cannot be written: {failed.Message}. Nothing was changed. Make the folder writable and try again."),
        10 when failed.SqliteExtendedErrorCode == 4874 => new Refusal($"The disk is full: beside {path} there is no room for its lock. Nothing was changed. Make room and try again."),
        10 => new Refusal($"{path} could not be read or written: {failed.Message}. Nothing was acknowledged; look at the disk and try again."),
        11 => new Refusal($"{path} is damaged: {failed.Message}. Keep a copy of it, then restore the last backup into a new folder."),
        13 => new Refusal($"The disk is full: {path} could not grow. Nothing was changed. Make room and try again."),
        14 => new Refusal($"{path} cannot be opened: {failed.Message}. Look at the rights of the folder."),
        26 => new Refusal($"{path} is not a cellar: it is no ledger file. Name another folder with --data."),
        5 or 6 => new Refusal("The ledger is busy: another program holds it. Nothing was changed; try again.", RefusalKind.Standing),
        _ => failed,
    };

    internal static void Run(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    internal static long Number(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return Convert.ToInt64(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }

    private static void Recognise(SqliteConnection connection, string path, bool create)
    {
        // The tables first: another program may be making the ledger just now, and its mark comes with its tables.
        var tables = Number(connection, "SELECT count(*) FROM sqlite_schema");
        var mark = Number(connection, "PRAGMA application_id");
        if (mark != ApplicationId && !(create && mark == 0 && tables == 0))
            throw new Refusal($"{path} is not a cellar: another program made this file. Name another folder with --data.");
        var schema = Number(connection, "PRAGMA user_version");
        if (schema < 0)
            throw new Refusal($"{path} is damaged: no schema has the number that stands in it. Keep a copy of it, then restore the last backup into a new folder.");
        if (schema > NewestSchema)
            throw new Refusal(string.Create(CultureInfo.InvariantCulture, $"{path} was written by a newer Undercroft (schema {schema}; this one knows schemas up to {NewestSchema}). Nothing was changed. Update this program."));
    }

    /// <summary>Applies the missing steps, all or none. Two programs may try at once; the second finds nothing left to do.</summary>
    private static void BringForward(SqliteConnection connection, string path)
    {
        if (Number(connection, "PRAGMA user_version") == NewestSchema)
            return;
        if (Number(connection, "PRAGMA application_id") == 0)
            Run(connection, "PRAGMA journal_mode = WAL");
        Run(connection, "BEGIN IMMEDIATE");
        try
        {
            Recognise(connection, path, create: true);
            for (var step = (int)Number(connection, "PRAGMA user_version"); step < NewestSchema; step++)
            {
                Steps[step].Take(connection);
                Run(connection, string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version = {step + 1}"));
            }

            Run(connection, string.Create(CultureInfo.InvariantCulture, $"PRAGMA application_id = {ApplicationId}"));
            Run(connection, "COMMIT");
        }
        catch
        {
            Run(connection, "ROLLBACK");
            throw;
        }
    }

    /// <summary>One schema to the next.</summary>
    private sealed record Step(string Before, Action<SqliteConnection>? Carry = null, string After = "")
    {
        internal void Take(SqliteConnection connection)
        {
            Run(connection, Before);
            Carry?.Invoke(connection);
            if (After.Length > 0)
                Run(connection, After);
        }
    }
}
