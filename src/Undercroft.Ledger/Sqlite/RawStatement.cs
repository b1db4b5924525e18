using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Undercroft.Ledger.Sqlite;

/// <summary>One prepared statement of SQLite, run over and over.</summary>
internal sealed class RawStatement : IDisposable
{
    private readonly sqlite3 handle;
    private readonly sqlite3_stmt statement;

    internal RawStatement(sqlite3 handle, string sql)
    {
        this.handle = handle;
        Must(raw.sqlite3_prepare_v2(handle, sql, out statement));
    }

    internal void Bind(int parameter, long value) => Must(raw.sqlite3_bind_int64(statement, parameter, value));

    internal void Bind(int parameter, string value) => Must(raw.sqlite3_bind_text(statement, parameter, value));

    internal void Bind(int parameter, ReadOnlySpan<byte> value) => Must(raw.sqlite3_bind_blob(statement, parameter, value));

    /// <summary>A text in UTF-8.</summary>
    internal void BindText(int parameter, ReadOnlySpan<byte> value) => Must(raw.sqlite3_bind_text(statement, parameter, value));

    /// <summary>Runs a statement that returns no rows, and makes it ready for the next.</summary>
    internal void Run()
    {
        var stepped = raw.sqlite3_step(statement);
        if (stepped != raw.SQLITE_DONE)
            SqliteException.ThrowExceptionForRC(stepped, handle);
        Must(raw.sqlite3_reset(statement));
    }

    /// <summary>Goes to the next row; false where there is none.</summary>
    internal bool Step()
    {
        var stepped = raw.sqlite3_step(statement);
        if (stepped is not (raw.SQLITE_ROW or raw.SQLITE_DONE))
            SqliteException.ThrowExceptionForRC(stepped, handle);
        return stepped == raw.SQLITE_ROW;
    }

    /// <summary>A text or bytes as they lie in the file; valid until the next step.</summary>
    internal ReadOnlySpan<byte> Bytes(int column) => raw.sqlite3_column_blob(statement, column);

    internal long Whole(int column) => raw.sqlite3_column_int64(statement, column);

    /// <summary>A number; not a number where the row has none.</summary>
    internal double Real(int column) => raw.sqlite3_column_type(statement, column) == raw.SQLITE_NULL ? double.NaN : raw.sqlite3_column_double(statement, column);

    public void Dispose() => statement.Dispose();

    private void Must(int result)
    {
        if (result != raw.SQLITE_OK)
            SqliteException.ThrowExceptionForRC(result, handle);
    }
}
