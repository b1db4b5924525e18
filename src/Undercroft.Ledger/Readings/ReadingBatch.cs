using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;

namespace Undercroft.Ledger.Readings;

/// <summary>Readings on their way into a ledger, together with the event that tells of them.</summary>
/// <param name="Id">The batch's own ID. The same batch appended twice is written once.</param>
/// <param name="Readings">
/// Read once, one at a time, while the batch is written: a file of any length passes through without being held in memory. What it throws is thrown on, and nothing is kept.
/// </param>
/// <param name="Decide">
/// Told what came, returns the events to write with it: one <see cref="Fact.ReadingsImported"/> of this batch (see <see cref="ReadingsTaken.Fact"/>), and any others, such as the place.
/// None: nothing is kept, the readings neither.
/// </param>
/// <param name="Beside">Readings that are there already, to count what is known (<see cref="ReadingsTaken.Known"/>); usually <c>cellar.ReadingsOf(place, series)</c>.</param>
public sealed record ReadingBatch(Guid Id, IEnumerable<Reading> Readings, Func<ReadingsTaken, IReadOnlyList<CellarEvent>> Decide, ReadingSpan? Beside = null)
{
    /// <summary>Makes sure that what is written tells of what was taken.</summary>
    /// <exception cref="ArgumentException">The events do not, or do twice.</exception>
    internal IReadOnlyList<CellarEvent> Decided(ReadingsTaken taken)
    {
        var events = Decide(taken);
        if (events.Count == 0)
            return events;
        Fact.ReadingsImported[] told = [.. events.Select(line => line.Fact).OfType<Fact.ReadingsImported>()];
        if (told.Length != 1 || told[0].Batch != Id || told[0].Count != taken.Count || told[0].Sha256 != taken.Sha256 || told[0].First != taken.First || told[0].Last != taken.Last)
            throw new ArgumentException("A batch of readings is written with exactly one event that tells of it, as it was taken.");
        return events;
    }
}

/// <summary>What came of a stream of readings.</summary>
/// <param name="Batch">The batch's ID.</param>
/// <param name="Count">Readings kept in the batch.</param>
/// <param name="Repeated">Readings left out because the stream held the same instant with the same values before.</param>
/// <param name="Contradicted">Readings left out because the stream held the same instant with other values before; the first counts.</param>
/// <param name="Known">Of those kept, how many stand at an instant that is in the readings beside already and note nothing that is lacking there. They are kept, and not told twice when read.</param>
/// <param name="Differing">Of the known, how many have other values there; the older ones count as long as they are not undone.</param>
/// <param name="First">First instant.</param>
/// <param name="Last">Last instant.</param>
/// <param name="Sha256">Of the readings as <see cref="ReadingLines"/> writes them, in order of time; lower-case hexadecimal.</param>
public sealed record ReadingsTaken(
    Guid Batch, long Count, long Repeated, long Contradicted, long Known, long Differing, DateTimeOffset First, DateTimeOffset Last, string Sha256)
{
    /// <summary>True where nothing came that was not there already.</summary>
    public bool AddsNothing => Count == Known;

    /// <summary>From the day of the first reading to the day of the last, UTC.</summary>
    public UnevenDate Happened => UnevenDate.Between(DateOnly.FromDateTime(First.UtcDateTime), DateOnly.FromDateTime(Last.UtcDateTime));

    /// <summary>The fact that tells of it.</summary>
    /// <param name="about">Place, file and what was assumed; its batch, counts and digest are filled in here.</param>
    public Fact.ReadingsImported Fact(Fact.ReadingsImported about)
    {
        ArgumentNullException.ThrowIfNull(about);
        return about with { Batch = Batch, Count = Count, First = First, Last = Last, Sha256 = Sha256, Repeated = (int)Math.Min(Repeated + Contradicted, int.MaxValue) };
    }
}
