namespace Undercroft.Ledger;

/// <summary>Why something is refused, for doors that tell programs apart what people read in a sentence.</summary>
public enum RefusalKind
{
    /// <summary>What was said cannot be read, or cannot be.</summary>
    Said,

    /// <summary>What was named is not there.</summary>
    Unknown,

    /// <summary>It could be, but what the cellar holds already stands against it; also where others write at this moment.</summary>
    Standing,

    /// <summary>This door does not lead there.</summary>
    Closed,
}

/// <summary>Something a person asked for that is not done, in words for that person: what, why, and what to do instead. Nothing has changed.</summary>
/// <param name="message">What is refused, why, and what to do.</param>
/// <param name="kind">Why.</param>
/// <param name="named">What was named as typed, where it is not there.</param>
public sealed class Refusal(string message, RefusalKind kind = RefusalKind.Said, string? named = null) : Exception(message)
{
    /// <summary>Why.</summary>
    public RefusalKind Kind => kind;

    /// <summary>What was named as typed, where it is not there; else null.</summary>
    public string? Named => named;
}
