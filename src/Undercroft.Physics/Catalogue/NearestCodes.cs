namespace Undercroft.Physics.Catalogue;

/// <summary>Codes like a mistyped one, by edit distance.</summary>
internal static class NearestCodes
{
    public static IReadOnlyList<string> To(string code, IEnumerable<string> codes, int count) =>
        [.. codes.OrderBy(candidate => Distance(code.Trim().ToLowerInvariant(), candidate)).ThenBy(candidate => candidate, StringComparer.Ordinal).Take(count)];

    private static int Distance(string from, string to)
    {
        var previous = Enumerable.Range(0, to.Length + 1).ToArray();
        for (var i = 1; i <= from.Length; i++)
        {
            var current = new int[to.Length + 1];
            current[0] = i;
            for (var j = 1; j <= to.Length; j++)
            {
                var swap = previous[j - 1] + (from[i - 1] == to[j - 1] ? 0 : 1);
                current[j] = Math.Min(swap, Math.Min(previous[j], current[j - 1]) + 1);
            }

            previous = current;
        }

        return previous[to.Length];
    }
}
