namespace Undercroft.Ledger;

/// <summary>Orders names as a person would: <c>Shelf 2</c> before <c>Shelf 10</c>, upper and lower case alike, what has no name last.</summary>
/// <remarks>The base library's numeric ordering needs data of cultures, which the program leaves out.</remarks>
public sealed class NameOrder : IComparer<string?>
{
    private NameOrder()
    {
    }

    /// <summary>The only one there is.</summary>
    public static NameOrder Instance { get; } = new();

    /// <inheritdoc/>
    public int Compare(string? x, string? y)
    {
        if (x is null || y is null)
            return (x is null ? 1 : 0) - (y is null ? 1 : 0);
        var (i, j) = (0, 0);
        while (i < x.Length && j < y.Length)
        {
            var compared = char.IsAsciiDigit(x[i]) && char.IsAsciiDigit(y[j])
                ? ByValue(Number(x, ref i), Number(y, ref j))
                : char.ToUpperInvariant(x[i++]).CompareTo(char.ToUpperInvariant(y[j++]));
            if (compared != 0)
                return compared;
        }

        var rest = (x.Length - i).CompareTo(y.Length - j);
        return rest != 0 ? rest : string.CompareOrdinal(x, y);
    }

    /// <summary>Digits without leading zeros, of any length.</summary>
    private static ReadOnlySpan<char> Number(string text, ref int at)
    {
        var start = at;
        while (at < text.Length && char.IsAsciiDigit(text[at]))
            at++;
        return text.AsSpan(start, at - start).TrimStart('0');
    }

    private static int ByValue(ReadOnlySpan<char> one, ReadOnlySpan<char> other) =>
        one.Length != other.Length ? one.Length.CompareTo(other.Length) : one.CompareTo(other, StringComparison.Ordinal);
}
