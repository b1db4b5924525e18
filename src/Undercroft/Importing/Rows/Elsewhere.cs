using System.Collections.Frozen;
using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>Names of sheets and headings under which nothing stands on the shelf.</summary>
internal static class Elsewhere
{
    public enum Kind
    {
        None,

        /// <summary>Not bought yet.</summary>
        Wished,

        /// <summary>No longer there.</summary>
        Gone,

        /// <summary>Sums of other sheets.</summary>
        Summary,
    }

    private static readonly (Kind Kind, FrozenSet<string> Words)[] Rows =
    [
        (Kind.Wished, Set("wishlist|wish list|wish|wants|want list|wantlist|to buy|tobuy|shopping list|to try|on order|preorder|wunschliste|einkaufsliste|liste d'envies|lista de deseos|lista desideri|хочу|хотелки|心愿单|欲しい物")),
        (Kind.Gone, Set("finished|smoked|smoked up|gone|empty|sold|traded|given away|used up|past|history|archive|aufgeraucht|leer|verbraucht|finis|fumes|terminados|finiti|выкурено|用完")),
        (Kind.Summary, Set("summary|totals|overview|stats|statistics|pivot|chart|charts|dashboard|ubersicht|zusammenfassung|statistik|resume|resumen|riepilogo|сводка|汇总|集計")),
    ];

    public static Kind Of(string name)
    {
        var folded = Folding.Fold(name).Trim(' ', ':', '-', '=', '*', '#', '_', '.');
        foreach (var (kind, words) in Rows)
        {
            if (words.Contains(folded))
                return kind;
        }

        return Kind.None;
    }

    private static FrozenSet<string> Set(string words) => words.Split('|').Select(Folding.Fold).ToFrozenSet();
}
