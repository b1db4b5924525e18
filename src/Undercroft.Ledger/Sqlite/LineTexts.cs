using System.Runtime.ExceptionServices;
using Undercroft.Ledger.Events;

namespace Undercroft.Ledger.Sqlite;

/// <summary>Lines about to be written, with their text: each was read back from it before it is handed out. All cores write the many of an import, some thousand ahead at a time.</summary>
internal sealed class LineTexts(IReadOnlyList<CellarEvent> events)
{
    private const int AtATime = 4096;
    private const int Few = 64;
    private (CellarEvent Line, string Text)[] ready = [];
    private int from;

    /// <summary>One of the events as the line that it becomes.</summary>
    /// <param name="index">Which.</param>
    /// <param name="version">Its place in the ledger.</param>
    /// <exception cref="Refusal">It cannot be read back.</exception>
    internal (CellarEvent Line, string Text) At(int index, long version)
    {
        if (index < from || index >= from + ready.Length)
            Ahead(index, version);
        var line = ready[index - from];
        return line.Line.Version == version ? line : Readable(events[index] with { Version = version });
    }

    private void Ahead(int index, long version)
    {
        from = index;
        ready = new (CellarEvent, string)[Math.Min(AtATime, events.Count - index)];
        void Make(int i) => ready[i] = Readable(events[from + i] with { Version = version + i });
        if (ready.Length < Few)
        {
            for (var i = 0; i < ready.Length; i++)
                Make(i);
            return;
        }

        try
        {
            Parallel.For(0, ready.Length, Make);
        }
        catch (AggregateException several) when (several.InnerExceptions.OfType<Refusal>().FirstOrDefault() is { } refusal)
        {
            ExceptionDispatchInfo.Throw(refusal);
        }
    }

    /// <summary>The line of an event, after making sure that it can be read again: what cannot be is not acknowledged.</summary>
    private static (CellarEvent Line, string Text) Readable(CellarEvent line)
    {
        var text = EventLine.Write(line);
        try
        {
            EventLine.Read(text);
            return (line, text);
        }
        catch (InvalidDataException unread)
        {
            throw new Refusal($"That cannot be written down so that it could be read again: {unread.Message} Nothing was written.");
        }
    }
}
