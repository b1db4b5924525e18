using System.Globalization;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger;

namespace Undercroft.Access;

/// <summary>The file <c>access.sqlite</c>: who may come in. It is no part of the ledger, its digest, a backup or an export.</summary>
internal static class AccessFile
{
    /// <summary>Marks the file as this program's: <c>UCRA</c>.</summary>
    private const int ApplicationId = 0x55435241;

    /// <summary>One step for every schema ever released, forwards only.</summary>
    private static readonly string[] Steps =
    [
        """
        CREATE TABLE secret (name TEXT NOT NULL PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
        CREATE TABLE devices (
            id TEXT NOT NULL PRIMARY KEY, name TEXT NOT NULL, digest TEXT NOT NULL UNIQUE, how TEXT NOT NULL, made TEXT NOT NULL, seen TEXT NOT NULL, revoked TEXT
        ) WITHOUT ROWID;
        CREATE TABLE codes (hash TEXT NOT NULL PRIMARY KEY, expires TEXT NOT NULL) WITHOUT ROWID;
        CREATE TABLE tokens (
            id TEXT NOT NULL PRIMARY KEY, name TEXT NOT NULL, digest TEXT NOT NULL UNIQUE, scopes TEXT NOT NULL, made TEXT NOT NULL, used TEXT, revoked TEXT
        ) WITHOUT ROWID;
        """,
    ];

    /// <summary>Opens the file of a data folder, made for its owner alone where there is none.</summary>
    /// <exception cref="Refusal">Another program made it, a newer one of this did, or it cannot be opened.</exception>
    internal static SqliteConnection Open(string folder)
    {
        var path = Path.Combine(folder, "access.sqlite");
        MakePrivate(path);
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = SqliteOpenMode.ReadWrite,
            Pooling = false,
            DefaultTimeout = 10,
        }.ToString());
        try
        {
            connection.Open();
            Recognise(connection, path);
            return connection;
        }
        catch (SqliteException failed)
        {
            connection.Dispose();
            throw new Refusal($"{path} cannot be opened: {failed.Message}. It holds the password and the signed-in devices, nothing of the cellar: move it away to begin with a new one.");
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private static void MakePrivate(string path)
    {
        const UnixFileMode Owner = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        if (OperatingSystem.IsWindows())
        {
            using var made = new FileStream(path, FileMode.OpenOrCreate);
            return;
        }

        using (new FileStream(path, new FileStreamOptions { Mode = FileMode.OpenOrCreate, Access = FileAccess.ReadWrite, Share = FileShare.ReadWrite, UnixCreateMode = Owner }))
        {
        }

        if ((File.GetUnixFileMode(path) & ~Owner) != 0)
            File.SetUnixFileMode(path, Owner);
    }

    private static void Recognise(SqliteConnection connection, string path)
    {
        using var transaction = connection.BeginTransaction(deferred: false);
        var mark = Number(connection, transaction, "PRAGMA application_id");
        var schema = (int)Number(connection, transaction, "PRAGMA user_version");
        if (mark != ApplicationId && !(mark == 0 && schema == 0))
            throw new Refusal($"{path} was made by another program. Name another folder with --data.");
        if (schema > Steps.Length)
            throw new Refusal($"{path} was written by a newer Undercroft. Nothing was changed. Update this program.");
        if (schema < Steps.Length)
        {
            foreach (var step in Steps.Skip(schema))
                Run(connection, transaction, step);
            Run(connection, transaction, string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version = {Steps.Length}"));
            Run(connection, transaction, string.Create(CultureInfo.InvariantCulture, $"PRAGMA application_id = {ApplicationId}"));
        }

        transaction.Commit();
    }

    private static void Run(SqliteConnection connection, SqliteTransaction transaction, string sql)
    {
        using var command = connection.CreateCommand();
        (command.CommandText, command.Transaction) = (sql, transaction);
        command.ExecuteNonQuery();
    }

    private static long Number(SqliteConnection connection, SqliteTransaction transaction, string sql)
    {
        using var command = connection.CreateCommand();
        (command.CommandText, command.Transaction) = (sql, transaction);
        return Convert.ToInt64(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }
}
