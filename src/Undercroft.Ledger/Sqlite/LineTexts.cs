using System.Buffers;
using System.Text.Json;
using Undercroft.Ledger.Events;

namespace Undercroft.Ledger.Sqlite;

/// <summary>
/// Lines about to be written, with their text in UTF-8: each was read back from it before it is handed out. Of the many of an import the next pages are made on the other cores while one
/// is written, and the memory of a page is used again.
/// </summary>
internal sealed class LineTexts(IReadOnlyList<CellarEvent> events) : IDisposable
{
    private const int PageLines = 512;
    private readonly int most = Environment.ProcessorCount + 1;
    private readonly Queue<Task<Page>> ahead = new();
    private readonly Stack<Page> free = new();
    private readonly Page single = new();
    private Page? now;
    private int next;

    /// <summary>One of the events as the line that it becomes. They are asked for in order.</summary>
    /// <param name="index">Which.</param>
    /// <param name="version">Its place in the ledger.</param>
    /// <param name="text">The text, until the next one is asked for.</param>
    /// <exception cref="Refusal">It cannot be read back.</exception>
    internal CellarEvent At(int index, long version, out ReadOnlySpan<byte> text)
    {
        if (now is null || !now.Holds(index))
            Turn(index, version);
        var line = now!.Line(index, out text);
        if (line.Version == version)
            return line;
        single.Fill(events, index, index + 1, version);
        return single.Line(index, out text);
    }

    /// <summary>Waits for the pages that are still being made, so that nothing goes on behind the back of whoever asked.</summary>
    public void Dispose()
    {
        Task.WaitAll([.. ahead.Select(page => page.ContinueWith(_ => { }, CancellationToken.None, TaskContinuationOptions.ExecuteSynchronously, TaskScheduler.Default))]);
        ahead.Clear();
    }

    private void Turn(int index, long version)
    {
        if (now is not null)
            free.Push(now);
        if (ahead.Count == 0)
            next = index;
        while (next < events.Count && ahead.Count < most && (ahead.Count == 0 || events.Count - index > PageLines))
        {
            var page = free.TryPop(out var used) ? used : new Page();
            var (from, to, first) = (next, Math.Min(events.Count, next + PageLines), version + next - index);
            void Fill() => page.Fill(events, from, to, first);
            if (ahead.Count == 0 && to == events.Count)
                Fill();
            ahead.Enqueue(ahead.Count == 0 && to == events.Count ? Task.FromResult(page) : Task.Run(() =>
            {
                Fill();
                return page;
            }));
            next = to;
        }

        now = ahead.Dequeue().GetAwaiter().GetResult();
    }

    /// <summary>Some lines, their texts one behind the other in one piece of memory.</summary>
    private sealed class Page
    {
        private readonly ArrayBufferWriter<byte> bytes = new();
        private readonly int[] ends = new int[PageLines];
        private readonly CellarEvent[] lines = new CellarEvent[PageLines];
        private Utf8JsonWriter? writer;
        private int from;
        private int count;

        internal bool Holds(int index) => index >= from && index < from + count;

        internal CellarEvent Line(int index, out ReadOnlySpan<byte> text)
        {
            var at = index - from;
            text = bytes.WrittenSpan[(at == 0 ? 0 : ends[at - 1])..ends[at]];
            return lines[at];
        }

        /// <summary>Writes every line and makes sure that it can be read again: what cannot be is not acknowledged.</summary>
        internal void Fill(IReadOnlyList<CellarEvent> events, int first, int end, long version)
        {
            (from, count) = (first, end - first);
            bytes.ResetWrittenCount();
            writer ??= EventLine.Writer(bytes);
            var start = 0;
            for (var i = 0; i < count; i++)
            {
                lines[i] = events[first + i] with { Version = version + i };
                writer.Reset(bytes);
                EventLine.Write(writer, lines[i]);
                ends[i] = bytes.WrittenCount;
                try
                {
                    EventLine.Read(bytes.WrittenSpan[start..]);
                }
                catch (InvalidDataException unread)
                {
                    throw new Refusal($"That cannot be written down so that it could be read again: {unread.Message} Nothing was written.");
                }

                start = ends[i];
            }
        }
    }
}
