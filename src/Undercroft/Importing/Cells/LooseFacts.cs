using System.Text.RegularExpressions;

namespace Undercroft.Importing.Cells;

/// <summary>What a date in running words is about.</summary>
public enum DateRole
{
    /// <summary>Nothing is said.</summary>
    Unsaid,

    /// <summary>Made or tinned.</summary>
    Made,

    /// <summary>Put into its container.</summary>
    Sealed,

    /// <summary>Bought or received.</summary>
    Bought,

    /// <summary>Opened.</summary>
    Opened,

    /// <summary>Used up or given away.</summary>
    Gone,
}

/// <summary>Dates and places among other words of a cell: <c>tin '15</c>, <c>jarred 3/2014, opened 2019</c>, <c>closet / top shelf</c>.</summary>
internal static partial class LooseFacts
{
    /// <summary>The dates with their roles, the place, and the words that are neither.</summary>
    /// <param name="text">Words of a cell.</param>
    /// <param name="today">The present.</param>
    /// <param name="bareYears">True where a year without any mark around it is taken, too.</param>
    public static (List<(DateRole Role, DateCell Date, string Words)> Dates, string? Place, string Others) Of(string text, DateOnly today, bool bareYears)
    {
        var dates = new List<(DateRole, DateCell, string)>();
        var rest = new List<string>();
        string? place = null;
        foreach (var piece in Pieces().Split(Folding.Level(text)))
        {
            var left = piece.Trim(' ', '.', ':');
            if (left.Length == 0)
                continue;
            if (Dated(left, today, bareYears) is { } found)
            {
                dates.Add(found);
                continue;
            }

            var match = Inner().Match(left);
            if (match.Success && Dated(match.Value, today, bareYears) is { } inner)
            {
                dates.Add(inner);
                left = (left[..match.Index] + left[(match.Index + match.Length)..]).Trim(' ', ',', '-', '(', ')');
            }

            if (left.Length == 0)
                continue;
            if (place is null && PlaceWords.Names(left) && !left.Any(char.IsAsciiDigit) | left.Contains('/', StringComparison.Ordinal) | left.Length < 30)
                place = left;
            else
                rest.Add(left);
        }

        return (dates, place, string.Join(", ", rest));
    }

    private static (DateRole Role, DateCell Date, string Words)? Dated(string piece, DateOnly today, bool bareYears)
    {
        var folded = Folding.Fold(piece);
        var lead = Lead().Match(folded);
        var role = Role(lead.Success ? lead.Groups[1].Value : "");
        var text = role is null ? folded : folded[lead.Length..];
        if (text.Length == 0 || (role is null && !text.Any(char.IsAsciiDigit)))
            return null;
        // Without any word or mark, four digits may be a number in a name.
        if (role is null && !bareYears && !Marked().IsMatch(text))
            return null;
        var date = DateText.Read(text, today);
        return date is DateCell.Known or DateCell.Either or DateCell.Relative || (date is DateCell.Doubtful && role is not null)
            ? (role ?? DateRole.Unsaid, date, piece)
            : null;
    }

    private static DateRole? Role(string word) => word switch
    {
        "tin" or "tins" or "tinned" or "tin date" or "dated" or "made" or "from" or "vintage" or "production" or "produced" or "dose" or "jahrgang" or "annee" or "boite" or "lata" => DateRole.Made,
        "jar" or "jarred" or "sealed" or "packed" or "cellared" or "jar date" or "put up" or "filled" or "bottled" or "canned" or "eingelagert" or "abgefullt" => DateRole.Sealed,
        "bought" or "purchased" or "acquired" or "got" or "received" or "gekauft" or "achete" or "comprado" => DateRole.Bought,
        "opened" or "open" or "open since" or "popped" or "cracked" or "geoffnet" or "ouvert" => DateRole.Opened,
        "finished" or "gone" or "emptied" or "sold" => DateRole.Gone,
        _ => null,
    };

    [GeneratedRegex(@"[,;|\n\r\t()\[\]]+|\s+[-–—]\s+|(?<=\p{L})\s+/\s+(?=\D*\d)", RegexOptions.CultureInvariant)]
    private static partial Regex Pieces();

    [GeneratedRegex(@"^(tin date|jar date|open since|put up|\p{L}+)(?:\s+(?:in|on|about|am|im|le|en|el))?[\s:.]*(?=['~\d]|ca?\b|circa|spring|summer|fall|autumn|winter|early|mid|late|last|this|yesterday|letzte|gestern|vor |jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)", RegexOptions.CultureInvariant)]
    private static partial Regex Lead();

    [GeneratedRegex(@"^'\d\d$|^ca?\.? |^circa|\d[-/.]\d|\p{L}{3,}\.? '?\d|~", RegexOptions.CultureInvariant)]
    private static partial Regex Marked();

    [GeneratedRegex(@"(?:(?<![\p{L}\d])(?:tin(?:ned)?|dated|made|jarred|filled|sealed|packed|cellared|bought|purchased|opened|finished)[ :]+(?:in |on )?)?(?<![\p{L}\d])(?:'\d\d(?!\d)|\d{1,2}[/.-]\d{1,2}[/.-]\d{2,4}|\d{4}-\d\d(?:-\d\d)?|\d{1,2}[/.]\d{4}|(?:ca\.? ?|circa |~ ?)\d{4}|(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.? '?\d{2,4}|(?:spring|summer|fall|autumn|winter) '?\d{2,4}|(?<=(?:tin(?:ned)?|dated|made|jarred|filled|sealed|packed|cellared|bought|purchased|opened|finished)[ :]+(?:in |on )?)\d{4})(?![\p{L}\d])", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Inner();
}
