using System.Collections.Frozen;
using System.Text.RegularExpressions;

namespace Undercroft.Importing.Cells;

/// <summary>Words that name a place in a home, folded; and paths of places.</summary>
internal static partial class PlaceWords
{
    private static readonly FrozenSet<string> Words = ("closet shelf shelves cellar basement attic garage cupboard cabinet drawer box bin crate room bedroom office study den kitchen pantry hall hallway wardrobe loft shed desk rack chest tote "
        + "regal keller schrank schublade kiste zimmer dachboden buro fach kammer speisekammer cave placard etagere tiroir armoire grenier bureau armario estante cajon sotano despensa cantina armadio ripiano cassetto scaffale dispensa "
        + "kast plank kelder lade zolder szafa polka piwnica szuflada skap hylla kallare källare hylde kjeller шкаф полка подвал ящик кладовка 柜 架 地下室 棚 押入れ")
        .Split(' ').Select(Folding.Fold).ToFrozenSet();

    private static readonly FrozenSet<string> Inner = "shelf box bin drawer slot crate tote rack row regal fach kiste schublade etagere tiroir boite ripiano cassetto estante cajon polka szuflada plank lade hylla hylde полка ящик 棚 架 level"
        .Split(' ').Select(Folding.Fold).ToFrozenSet();

    /// <summary>True for the name of a part of a room or a cupboard.</summary>
    public static bool IsInner(string head)
    {
        foreach (var token in Tokens.Of(Folding.Level(head)))
        {
            if (Inner.Contains(token.Text))
                return true;
        }

        return false;
    }

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
        text = Within().Replace(text.Trim(), "");
        var parts = text.Split(['/', '／', '＞', '・', '>', '\\', '→', '›', '»', ';', '\n'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length == 1)
            parts = text.Split([", ", " - ", " – ", ": "], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        return parts.Length is 0 or > 6 ? [text.Trim()] : parts;
    }

    [GeneratedRegex(@"^(?:(?:jar|tin|pouch|bag|it|glas|dose)s? )?(?:is |are |stored |kept )?(?:in|on|at|under|inside|im|in der|auf dem|auf der|dans|sur|en) (?:the |my |le |la |el |l')?(?=\p{L}{3})", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Within();
}
