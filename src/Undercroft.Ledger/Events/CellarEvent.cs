using System.Text.Json.Serialization;
using Undercroft.Ledger.Dates;

namespace Undercroft.Ledger.Events;

/// <summary>One line of the ledger: a fact, when it happened, and when and by whom it was written down. Lines are never changed or removed.</summary>
/// <param name="Version">Its place in the ledger, from 1; 0 while it is not yet written.</param>
/// <param name="Id">Its own ID; the same event appended twice is written once.</param>
/// <param name="Happened">When it happened, as well as that is known. Unknown sorts as if it happened when it was recorded.</param>
/// <param name="Recorded">When it was written down, UTC.</param>
/// <param name="Fact">What happened.</param>
/// <param name="Who">Person or device, in free words; null where not said.</param>
/// <param name="Cause">The event that brought it, such as an import; undoing the cause undoes it too.</param>
public sealed record CellarEvent(
    long Version, Guid Id, UnevenDate Happened, DateTimeOffset Recorded, [property: JsonPropertyOrder(1)] Fact Fact, string? Who = null, Guid? Cause = null)
{
    /// <summary>A new event that is not yet written.</summary>
    /// <param name="fact">What happened.</param>
    /// <param name="happened">When it happened.</param>
    /// <param name="recorded">Now; take it from a <see cref="TimeProvider"/>.</param>
    /// <param name="who">Person or device.</param>
    /// <param name="cause">The event that brought it.</param>
    public static CellarEvent New(Fact fact, UnevenDate happened, DateTimeOffset recorded, string? who = null, Guid? cause = null) =>
        new(0, Guid.CreateVersion7(recorded), happened, recorded.ToUniversalTime(), fact, who, cause);

    /// <summary>The day by which it is sorted: the midpoint of <see cref="Happened"/>, or the day of recording where that is unknown.</summary>
    [JsonIgnore]
    public DateOnly Day => Happened.Midpoint ?? DateOnly.FromDateTime(Recorded.UtcDateTime);
}
