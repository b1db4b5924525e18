using Microsoft.Data.Sqlite;
using Undercroft.Ledger.Events;

namespace Undercroft.Ledger.Sqlite;

/// <summary>Reads the lines of a ledger: one thread takes them from the file, the others make events of them.</summary>
internal static class LineReader
{
    private const int AtATime = 2048;

    /// <summary>The events after a version, in order.</summary>
    /// <exception cref="InvalidDataException">A line is none that this program knows.</exception>
    internal static List<CellarEvent> After(SqliteConnection connection, string cellar, long version)
    {
        using var rows = new RawStatement(connection.Handle!, "SELECT line FROM events WHERE cellar = ?1 AND version > ?2 ORDER BY version");
        rows.Bind(1, cellar);
        rows.Bind(2, version);
        List<Task<CellarEvent[]>> parts = [];
        var part = new Lines();
        while (rows.Step())
        {
            part.Add(rows.Utf8(0));
            if (part.Count < AtATime)
                continue;
            parts.Add(Task.Run(part.Read));
            part = new Lines();
        }

        List<CellarEvent> read = [];
        foreach (var done in parts)
            read.AddRange(done.GetAwaiter().GetResult());
        read.AddRange(part.Read());
        return read;
    }

    /// <summary>Some lines, one behind the other in one piece of memory.</summary>
    private sealed class Lines
    {
        private readonly List<int> ends = [];
        private byte[] bytes = new byte[1 << 16];

        internal int Count => ends.Count;

        internal void Add(ReadOnlySpan<byte> line)
        {
            var at = ends.Count == 0 ? 0 : ends[^1];
            if (at + line.Length > bytes.Length)
                Array.Resize(ref bytes, Math.Max(2 * bytes.Length, at + line.Length));
            line.CopyTo(bytes.AsSpan(at));
            ends.Add(at + line.Length);
        }

        internal CellarEvent[] Read()
        {
            var events = new CellarEvent[ends.Count];
            for (var i = 0; i < events.Length; i++)
                events[i] = EventLine.Read(bytes.AsSpan((i == 0 ? 0 : ends[i - 1])..ends[i]));
            return events;
        }
    }
}
