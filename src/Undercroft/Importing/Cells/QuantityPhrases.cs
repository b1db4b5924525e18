using System.Globalization;
using System.Text.RegularExpressions;

namespace Undercroft.Importing.Cells;

/// <summary>Phrases for numbers and halves in the languages that sheets are kept in, as digits: <c>half a dozen</c>, <c>mezza dozzina</c>, <c>полкило</c>, <c>三缶</c>. The words around them stay.</summary>
/// <remarks>What is only about so many, as a French <c>dizaine</c> or a German <c>ein paar</c>, is left as it is and asked.</remarks>
internal static partial class QuantityPhrases
{
    private const string Digits = "〇一二三四五六七八九";

    /// <summary>The text with such phrases as digits.</summary>
    public static string AsDigits(string text)
    {
        if (!Wordy(text))
            return text;
        text = HalfDozen().Replace(text, "6 ");
        text = Dozens().Replace(text, match => string.Create(CultureInfo.InvariantCulture, $"{12 * (Times(match))} "));
        text = Pair().Replace(text, "2 ");
        // A phrase alone in its cell counts packages.
        if (text.Length > 0 && text[^1] == ' ' && text.AsSpan().Trim() is { Length: <= 3 } whole && int.TryParse(whole, NumberStyles.None, CultureInfo.InvariantCulture, out _))
            text += "pcs";
        text = HalfMetric().Replace(text, match => match.Groups["kilo"].Success ? "500 g " : "250 g ");
        text = OneAndHalf().Replace(text, "1.5 ");
        text = Han().Replace(text, match => string.Create(CultureInfo.InvariantCulture, $"{Number(match.Groups[1].Value)} {match.Groups[2].Value}"));
        text = Apiece().Replace(text, " each ");
        text = HanEach().Replace(text, "each ");
        text = HanLeft().Replace(text, " left ");
        return OneOfThem().Replace(text, "$1 ");
    }

    /// <summary>A number of Chinese and Japanese numerals in ASCII digits: <c>二〇一九</c>, <c>十二</c>.</summary>
    public static string HanNumber(string text)
    {
        var ten = text.IndexOf('十', StringComparison.Ordinal);
        if (ten < 0)
            return string.Concat(text.Select(one => one == '零' ? 0 : Digits.IndexOf(one, StringComparison.Ordinal)));
        var tens = ten == 0 ? 1 : Digits.IndexOf(text[ten - 1], StringComparison.Ordinal);
        var ones = ten == text.Length - 1 ? 0 : Digits.IndexOf(text[ten + 1], StringComparison.Ordinal);
        return string.Create(CultureInfo.InvariantCulture, $"{(tens * 10) + ones}");
    }

    private static bool Wordy(string text)
    {
        var letters = 0;
        foreach (var letter in text)
        {
            if (letter >= '\u2E80')
                return true;
            letters = char.IsLetter(letter) ? letters + 1 : 0;
            if (letters >= 3)
                return true;
        }

        return false;
    }

    private static int Times(Match match)
    {
        for (var i = 1; i <= 3; i++)
        {
            if (match.Groups[i].Success)
                return Number(match.Groups[i].Value);
        }

        return 1;
    }

    private static int Number(string word) => word switch
    {
        "两" or "兩" => 2,
        "十" => 10,
        [var digit] when Digits.IndexOf(digit, StringComparison.Ordinal) is >= 0 and var value => value,
        _ => int.TryParse(word, CultureInfo.InvariantCulture, out var number) ? number : SmallWords.Numbers.GetValueOrDefault(Folding.Fold(word), 1),
    };

    [GeneratedRegex(@"\b(?:half (?:a |of a )?dozen|(?:ein )?halbes dutzend|(?:une )?demi[- ]douzaine|media docena|(?:una )?mezza dozzina|meia d[uú]zia|(?:een )?half dozijn|(?:et )?halvt? dusin|ett halvt dussin|полдюжины|p[oó][lł] tuzina)\b|半ダース|半打|نصف دزينة", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex HalfDozen();

    [GeneratedRegex(@"(?:(?<![\d.,])([1-9]\d?)[ x]{0,3}|\b(?:(two|three|four|zwei|drei|deux|trois|dos|tres|due|tre|twee|drie|to|tva|два|две|три)|a|an|one|ein|une|una|uma|een|et|en|ett|eine|bir|один|одна|μια|一)[ -])?(?<![\p{L}])(?:dozens?|doz\b\.?|dutzend|douzaines?|docenas?|dozzin[ae]|d[uú]zias?|dozijn|dusin|dussin|дюжин[аыу]?|tuzin[yów]*|ντουζ[ιί]ν(?:α|ες)|düzine|tucat|دزينة|ダース)(?![\p{L}])|([一二两三四五六七八九1-9])[打ダ](?:ース)?", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Dozens();

    [GeneratedRegex(@"\b(?:a pair of|un paio di|un paio|un par de|un par|une paire de)\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Pair();

    [GeneratedRegex(@"(?<kilo>\bполкило(?:грамма)?\b|(?:μισ[οό]|نصف|半)\s*(?:κιλ[οό]|كيلو(?:غرام)?|キロ|公斤|千克))|半斤", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex HalfMetric();

    [GeneratedRegex(@"\bполтора\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex OneAndHalf();

    [GeneratedRegex(@"(?<![一-鿿])([一二两兩三四五六七八九十])([罐瓶缶袋個个包盒本箱听斤点])", RegexOptions.CultureInvariant)]
    private static partial Regex Han();

    [GeneratedRegex(@"ずつ|\bi hver(?:t|n)?\b|\bcada un[oa]\b|\bem cada\b|\bper stuk\b|\bτο καθ[εέ]να\b|\bκαθεμ[ιί]α\b|\bلكل(?: علبة| واحدة)?", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Apiece();

    [GeneratedRegex(@"[每各](?:[罐瓶缶袋個个包盒本箱听]|\s)*", RegexOptions.CultureInvariant)]
    private static partial Regex HanEach();

    [GeneratedRegex(@"剩(?:余|餘|下)?|残り|残(?=\d)", RegexOptions.CultureInvariant)]
    private static partial Regex HanLeft();

    [GeneratedRegex(@"(?:うち|其中)\s*(\d+)\s*[つ個个罐瓶缶]?", RegexOptions.CultureInvariant)]
    private static partial Regex OneOfThem();
}
