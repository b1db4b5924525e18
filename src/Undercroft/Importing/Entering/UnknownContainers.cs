using System.Globalization;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;

namespace Undercroft.Importing.Entering;

/// <summary>Words for containers that name neither a kind nor a sort: they are kept as words, and a forecast cannot tell what they pass.</summary>
internal static class UnknownContainers
{
    private const int Named = 5;

    /// <summary>One remark for a person, or none.</summary>
    /// <param name="cellar">Knows the keeper's own kinds.</param>
    /// <param name="rows">Rows that are brought in.</param>
    public static IEnumerable<string> Remark(Cellar cellar, IEnumerable<RowFacts> rows)
    {
        var packages = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        foreach (var row in rows.Where(row => row is { Gone: false, Standing: not Standing.HeldBack }))
        {
            foreach (var group in row.Groups.Where(group => (group.Sort ?? row.Container?.Value) is { Words.Length: > 0 }))
            {
                if (ContainerCodes.Of(cellar, row, group) is { Kind: null, Text: { } words })
                    packages[words] = packages.GetValueOrDefault(words) + group.Count;
            }
        }

        if (packages.Count == 0)
            yield break;
        var named = packages.OrderByDescending(pair => pair.Value).Take(Named).Select(pair => string.Create(CultureInfo.InvariantCulture, $"'{pair.Key}' ({pair.Value})"));
        yield return $"Kept as words, since no kind of container is known by them: {string.Join(", ", named)}{(packages.Count > Named ? $" and {packages.Count - Named} more" : "")}. "
            + "Afterwards say for all of them at once what they are most like: on the page of packages, or with undercroft several packed-in --words WORDS --container KIND.";
    }
}
