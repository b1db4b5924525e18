using System.Globalization;

namespace Undercroft.Importing.Cells;

/// <summary>Letters without case, accents and width, so that <c>GEWICHT</c>, <c>Größe</c> and full-width digits are found in a list of words.</summary>
internal static class Folding
{
    private const string Accented = "àáâãäåāăąçćčĉďđèéêëēęěėğģìíîïīıįłľńñňòóôõöøōőřŕśšşșťţțùúûüūůűųýÿžźżёйάέήίόύώϊϋΐΰςŭ";
    private const string Plain = "aaaaaaaaaccccddeeeeeeeeggiiiiiiillnnnoooooooorrsssstttuuuuuuuuyyzzzеиαεηιουωιυιυσu";

    /// <summary>Lower case, plain letters, ASCII digits, single spaces.</summary>
    public static string Fold(string text)
    {
        if (IsFolded(text))
            return text;
        const int few = 256;
        var most = text.Length * 2; // a sharp s and the ligatures become two letters
        var folded = most <= few ? stackalloc char[few] : new char[most];
        var length = 0;
        foreach (var original in text)
        {
            var letter = char.ToLowerInvariant(Width(original));
            if (letter is >= '\u0300' and <= '\u036F' or '\u200B' or '\uFEFF')
                continue;
            if (char.IsWhiteSpace(letter))
            {
                if (length > 0 && folded[length - 1] != ' ')
                    folded[length++] = ' ';
                continue;
            }

            var at = letter < '\u0080' ? -1 : Accented.IndexOf(letter, StringComparison.Ordinal);
            if (letter is 'ß' or 'æ' or 'œ')
                (folded[length], folded[length + 1], length) = (letter == 'ß' ? 's' : letter == 'æ' ? 'a' : 'o', letter == 'ß' ? 's' : 'e', length + 2);
            else
                folded[length++] = at >= 0 ? Plain[at] : letter;
        }

        return new string(folded[..length].TrimEnd(' '));
    }

    // Plain small letters, digits and single spaces within: most words of most cells.
    private static bool IsFolded(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            var letter = text[i];
            if (letter is >= '\u0080' or (>= 'A' and <= 'Z') or < ' ' || (letter == ' ' && (i == 0 || i == text.Length - 1 || text[i - 1] == ' ')))
                return false;
        }

        return true;
    }

    /// <summary>Digits of any script as ASCII digits and full-width signs as plain ones; every other character unchanged.</summary>
    public static char Width(char character)
    {
        if (character < '\u0080')
            return character;
        if (character is >= '\uFF01' and <= '\uFF5E')
            return (char)(character - 0xFEE0);
        if (character is '\u3000' or '\u066B' or '\u066C')
            return character == '\u3000' ? ' ' : character == '\u066B' ? '.' : ',';
        var digit = CharUnicodeInfo.GetDecimalDigitValue(character);
        return digit >= 0 && character is not ('²' or '³' or '¹') ? (char)('0' + digit) : character;
    }

    /// <summary>The text with plain digits and plain dashes and quotation marks.</summary>
    public static string Level(string text)
    {
        var needed = false;
        foreach (var character in text)
            needed |= character >= '\u0080';
        if (!needed)
            return text;
        return string.Create(text.Length, text, static (target, source) =>
        {
            for (var i = 0; i < source.Length; i++)
            {
                target[i] = source[i] switch
                {
                    '‘' or '’' or '‛' or '´' or '′' or '＇' => '\'',
                    '‐' or '‑' or '‒' or '–' or '—' or '−' => '-',
                    '“' or '”' or '„' => '"',
                    _ => Width(source[i]),
                };
            }
        });
    }
}
