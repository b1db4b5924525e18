using System.Globalization;

namespace Undercroft.Importing.Cells;

/// <summary>What a token is.</summary>
internal enum TokenKind
{
    Number,
    Word,
    Mark,
}

/// <summary>A number, a word or a mark of a cell.</summary>
/// <param name="Kind">Which of them.</param>
/// <param name="Text">As folded.</param>
/// <param name="Value">Of a number.</param>
/// <param name="Other">The other reading of a number such as <c>1.234</c>, else null.</param>
/// <param name="Start">Where it begins in the levelled text.</param>
/// <param name="End">Where it ends, exclusive.</param>
internal readonly record struct Token(TokenKind Kind, string Text, double Value, double? Other, int Start, int End)
{
    public bool Is(string text) => Kind != TokenKind.Number && Text == text;
}

/// <summary>Cuts a cell into numbers, words and marks. Digits and letters that touch are cut apart: <c>2x50g</c> is four tokens.</summary>
internal static class Tokens
{
    private const double Largest = 1e15;

    /// <summary>The tokens of a levelled text.</summary>
    public static List<Token> Of(string text)
    {
        var tokens = new List<Token>();
        for (var i = 0; i < text.Length;)
        {
            var c = text[i];
            if (char.IsWhiteSpace(c))
            {
                i++;
            }
            else if (char.IsAsciiDigit(c) || Fraction(c) > 0 || (c is '.' or ',' && i + 1 < text.Length && char.IsAsciiDigit(text[i + 1]) && (i == 0 || !char.IsLetterOrDigit(text[i - 1]))))
            {
                i = Number(text, i, tokens);
            }
            else if (char.IsLetter(c))
            {
                var start = i;
                while (i < text.Length && (char.IsLetter(text[i]) || text[i] is >= '\u0300' and <= '\u036F') && (i == start || !Parts(text[i - 1], text[i])))
                    i++;
                tokens.Add(new Token(TokenKind.Word, Folding.Fold(text[start..i]), 0, null, start, i));
            }
            else if (c == '-' && tokens.Count > 0 && tokens[^1] is { Kind: TokenKind.Number } before && before.End == i && i + 1 < text.Length && char.IsLetter(text[i + 1]))
            {
                i++;
            }
            else
            {
                tokens.Add(new Token(TokenKind.Mark, c.ToString(), 0, null, i, i + 1));
                i++;
            }
        }

        return tokens;
    }

    private static int Number(string text, int start, List<Token> tokens)
    {
        var i = start;
        if (Fraction(text[i]) > 0)
        {
            tokens.Add(new Token(TokenKind.Number, text[i].ToString(), Fraction(text[i]), null, i, i + 1));
            return i + 1;
        }

        while (i < text.Length && (char.IsAsciiDigit(text[i]) || (i + 1 < text.Length && char.IsAsciiDigit(text[i + 1])
            && (text[i] is '.' or ',' || ThousandsMark(text, i)))))
        {
            i++;
        }

        var digits = text[start..i];
        var (value, other) = Read(digits);

        // 1½, 1 ½ and 1 1/2
        var after = i;
        while (after < text.Length && text[after] == ' ')
            after++;
        if (after < text.Length && Fraction(text[after]) > 0 && other is null)
        {
            value += Fraction(text[after]);
            i = after + 1;
        }
        else if (Slash(text, i) is { } half && half.End > i)
        {
            value /= half.Value;
            other = null;
            i = half.End;
        }
        else if (after > i && after < text.Length && char.IsAsciiDigit(text[after]) && after + 2 < text.Length
            && Slash(text, after + 1) is { } part && part.End > after + 1 && value < 100)
        {
            value += (text[after] - '0') / part.Value;
            i = part.End;
        }

        tokens.Add(new Token(TokenKind.Number, text[start..i], value, other, start, i));
        return i;
    }

    // "/2", "/4", "/8" after a digit and before no further digit or slash: a fraction of a unit, not a date.
    private static (double Value, int End)? Slash(string text, int at)
    {
        if (at + 1 >= text.Length || text[at] is not ('/' or '⁄') || text[at + 1] is not ('2' or '3' or '4' or '8') || at == 0 || text[at - 1] is < '1' or > '7')
            return null;
        if (at >= 2 && char.IsAsciiDigit(text[at - 2]))
            return null;
        var end = at + 2;
        if (end < text.Length && (char.IsAsciiDigit(text[end]) || text[end] is '/' or '.' or ','))
            return null;
        return text[at - 1] < text[at + 1] ? (text[at + 1] - '0', end) : null;
    }

    private static bool ThousandsMark(string text, int at)
    {
        var narrow = text[at] is '\u00A0' or '\u202F' or '\u2009' or '\'' || (text[at] == ' ' && at + 3 < text.Length && (text.AsSpan(at + 1, 3).SequenceEqual("000") || OnlyDigits(text)));
        if (!narrow || at == 0 || !char.IsAsciiDigit(text[at - 1]) || at + 3 >= text.Length)
            return false;
        for (var k = 1; k <= 3; k++)
        {
            if (!char.IsAsciiDigit(text[at + k]))
                return false;
        }

        return at + 4 >= text.Length || !char.IsAsciiDigit(text[at + 4]);
    }

    // "50g缶" and "8オンス瓶": where the script changes, a word ends.
    private static bool Parts(char one, char two) =>
        (one < '\u0250' && two >= '\u2E80') || (one is >= '\u30A0' and <= '\u30FF' && two is >= '\u4E00' and <= '\u9FFF');

    // "1 250" alone in a cell is one number.
    private static bool OnlyDigits(string text)
    {
        foreach (var letter in text)
        {
            if (!char.IsAsciiDigit(letter) && letter is not (' ' or ',' or '.'))
                return false;
        }

        return true;
    }

    /// <summary>The value of digits with points, commas and thousands marks; both values where one point or comma stands before three digits.</summary>
    internal static (double Value, double? Other) Read(string digits)
    {
        var text = digits.Replace("'", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal).Replace("\u00A0", "", StringComparison.Ordinal)
            .Replace("\u202F", "", StringComparison.Ordinal).Replace("\u2009", "", StringComparison.Ordinal);
        int points = text.Count(c => c == '.'), commas = text.Count(c => c == ',');
        if (points > 0 && commas > 0)
        {
            var decimalMark = text.LastIndexOf('.') > text.LastIndexOf(',') ? '.' : ',';
            return (Parse(text.Replace(decimalMark == '.' ? "," : ".", "", StringComparison.Ordinal).Replace(',', '.')), null);
        }

        if (points + commas > 1)
            return (Parse(text.Replace(".", "", StringComparison.Ordinal).Replace(",", "", StringComparison.Ordinal)), null);
        if (points + commas == 0)
            return (Parse(text), null);
        var at = text.IndexOfAny(['.', ',']);
        var whole = Parse(text.Replace(',', '.'));
        return text.Length - at - 1 == 3 && at is >= 1 and <= 3 && text[0] != '0'
            ? (whole, Parse(text.Remove(at, 1)))
            : (whole, null);
    }

    // No unit carries a number of this size over the edge of what a double holds.
    private static double Parse(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && value < Largest ? value : Largest;

    private static double Fraction(char c) => c switch
    {
        '½' => 0.5,
        '¼' => 0.25,
        '¾' => 0.75,
        '⅓' => 1 / 3.0,
        '⅔' => 2 / 3.0,
        '⅛' => 0.125,
        _ => 0,
    };
}
