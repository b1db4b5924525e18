using Undercroft.Ledger;

namespace Undercroft.Access;

/// <summary>What a password must be: long, and not among the first that anybody would try. Any signs may be in it.</summary>
public static class PasswordRule
{
    /// <summary>Letters at least.</summary>
    public const int Shortest = 12;

    /// <summary>Letters at most; a limit only so that nobody sends a book.</summary>
    public const int Longest = 256;

    private const int Judged = 64;
    private const int GoodScore = 3; // of 0 to 4: over a hundred million guesses

    /// <summary>Words that anybody would try here first.</summary>
    private static readonly string[] OwnWords = ["undercroft", "tobacco", "cellar", "pipe", "password"];

    /// <summary>Refuses what is too short or easily guessed.</summary>
    /// <exception cref="Refusal">It is; nothing was changed.</exception>
    public static void Check(string password)
    {
        ArgumentNullException.ThrowIfNull(password);
        if (password.Length < Shortest)
            throw new Refusal($"The password is too short: {Shortest} letters at least. Four or five words that have nothing to do with each other are easy to keep.");
        if (password.Length > Longest)
            throw new Refusal($"The password is too long: {Longest} letters at most.");
        // Its first letters are enough to judge by, and the judge takes long over long ones.
        if (new Zxcvbn.Zxcvbn().EvaluatePassword(password[..Math.Min(password.Length, Judged)], OwnWords).Score < GoodScore)
            throw new Refusal("The password is among the first that a stranger would try. Take four or five words that have nothing to do with each other.");
    }
}
