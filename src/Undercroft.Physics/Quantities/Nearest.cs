namespace Undercroft.Physics.Quantities;

/// <summary>What somebody probably meant.</summary>
public static class Nearest
{
    /// <summary>The candidates that take the fewest slips (a letter more, fewer, wrong, or two swapped) to become what was typed.</summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="candidates">What there is.</param>
    /// <param name="count">At most so many.</param>
    public static IReadOnlyList<string> To(string typed, IEnumerable<string> candidates, int count = 3)
    {
        var plain = typed.Trim().ToUpperInvariant();
        return [.. candidates.Distinct(StringComparer.Ordinal)
            .Select(candidate => (candidate, slips: Slips(plain, candidate.ToUpperInvariant())))
            .OrderBy(pair => pair.slips)
            .ThenBy(pair => pair.candidate, StringComparer.Ordinal)
            .Take(count)
            .Select(pair => pair.candidate)];
    }

    /// <summary>Edits between two texts: insertion, deletion, substitution, swap of neighbours (optimal string alignment).</summary>
    public static int Slips(string a, string b)
    {
        var d = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
            d[i, 0] = i;
        for (var j = 0; j <= b.Length; j++)
            d[0, j] = j;
        for (var i = 1; i <= a.Length; i++)
        {
            for (var j = 1; j <= b.Length; j++)
            {
                var cost = a[i - 1] == b[j - 1] ? 0 : 1;
                d[i, j] = Math.Min(Math.Min(d[i - 1, j] + 1, d[i, j - 1] + 1), d[i - 1, j - 1] + cost);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                    d[i, j] = Math.Min(d[i, j], d[i - 2, j - 2] + 1);
            }
        }

        return d[a.Length, b.Length];
    }
}
