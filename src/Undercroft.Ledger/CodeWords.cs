using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Undercroft.Ledger;

/// <summary>The words by which closed lists are written in the ledger and on the command line: <c>LidLoose</c> is <c>lid-loose</c>.</summary>
/// <remarks>The words are stored for decades. Renaming a member would rename its word: the snapshot tests of the events hold every word.</remarks>
public static class CodeWords
{
    /// <summary>The word of a value.</summary>
    public static string Of<T>(T value) where T : struct, Enum =>
        List<T>.WordOf.TryGetValue(value, out var word) ? word : throw new ArgumentOutOfRangeException(nameof(value), value, $"Not a {typeof(T).Name}.");

    /// <summary>Every word of a list, in its order.</summary>
    public static IReadOnlyList<string> All<T>() where T : struct, Enum => [.. Enum.GetValues<T>().Select(Of)];

    /// <summary>The value of a word; case and spaces for hyphens are forgiven.</summary>
    /// <returns>Null where there is no such word.</returns>
    public static T? Find<T>(string? word) where T : struct, Enum
    {
        if (List<T>.ValueOf.TryGetValue(word ?? "", out var value))
            return value;
        return List<T>.ValueOf.TryGetValue((word ?? "").Trim().Replace(' ', '-').Replace('_', '-').ToLowerInvariant(), out value) ? value : null;
    }

    private static string Spelt(string name)
    {
        var word = new StringBuilder();
        foreach (var letter in name)
        {
            if (char.IsUpper(letter) && word.Length > 0)
                word.Append('-');
            word.Append(char.ToLowerInvariant(letter));
        }

        return word.ToString();
    }

    /// <summary>One list, spelt once.</summary>
    private static class List<T> where T : struct, Enum
    {
        internal static readonly Dictionary<T, string> WordOf = Enum.GetValues<T>().Distinct().ToDictionary(value => value, value => Spelt(Enum.GetName(value)!));
        internal static readonly Dictionary<string, T> ValueOf = WordOf.ToDictionary(pair => pair.Value, pair => pair.Key, StringComparer.Ordinal);
    }
}

/// <summary>A member of a closed list as its word.</summary>
/// <typeparam name="T">The list.</typeparam>
public sealed class CodeWordJson<T> : JsonConverter<T> where T : struct, Enum
{
    /// <inheritdoc/>
    public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var word = reader.TokenType == JsonTokenType.String ? reader.GetString() : null;
        return CodeWords.Find<T>(word) is { } value && CodeWords.Of(value) == word
            ? value
            : throw new JsonException($"'{word}' is none of {string.Join(", ", CodeWords.All<T>())}.");
    }

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => writer.WriteStringValue(CodeWords.Of(value));
}
