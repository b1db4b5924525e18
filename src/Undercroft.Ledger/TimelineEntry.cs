using System.Globalization;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;

namespace Undercroft.Ledger;

/// <summary>A fact about one thing, at its place in time, after corrections.</summary>
/// <param name="Event">The event that brought it; name it in a correction or an undo.</param>
/// <param name="Version">Its place in the ledger.</param>
/// <param name="Day">The day by which it is sorted: the midpoint of <paramref name="Happened"/>, or the day of recording.</param>
/// <param name="Happened">When it happened, as well as that is known.</param>
/// <param name="Recorded">When it was written down.</param>
/// <param name="Fact">What happened.</param>
public sealed record TimelineEntry(Guid Event, long Version, DateOnly Day, UnevenDate Happened, DateTimeOffset Recorded, Fact Fact)
{
    /// <summary>When it happened in words; the day of recording where nobody said.</summary>
    public string InWords => Happened.IsKnown ? Happened.InWords() : Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}

/// <summary>A fact of a known case at its place in time.</summary>
/// <typeparam name="T">The case.</typeparam>
/// <param name="Entry">Where it stands.</param>
/// <param name="Fact">What happened.</param>
public readonly record struct Timed<T>(TimelineEntry Entry, T Fact) where T : Fact
{
    /// <summary>The day by which it is sorted.</summary>
    public DateOnly Day => Entry.Day;
}

/// <summary>One event as the ledger sees it today.</summary>
/// <param name="Event">As it was written down.</param>
/// <param name="Fact">After corrections.</param>
/// <param name="Happened">After corrections.</param>
/// <param name="CorrectedBy">The correction in force, if any.</param>
/// <param name="UndoneBy">The undo in force, if any.</param>
public sealed record LedgerLine(CellarEvent Event, Fact Fact, UnevenDate Happened, Guid? CorrectedBy, Guid? UndoneBy)
{
    /// <summary>False where it was undone.</summary>
    public bool Holds => UndoneBy is null;

    /// <summary>The day by which it is sorted.</summary>
    public DateOnly Day { get; } = Happened.Midpoint ?? DateOnly.FromDateTime(Event.Recorded.UtcDateTime);
}
