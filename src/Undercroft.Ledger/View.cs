namespace Undercroft.Ledger;

/// <summary>Which past to see.</summary>
/// <param name="AsOf">What was true at the end of this day by the knowledge in view; null for all.</param>
/// <param name="KnownOn">What the ledger said at this instant; null for now.</param>
/// <remarks>
/// The order of the ledger, not the clock, is the order of knowing: what stands before an event that was recorded by then is known too, even where a clock was set back between.
/// </remarks>
public readonly record struct View(DateOnly? AsOf = null, DateTimeOffset? KnownOn = null)
{
    /// <summary>Everything that is known now.</summary>
    public static View Now => default;
}
