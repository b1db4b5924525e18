using Undercroft.Ledger;
using Undercroft.Shell.Web;

namespace Undercroft.Access;

/// <summary>What somebody may do, as words.</summary>
public static class ScopeWords
{
    private static readonly (Scope Scope, string Word, string Meaning)[] Words =
    [
        (Scope.Read, "read", "see everything that is kept"),
        (Scope.Measure, "measure", "write down weighings, humidity, looks and readings"),
        (Scope.Write, "write", "write down anything"),
        (Scope.Calendar, "calendar", "fetch the calendar of due dates"),
    ];

    /// <summary>All of them, separated by commas.</summary>
    public static string All { get; } = string.Join(", ", Words.Select(word => word.Word));

    /// <summary>Words with their meaning, for a choice.</summary>
    public static IReadOnlyList<(string Word, string Meaning)> Choices { get; } = [.. Words.Select(word => (word.Word, word.Meaning))];

    /// <summary>As written, such as <c>read,measure</c>.</summary>
    public static string Of(Scope may) => string.Join(',', Words.Where(word => may.HasFlag(word.Scope)).Select(word => word.Word));

    /// <summary>From words separated by commas.</summary>
    /// <exception cref="Refusal">One of them is none.</exception>
    public static Scope Read(string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return words.Split([',', ' '], StringSplitOptions.RemoveEmptyEntries)
            .Aggregate(Scope.None, (sum, typed) => sum | (Words.FirstOrDefault(word => string.Equals(word.Word, typed, StringComparison.OrdinalIgnoreCase)) is { Word: not null } known
                ? known.Scope
                : throw new Refusal($"'{typed}' is nothing that a token can be good for. Say one or more of: {All}.")));
    }
}
