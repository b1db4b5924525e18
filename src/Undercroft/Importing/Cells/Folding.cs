using System.Globalization;
using System.Text;

namespace Undercroft.Importing.Cells;

/// <summary>Letters without case, accents and width, so that <c>GEWICHT</c>, <c>Größe</c> and full-width digits are found in a list of words.</summary>
internal static class Folding
{
    private const string Accented = "àáâãäåāăąçćčĉďđèéêëēęěėğģìíîïīıįłľńñňòóôõöøōőřŕśšşșťţțùúûüūůűųýÿžźżёйάέήίόύώϊϋΐΰςŭ";
    private const string Plain = "aaaaaaaaaccccddeeeeeeeeggiiiiiiillnnnoooooooorrsssstttuuuuuuuuyyzzzеиαεηιουωιυιυσu";

    /// <summary>Lower case, plain letters, ASCII digits, single spaces.</summary>
    public static string Fold(string text)
    {
        var folded = new StringBuilder(text.Length);
        foreach (var original in text)
        {
            var letter = char.ToLowerInvariant(Width(original));
            if (letter is >= '\u0300' and <= '\u036F' or '\u200B' or '\uFEFF')
                continue;
            if (letter < '\u0080')
            {
                if (!char.IsWhiteSpace(letter))
                    folded.Append(letter);
                else if (folded.Length > 0 && folded[^1] != ' ')
                    folded.Append(' ');
                continue;
            }

            var at = Accented.IndexOf(letter, StringComparison.Ordinal);
            if (at >= 0)
                folded.Append(Plain[at]);
            else if (letter == 'ß')
                folded.Append("ss");
            else if (letter is 'æ')
                folded.Append("ae");
            else if (letter is 'œ')
                folded.Append("oe");
            else if (!char.IsWhiteSpace(letter))
                folded.Append(letter);
            else if (folded.Length > 0 && folded[^1] != ' ')
                folded.Append(' ');
        }

        while (folded.Length > 0 && folded[^1] == ' ')
            folded.Length--;
        return folded.ToString();
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
