using System.Collections.Frozen;
using System.Text;
using Undercroft.Importing.Cells;
using Undercroft.Importing.Rows;

namespace Undercroft.Importing.Sheets;

/// <summary>Which of the older encodings a text file is in: each is tried on the beginning, and the one whose letters and words look most like writing is taken.</summary>
/// <remarks>The marks given for letters are common practice, no source: frequent letters of the languages that an encoding was made for, whole words that heads of columns are known by.</remarks>
internal static class CodePages
{
    private const int Sample = 128 << 10;
    private const double Close = 0.2;
    private const double PerWord = 0.5;
    private const int MostWords = 6;

    /// <summary>In the order in which they are preferred where they fit alike.</summary>
    private static readonly Page[] Pages =
    [
        new(1252, "Windows-1252", Latin("äöüßÄÖÜéêâîôçñóíáúãõøåæØÅÆÉÑÇÓ")),
        new(1250, "Windows-1250", Latin("ąćęłńóśźżĄĆĘŁŃÓŚŹŻáčďéěíňřšťúůýžÁČĎÉĚÍŇŘŠŤÚŮÝŽőűŐŰäöüßÄÖÜăâîşţĂŞŢđĐľĽ")),
        new(1254, "Windows-1254", Latin("ğışİŞĞçöüÇÖÜâî")),
        new(1251, "Windows-1251", Script("оеаинтсрвлк", 'Ѐ', 'ӿ')),
        new(1253, "Windows-1253", Script("αοιετσνηυρκ", 'Ͱ', 'Ͽ')),
        new(1255, "Windows-1255", Script("יוהלאמרתבשנ", '֐', '׿')),
        new(1256, "Windows-1256", Script("المينرتبوعدس", '؀', 'ۿ')),
        new(20866, "KOI8-R", Script("оеаинтсрвлк", 'Ѐ', 'ӿ')),
        new(932, "Shift-JIS", Pairs(JapaneseShift)),
        new(51932, "EUC-JP", Pairs(JapaneseUnix)),
        new(54936, "GB18030", Pairs(ChineseSimplified)),
        new(950, "Big5", Pairs(ChineseTraditional)),
        new(949, "EUC-KR", Pairs(Korean)),
    ];

    /// <summary>Encodings that are read where a person names them and never guessed: they were made for screens that nobody has any more.</summary>
    private static readonly (int Number, string Name)[] Old = [(850, "CP850"), (437, "CP437"), (852, "CP852"), (866, "CP866"), (10000, "Macintosh"), (28605, "ISO-8859-15")];

    /// <summary>Names of all of them.</summary>
    public static IEnumerable<string> Names => [.. Pages.Select(page => page.Name), .. Old.Select(page => page.Name)];

    /// <summary>The number of an encoding by its name.</summary>
    public static int? NumberOf(string name) => Pages.FirstOrDefault(page => page.Name == name)?.Number ?? (Old.FirstOrDefault(page => page.Name == name) is { Number: > 0 and var number } ? number : null);

    /// <summary>The text in one of them.</summary>
    public static string Text(string name, ReadOnlySpan<byte> bytes) => Loose(NumberOf(name) ?? throw new InvalidOperationException($"No page is called {name}."), bytes);

    private delegate double Marks(string text, ReadOnlySpan<byte> bytes);

    /// <summary>The text, the name of the encoding, and another encoding that fits about as well, with a word that shows the difference; null where none does.</summary>
    public static (string Text, string Encoding, string? Other) Decode(ReadOnlySpan<byte> bytes)
    {
        var head = Head(bytes);
        var tried = new List<(Page Page, string Text, double Score)>();
        foreach (var page in Pages)
        {
            if (Strict(page.Number, head) is { } text)
                tried.Add((page, text, page.Marks(text, head) + (PerWord * Math.Min(MostWords, KnownWords(text)))));
        }

        if (tried.Count == 0)
            return (Loose(1252, bytes), "Windows-1252", null);
        var best = tried[0];
        foreach (var one in tried)
            best = one.Score > best.Score + 1e-9 ? one : best;
        var other = tried.Where(one => one.Page != best.Page && one.Score > best.Score - Close && one.Text != best.Text).OrderByDescending(one => one.Score).FirstOrDefault();
        return (Loose(best.Page.Number, bytes), best.Page.Name, other.Page is null ? null : Difference(best.Text, other.Text, other.Page.Name));
    }

