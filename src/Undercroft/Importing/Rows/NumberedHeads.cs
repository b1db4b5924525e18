using System.Globalization;
using System.Text.RegularExpressions;
using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>Heads that count: <c>Jar 1 | Jar 2 | Jar 3</c>, <c>Glas #1 | Glas #2</c>.</summary>
internal static partial class NumberedHeads
{
    /// <summary>The word of a head that ends in a number, folded; null where it does not.</summary>
    public static string? WordOf(string head) => Form().Match(Folding.Fold(Folding.Level(head))) is { Success: true } form ? form.Groups[1].Value.Trim(' ', '.', '#') : null;

    /// <summary>The words of which at least two heads count on from one to the next.</summary>
    public static IReadOnlySet<string> Words(IEnumerable<string> heads)
    {
        var counted = new Dictionary<string, List<int>>();
        foreach (var head in heads)
        {
            if (Form().Match(Folding.Fold(Folding.Level(head))) is not { Success: true } form)
                continue;
            var word = form.Groups[1].Value.Trim(' ', '.', '#');
            if (!counted.TryGetValue(word, out var numbers))
                counted[word] = numbers = [];
            numbers.Add(int.Parse(form.Groups[2].ValueSpan, CultureInfo.InvariantCulture));
        }

        return counted.Where(pair => pair.Value is { Count: >= 2 } numbers && Enumerable.Range(1, numbers.Count - 1).All(i => numbers[i] == numbers[i - 1] + 1)).Select(pair => pair.Key).ToHashSet();
    }

    [GeneratedRegex(@"^(\p{L}[\p{L} .#]*?)[ #.]*([1-9]\d?)$", RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
