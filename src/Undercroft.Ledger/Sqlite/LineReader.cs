using System.Buffers;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger.Events;

namespace Undercroft.Ledger.Sqlite;

/// <summary>Reads the lines of a ledger: one thread takes them from the file, the others make events of them.</summary>
internal static class LineReader
{
    private const int AtATime = 1 << 16;

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
            var line = rows.Bytes(0);
            if (!part.Has(line.Length))
            {
                parts.Add(Task.Run(part.Read));
                part = new Lines();
            }

            part.Add(line);
        }

        var last = part.Read();
        List<CellarEvent> read = [];
        foreach (var done in parts)
            read.AddRange(done.GetAwaiter().GetResult());
        read.AddRange(last);
        return read;
    }

    /// <summary>Some lines, one behind the other in one piece of memory.</summary>
    private sealed class Lines
    {
        private readonly List<int> ends = [];
        private byte[] bytes = ArrayPool<byte>.Shared.Rent(AtATime);

        /// <summary>True where a line of so many bytes still goes in.</summary>
        internal bool Has(int length) => ends.Count == 0 || ends[^1] + length <= bytes.Length;

        internal void Add(ReadOnlySpan<byte> line)
        {
            var at = ends.Count == 0 ? 0 : ends[^1];
            if (line.Length > bytes.Length) // one that is longer than a whole part
            {
                ArrayPool<byte>.Shared.Return(bytes);
                bytes = ArrayPool<byte>.Shared.Rent(line.Length);
            }

            line.CopyTo(bytes.AsSpan(at));
            ends.Add(at + line.Length);
        }

        internal CellarEvent[] Read()
        {
            var events = new CellarEvent[ends.Count];
            for (var i = 0; i < events.Length; i++)
                events[i] = EventLine.Read(bytes.AsSpan((i == 0 ? 0 : ends[i - 1])..ends[i]));
            ArrayPool<byte>.Shared.Return(bytes);
            return events;
        }
    }
}
