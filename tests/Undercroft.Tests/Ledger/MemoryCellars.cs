using System.Runtime.CompilerServices;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;

namespace Undercroft.Tests.Ledger;

/// <summary>A ledger in memory, for tests of what stands on one, and to hold the store's contract to more than one store.</summary>
internal sealed class MemoryCellars : ICellars
{
    private readonly Lock gate = new();
    private readonly List<CellarEvent> lines = [];
    private readonly Dictionary<Guid, SortedDictionary<long, Reading>> batches = [];

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
        if (events.Any(line => line.Fact is Fact.ReadingsImported))
            throw new ArgumentException("Readings come with the event that tells of them.", nameof(events));
        return Append(expectedVersion, events);
    }

    public ValueTask<AppendResult> AppendAsync(long expectedVersion, ReadingBatch batch, CancellationToken cancellation = default)
    {
        lock (gate)
        {
            if (batches.ContainsKey(batch.Id))
                return ValueTask.FromResult<AppendResult>(new AppendResult.Written(lines.Count, [.. lines.Where(line => line.Fact is Fact.ReadingsImported told && told.Batch == batch.Id)]));
            if (lines.Count != expectedVersion)
                return ValueTask.FromResult<AppendResult>(new AppendResult.Conflict(lines.Count));
            var taken = new SortedDictionary<long, Reading>();
            var (repeated, contradicted) = (0, 0);
            foreach (var reading in batch.Readings)
            {
                if (taken.TryAdd(reading.UtcSeconds, reading))
                    continue;
                if (taken[reading.UtcSeconds] == reading)
                    repeated++;
                else
                    contradicted++;
            }

            if (taken.Count == 0)
                throw new Refusal("There are no readings in it.");
            var beside = Merged(batch.Beside ?? ReadingSpan.None).ToDictionary(reading => reading.UtcSeconds);
            Reading[] known = [.. taken.Values.Where(reading => beside.TryGetValue(reading.UtcSeconds, out var there) && there.FilledFrom(reading) == there)];
            var text = new MemoryStream();
            ReadingLines.Write(text, taken.Values);
            var events = batch.Decided(new ReadingsTaken(
                batch.Id, taken.Count, repeated, contradicted, known.Length, known.Count(reading => reading.FilledFrom(beside[reading.UtcSeconds]) != beside[reading.UtcSeconds]), taken.First().Value.At, taken.Last().Value.At,
                Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(text.ToArray()))));
            if (events.Count == 0)
                return ValueTask.FromResult<AppendResult>(new AppendResult.Written(lines.Count, []));
            batches[batch.Id] = taken;
            return Append(expectedVersion, events);
        }
    }

    public async IAsyncEnumerable<Reading> ReadingsAsync(ReadingSpan span, [EnumeratorCancellation] CancellationToken cancellation = default)
    {
        foreach (var reading in await AllReadingsAsync(span, cancellation))
            yield return reading;
    }

    public ValueTask<IReadOnlyList<Reading>> AllReadingsAsync(ReadingSpan span, CancellationToken cancellation = default)
    {
        lock (gate)
            return ValueTask.FromResult<IReadOnlyList<Reading>>([.. Merged(span)]);
    }

    private IEnumerable<Reading> Merged(ReadingSpan span) => span.Parts.SelectMany(part => batches[part.Batch].Values)
        .Where(reading => reading.UtcSeconds >= span.FromUtc && reading.UtcSeconds <= span.ToUtc).GroupBy(reading => reading.UtcSeconds).Select(same => same.Aggregate((first, later) => first.FilledFrom(later))).OrderBy(reading => reading.UtcSeconds);

    private ValueTask<AppendResult> Append(long expectedVersion, IReadOnlyList<CellarEvent> events)
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
