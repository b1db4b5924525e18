using System.Collections.Frozen;

namespace Undercroft.Importing.Cells;

/// <summary>Words that name a place in a home, folded; and paths of places.</summary>
internal static class PlaceWords
{
    private static readonly FrozenSet<string> Words = ("closet shelf shelves cellar basement attic garage cupboard cabinet drawer box bin crate room bedroom office study den kitchen pantry hall hallway wardrobe loft shed desk rack chest tote "
        + "regal keller schrank schublade kiste zimmer dachboden buro fach kammer speisekammer cave placard etagere tiroir armoire grenier bureau armario estante cajon sotano despensa cantina armadio ripiano cassetto scaffale dispensa "
        + "kast plank kelder lade zolder szafa polka piwnica szuflada skap hylla kallare källare hylde kjeller шкаф полка подвал ящик кладовка 柜 架 地下室 棚 押入れ")
        .Split(' ').Select(Folding.Fold).ToFrozenSet();

    /// <summary>True where a word of the text names a place.</summary>
    public static bool Names(string text)
    {
        foreach (var token in Tokens.Of(Folding.Level(text)))
        {
            if (token.Kind == TokenKind.Word && Words.Contains(token.Text))
                return true;
        }

        return false;
    }

    /// <summary>From the outermost place inwards: <c>closet / top shelf</c> is two.</summary>
    public static IReadOnlyList<string> Path(string text)
    {
        var parts = text.Split(['/', '>', '\\', '→', '›', '»', ';', '\n'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length == 1)
            parts = text.Split([", ", " - ", " – ", ": "], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        return parts.Length is 0 or > 6 ? [text.Trim()] : parts;
    }
}
