namespace Undercroft.Ledger.Readings;

/// <summary>Which readings to read: batches of one place, and from when to when. A <see cref="Cellar"/> makes one, so what was undone or not yet known is not in it.</summary>
/// <param name="Parts">Batches, oldest in the ledger first: where two of them hold the same instant, the first one's reading counts.</param>
/// <param name="FromUtc">First second.</param>
/// <param name="ToUtc">Last second, itself included.</param>
public sealed record ReadingSpan(IReadOnlyList<ReadingPart> Parts, long FromUtc = Reading.Earliest, long ToUtc = Reading.Latest)
{
    /// <summary>No readings.</summary>
    public static ReadingSpan None { get; } = new([]);

    /// <summary>True where no batch reaches into it.</summary>
    public bool IsEmpty => !Reaching.Any();

    /// <summary>Batches that reach into the span, by their first instant, each with its rank in the ledger.</summary>
    internal IEnumerable<(ReadingPart Part, int Rank)> Reaching => Parts.Select((part, rank) => (Part: part, Rank: rank))
        .Where(one => one.Part.LastUtc >= FromUtc && one.Part.FirstUtc <= ToUtc).OrderBy(one => one.Part.FirstUtc);

    /// <summary>At least as many readings as lie in the span.</summary>
    internal long Most => Reaching.Sum(one => one.Part.Count);
}

/// <summary>One batch, as its event tells of it.</summary>
/// <param name="Batch">Its ID.</param>
/// <param name="FirstUtc">Its first second.</param>
/// <param name="LastUtc">Its last second.</param>
/// <param name="Count">Its readings.</param>
public readonly record struct ReadingPart(Guid Batch, long FirstUtc, long LastUtc, long Count);
