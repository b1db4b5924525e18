using Undercroft.Ledger;

namespace Undercroft.Keeping;

/// <summary>Closed lists as people type them.</summary>
public static class Words
{
    /// <summary>The member of a closed list that a word means.</summary>
    /// <exception cref="Refusal">None; the message lists them all.</exception>
    public static T Of<T>(string word) where T : struct, Enum => CodeWords.Find<T>(word)
        ?? throw new Refusal($"'{word}' is none of: {string.Join(", ", CodeWords.All<T>())}.");
}
