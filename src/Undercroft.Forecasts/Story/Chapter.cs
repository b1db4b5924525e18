using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Forecasts.Story;

/// <summary>A stretch of a package's life in which it stands still: one container, one place, open or closed.</summary>
/// <param name="FromDay">Days after the first day of the story.</param>
/// <param name="Container">What it is in.</param>
/// <param name="Place">Where it stands; null where nobody knows.</param>
/// <param name="Open">Opened for use, its lid put back by hand.</param>
/// <param name="Turn">What happened on the first day.</param>
/// <param name="Entry">Place in the package's timeline of the entry that began it: what was seen earlier on the same day belongs to the chapter before.</param>
public sealed record Chapter(double FromDay, Container Container, PlaceId? Place, bool Open, Turn Turn, int Entry);

/// <summary>What happens at the start of a chapter.</summary>
public abstract record Turn
{
    private Turn()
    {
    }

    /// <summary>Nothing but a change of place, or the end of what is recorded.</summary>
    public sealed record Stays : Turn;

    /// <summary>Closed with fresh air inside: the beginning, or another container.</summary>
    public sealed record Sealed : Turn;

    /// <summary>The air inside was replaced by the room's.</summary>
    public sealed record Aired : Turn;

    /// <summary>Leaf went out, and the air was replaced.</summary>
    /// <param name="Mass">As it was, with its water.</param>
    public sealed record Taken(StatedMass Mass) : Turn;

    /// <summary>Water went in, or out, and the air was replaced.</summary>
    /// <param name="Mass">Positive in.</param>
    public sealed record Watered(StatedMass Mass) : Turn;
}
