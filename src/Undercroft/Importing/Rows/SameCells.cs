using System.Diagnostics.CodeAnalysis;

namespace Undercroft.Importing.Rows;

/// <summary>Rows of one sheet with the same words in all their cells.</summary>
internal sealed class SameCells : IEqualityComparer<RowFacts>
{
    private const int Fewest = 4;

    /// <summary>The only one that is needed.</summary>
    public static readonly SameCells Instance = new();

    /// <summary>True for a row of enough cells to be odd when it comes again.</summary>
    public static bool Tells(RowFacts row) => row.Source.Filled >= Fewest;

    /// <inheritdoc/>
    public bool Equals(RowFacts? x, RowFacts? y)
    {
        if (x is null || y is null || x.Sheet != y.Sheet || x.Source.Cells.Count != y.Source.Cells.Count)
            return ReferenceEquals(x, y);
        for (var i = 0; i < x.Source.Cells.Count; i++)
        {
            if (!x.Source[i].Text.AsSpan().Trim().SequenceEqual(y.Source[i].Text.AsSpan().Trim()))
                return false;
        }

        return true;
    }

    /// <inheritdoc/>
    public int GetHashCode([DisallowNull] RowFacts obj)
    {
        var hash = obj.Source.Cells.Count;
        foreach (var cell in obj.Source.Cells)
            hash = (hash * 31) + string.GetHashCode(cell.Text.AsSpan().Trim());
        return hash;
    }
}