    private static string Difference(string one, string two, string name)
    {
        var words = one.Split(Breaks).Zip(two.Split(Breaks)).FirstOrDefault(pair => pair.First != pair.Second);
        return words.First is null ? name : $"{name}, which would read '{Short(words.Second)}' for '{Short(words.First)}'";
    }

    private static string Short(string word) => word.Length <= 24 ? word : word[..24];

    private static readonly char[] Breaks = [',', ';', '\t', '|', '\r', '\n', ' ', '"', '/', '(', ')', ':'];

    // Up to the last whole line, so that no letter of two bytes is cut in half.
    private static ReadOnlySpan<byte> Head(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length <= Sample)
            return bytes;
        var end = bytes[..Sample].LastIndexOf((byte)'\n');
        return bytes[..(end > 0 ? end : Sample)];
    }

    private static string? Strict(int number, ReadOnlySpan<byte> bytes)
    {
        try
        {
            return CodePagesEncodingProvider.Instance.GetEncoding(number, EncoderFallback.ExceptionFallback, DecoderFallback.ExceptionFallback)!.GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            return null;
        }
    }

    private static string Loose(int number, ReadOnlySpan<byte> bytes) => CodePagesEncodingProvider.Instance.GetEncoding(number)!.GetString(bytes);

    // Different words with a letter beyond ASCII that stand at the heads of columns or name containers and months.
    private static int KnownWords(string text)
    {
        var known = new HashSet<string>();
        foreach (var cell in text.Split([',', ';', '\t', '|', '\r', '\n'], 2_000))
        {
            var word = cell.Trim(' ', '"', '(', ')');
            if (word.Length is 0 or > 40 || word.All(char.IsAscii))
                continue;
            foreach (var part in (ReadOnlySpan<string>)[word, .. word.Split(' ', '(')])
            {
                if (part.All(char.IsAscii))
                    continue;
                var folded = Folding.Fold(part);
                if (HeadWords.Known.ContainsKey(folded) || VesselWords.Vessels.ContainsKey(folded) || DateWords.Months.ContainsKey(folded) || RowKinds.IsTotalWord(part))
                    known.Add(folded);
            }

            if (known.Count >= MostWords)
                break;
        }

        return known.Count;
    }

    // Lone letters among plain ones; signs inside words and whole words of such letters are none.
    private static Marks Latin(string frequent)
    {
        var letters = frequent.ToFrozenSet();
        return (text, _) =>
        {
            double marks = 0;
            int count = 0, run = 0;
            for (var i = 0; i < text.Length; i++)
            {
                var letter = text[i];
                if (letter < '\u0080')
                {
                    run = 0;
                    continue;
                }

                char before = i > 0 ? text[i - 1] : ' ', after = i + 1 < text.Length ? text[i + 1] : ' ';
                count++;
                run = char.IsLetter(letter) ? run + 1 : 0;
                marks += letter < '\u00A0' ? -3
                    : !char.IsLetter(letter) ? Sign(letter, before, after)
                    : char.IsLower(before) && char.IsUpper(letter) ? -1.5
                    : run >= 3 ? -1
                    : letters.Contains(letter) || Grave(letter, after) ? 1 : 0.3;
            }

            return count == 0 ? 0 : marks / count;
        };
    }

    // French and Italian: at the end of a word, or è before a consonant.
    private static bool Grave(char letter, char after) =>
        (letter is 'à' or 'ì' or 'ò' or 'ù' or 'è' or 'À' or 'È' && !char.IsLetter(after)) || (letter is 'è' or 'È' && char.IsLetter(after) && !"aeiouy".Contains(char.ToLowerInvariant(after), StringComparison.Ordinal));

    private static double Sign(char sign, char before, char after) =>
        char.IsLetter(before) && char.IsLetter(after) && sign is not ('\u2019' or '\u00AD' or '\u2018') ? -2
            : char.IsLetter(after) && sign is not ('\u201C' or '\u201E' or '\u2018' or '\u2019' or '\u00AB' or '\u00BF' or '\u00A1' or '\u2013' or '\u2014' or '\u00BB' or '\u00A0') ? -1
            : sign is '€' or '£' or '½' or '¼' or '¾' or '°' or '\u2013' or '\u2014' or '\u2019' or '\u201C' or '\u201D' or '\u201E' or '«' or '»' or '\u00A0' or '×' or '\u2026' ? 0.5 : -0.5;

    // Whole words in a script of its own; capitals stand at the beginning or throughout.
    private static Marks Script(string frequent, char from, char to)
    {
        var letters = frequent.ToFrozenSet();
        return (text, _) =>
        {
            double marks = 0;
            int count = 0, run = 0;
            for (var i = 0; i < text.Length; i++)
            {
                var letter = text[i];
                if (letter < '\u0080')
                {
                    marks -= run == 1 ? i > 1 && char.IsAsciiLetter(text[i - 2]) ? 1.5 : 0.6 : 0;
                    run = 0;
                    continue;
                }

                count++;
                if (letter < from || letter > to)
                {
                    run = 0;
                    marks += letter is '№' or '«' or '»' or '\u2013' or '\u2014' or '½' or '\u00A0' or '€' ? 0.3 : -1;
                    continue;
                }

                run++;
                var lower = char.ToLowerInvariant(letter);
                marks += i > 0 && char.IsLower(text[i - 1]) && char.IsUpper(letter) ? -1.5
                    : i > 0 && char.IsAsciiLetter(text[i - 1]) ? -1.5
                    : letters.Contains(lower) || letters.Contains(Folding.Fold(lower.ToString())[0..] is [var plain] ? plain : lower) ? 1 : 0.4;
            }

            return count == 0 ? 0 : marks / count;
        };
    }

    // Letters of two bytes, judged by the rows of the code table in which the common ones stand.
    private static Marks Pairs(Func<byte, byte, double> mark) => (_, bytes) =>
    {
        double marks = 0;
        var count = 0;
        for (var i = 0; i < bytes.Length; i++)
        {
            if (bytes[i] < 0x80)
                continue;
            var lead = bytes[i];
            var trail = i + 1 < bytes.Length ? bytes[i + 1] : (byte)0;
            var one = mark(lead, trail);
            count++;
            marks += double.IsNaN(one) ? -1 : one;
            i += double.IsNaN(one) ? 0 : 1;
        }

        return count == 0 ? 0 : marks / count;
    };

    private static double JapaneseShift(byte lead, byte trail) => lead switch
    {
        >= 0xA0 and <= 0xDF => double.NaN,
        0x81 => 0.5,
        0x82 or 0x83 => 1.2,
        >= 0x88 and <= 0x97 => 1,
        _ => 0,
    };

    private static double JapaneseUnix(byte lead, byte trail) => trail < 0xA1 ? -0.5 : lead switch
    {
        0xA4 or 0xA5 => 1.2,
        >= 0xB0 and <= 0xCF => 0.9,
        0xA1 or 0xA3 => 0.5,
        _ => 0,
    };

    private static double ChineseSimplified(byte lead, byte trail) => trail < 0xA1 ? -0.5 : lead switch
    {
        >= 0xB0 and <= 0xD7 => 1,
        >= 0xA1 and <= 0xA3 => 0.5,
        _ => 0,
    };

    private static double ChineseTraditional(byte lead, byte trail) => lead switch
    {
        >= 0xA4 and <= 0xC6 => 1,
        >= 0xA1 and <= 0xA3 => 0.5,
        _ => 0,
    };

    private static double Korean(byte lead, byte trail) => trail < 0xA1 ? -0.5 : lead switch
    {
        >= 0xB0 and <= 0xC8 => 1.2,
        >= 0xA1 and <= 0xA3 => 0.5,
        _ => -0.3,
    };

    private sealed record Page(int Number, string Name, Marks Marks);
}
