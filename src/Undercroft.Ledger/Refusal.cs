namespace Undercroft.Ledger;

/// <summary>Something a person asked for that is not done, in words for that person: what, why, and what to do instead. Nothing has changed.</summary>
/// <param name="message">What is refused, why, and what to do.</param>
public sealed class Refusal(string message) : Exception(message);
