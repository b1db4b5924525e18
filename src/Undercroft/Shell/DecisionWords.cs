using Undercroft.Ledger.Events;

namespace Undercroft.Shell;

/// <summary>Decisions in words.</summary>
public static class DecisionWords
{
    /// <summary>What becomes of it.</summary>
    public static string Of(Decision decision) => decision switch
    {
        Decision.Watch => "watch it",
        Decision.Isolate => "keep it apart",
        Decision.Reseal => "close it anew",
        Decision.Move => "move it",
        Decision.EnjoySoon => "enjoy it soon",
        Decision.Discard => "throw it away",
        _ => throw new InvalidOperationException($"No words for {decision}."),
    };
}
