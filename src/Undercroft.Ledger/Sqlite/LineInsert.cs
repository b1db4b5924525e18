using Microsoft.Data.Sqlite;
using SQLitePCL;
using Undercroft.Ledger.Events;

namespace Undercroft.Ledger.Sqlite;

/// <summary>Writes lines behind the last one, within the transaction that is open.</summary>
internal sealed class LineInsert : IDisposable
{
    private readonly sqlite3 handle;
    private readonly RawStatement insert;

    internal LineInsert(SqliteConnection connection, string cellar)
    {
        handle = connection.Handle!;
        insert = new RawStatement(handle, "INSERT INTO events (cellar, version, id, type, line, digest) VALUES (?1, ?2, ?3, ?4, ?5, ?6) ON CONFLICT DO NOTHING");
        insert.Bind(1, cellar);
    }

    /// <summary>Writes one; false where its ID, or its place, is taken, and then nothing is written.</summary>
    /// <param name="line">The line.</param>
    /// <param name="text">Its text in UTF-8.</param>
    /// <param name="digest">The digest after it.</param>
    internal bool Add(CellarEvent line, ReadOnlySpan<byte> text, string digest)
    {
        insert.Bind(2, line.Version);
        Span<byte> id = stackalloc byte[36];
        line.Id.TryFormat(id, out _);
        insert.BindText(3, id);
        insert.Bind(4, line.Fact.Type);
        insert.BindText(5, text);
        insert.Bind(6, digest);
        insert.Run();
        return raw.sqlite3_changes(handle) == 1;
    }

    public void Dispose() => insert.Dispose();
}
