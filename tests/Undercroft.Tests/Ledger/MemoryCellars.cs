using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Tests.Ledger;

/// <summary>A ledger in memory, for tests of what stands on one, and to hold the store's contract to more than one store.</summary>
internal sealed class MemoryCellars : ICellars
{
    private readonly Lock gate = new();
    private readonly List<CellarEvent> lines = [];

    public ValueTask<Cellar> ReadAsync(View view = default, CancellationToken cancellation = default)
    {
        lock (gate)
            return ValueTask.FromResult(Cellar.Fold(lines, view));
    }

    public ValueTask<IReadOnlyList<CellarEvent>> EventsAsync(long after = 0, CancellationToken cancellation = default)
    {
        lock (gate)
            return ValueTask.FromResult<IReadOnlyList<CellarEvent>>([.. lines.Where(line => line.Version > after)]);
    }

    public ValueTask<AppendResult> AppendAsync(long expectedVersion, IReadOnlyList<CellarEvent> events, CancellationToken cancellation = default)
    {
        lock (gate)
        {
            var written = new List<CellarEvent>();
            var fresh = new List<CellarEvent>();
            foreach (var given in events)
            {
                if (lines.Find(line => line.Id == given.Id) is { } before)
                {
                    if (EventLine.Write(before) != EventLine.Write(given with { Version = before.Version }))
                        throw new Refusal($"Event {given.Id} is already in the ledger and says something else.");
                    written.Add(before);
                    continue;
                }

                if (lines.Count != expectedVersion)
                    return ValueTask.FromResult<AppendResult>(new AppendResult.Conflict(lines.Count));
                fresh.Add(given with { Version = lines.Count + fresh.Count + 1 });
                written.Add(fresh[^1]);
            }

            lines.AddRange(fresh);
            return ValueTask.FromResult<AppendResult>(new AppendResult.Written(lines.Count, written));
        }
    }
}

public sealed class MemoryStoreTests : StoreContract
{
    private readonly MemoryCellars cellars = new();

    protected override ICellars Open() => cellars;
}
