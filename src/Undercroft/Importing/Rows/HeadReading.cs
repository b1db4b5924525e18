using System.Text.RegularExpressions;
using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>What the head of a column says: meanings it can have, unit, currency, each or total.</summary>
/// <param name="Meanings">Likeliest first; empty where no word is known.</param>
/// <param name="Exact">True where the whole head is a known one.</param>
/// <param name="GramsPerUnit">Unit of weight.</param>
/// <param name="MlPerUnit">Unit of volume.</param>
/// <param name="Currency">Currency.</param>
/// <param name="Share">Each or total.</param>
internal sealed partial record HeadReading(
    IReadOnlyList<Meaning> Meanings, bool Exact, double? GramsPerUnit, double? MlPerUnit, string? Currency, Share Share)
{
    private const int LongestHead = 60;

    /// <summary>Meanings that lose against any other in the same head: "date bought" is about buying, "total price" about money.</summary>
    private static readonly Meaning[] Weak = [Meaning.Date, Meaning.Note, Meaning.Label, Meaning.Total, Meaning.Unit, Meaning.Count, Meaning.Each, Meaning.Container];

    /// <summary>Stands between the rows of a head that has several.</summary>
    public const char RowBreak = '\u001F';

    /// <summary>The reading of a head. Of several rows the lowest says most, unless all of them together are a known head.</summary>
    public static HeadReading Of(string head)
    {
        var at = head.LastIndexOf(RowBreak);
        if (at < 0)
            return OfOne(head);
        var whole = OfOne(head.Replace(RowBreak, ' '));
        var low = OfOne(head[(at + 1)..]);
        if (whole.Exact || low.Meanings is [] or [Meaning.Date, ..])
            return whole;
        var meanings = whole.Share == Share.Total && low.Meanings[0] is Meaning.Each or Meaning.Quantity ? [Meaning.Total] : low.Meanings;
        return new HeadReading(meanings, low.Exact, low.GramsPerUnit ?? whole.GramsPerUnit, low.MlPerUnit ?? whole.MlPerUnit, low.Currency ?? whole.Currency, whole.Share);
    }

    /// <summary>Whether the day comes first, where the head shows the form of its dates: <c>dd/mm/yyyy</c>; else null.</summary>
    public static bool? OrderOf(string head) => DateForm().Match(head) is { Success: true } form ? char.ToLowerInvariant(form.Value[0]) is 'd' or 't' or 'j' or 'g' : null;

    private static HeadReading OfOne(string head)
    {
        if (head.Length == 0 || head.Length > LongestHead)
            return new HeadReading([], false, null, null, null, Share.Unsaid);
        var folded = Folding.Fold(Folding.Level(head)).Trim(' ', ':', '*', '=', '-', '_');
        if (folded.Length == 0 || char.IsAsciiDigit(folded[0]) || folded.Count(char.IsAsciiDigit) > 3)
            return new HeadReading([], false, null, null, null, Share.Unsaid);
        double? grams = null, ml = null;
        string? currency = null;
        var words = Words().Matches(folded).Select(match => match.Value).ToList();
        var share = words.Exists(HeadWords.TotalMarks.Contains) ? Share.Total : words.Exists(HeadWords.EachMarks.Contains) ? Share.Each : Share.Unsaid;
        foreach (Match bracket in Bracket().Matches(folded))
        {
            var inner = bracket.Groups[1].Value.Trim(' ', '.');
            grams ??= UnitWords.Grams.TryGetValue(inner, out var g) ? g : null;
            ml ??= inner is "fl oz" or "fl. oz" or "floz" ? UnitWords.FluidOunceMl : UnitWords.Millilitres.TryGetValue(inner, out var m) ? m : null;
            currency ??= UnitWords.Currencies.GetValueOrDefault(inner);
        }

        var bare = Bracket().Replace(folded, " ").Trim();
        var unit = UnitTail().Match(bare);
        if (unit.Success && grams is null && ml is null)
        {
            var name = unit.Groups[2].Value;
            grams = UnitWords.Grams.TryGetValue(name, out var g) ? g : null;
            ml = UnitWords.Millilitres.TryGetValue(name, out var m) && !UnitWords.NamesJars(name) ? m : null;
            if ((grams ?? ml) is not null && unit.Index > 0)
                bare = bare[..unit.Index].Trim(' ', ',', '/', '-');
        }

        // "g each", "oz per tin": the unit stands before the word that shares it out.
        if (grams is null && ml is null && words.Count is 2 or 3 && UnitWords.Grams.TryGetValue(words[0], out var leading) && (HeadWords.EachMarks.Contains(words[1]) || HeadWords.TotalMarks.Contains(words[1]) || words[1] is "in" or "в" or "w" or "im" or "en" or "dans" or "por" or "par"))
            (grams, share) = (leading, share == Share.Unsaid && !HeadWords.TotalMarks.Contains(words[1]) ? Share.Each : share);

        // "peso per confezione": what stands before is of each.
        if (PerPackage().Match(bare) is { Success: true } per && (VesselWords.Vessels.ContainsKey(per.Groups[2].Value) || HeadWords.Packages.Contains(per.Groups[2].Value)))
        {
            bare = per.Groups[1].Value;
            words = [.. Words().Matches(bare).Select(match => match.Value)];
            share = Share.Each;
        }

        foreach (var sign in (ReadOnlySpan<string>)["$", "€", "£", "¥"])
            currency ??= folded.Contains(sign, StringComparison.Ordinal) ? UnitWords.Currencies[sign] : null;
        currency ??= words.Select(word => word.Length == 3 ? UnitWords.Currencies.GetValueOrDefault(word) : null).FirstOrDefault(found => found is not null);
        grams ??= UnitWords.Grams.TryGetValue(bare, out var whole) ? whole : null;
        if (folded is "jars" or "tins" or "cans")
            share = Share.Unsaid;
        var (meanings, exact) = Meant(folded, bare, words);
        if (currency is not null && words.Exists(word => UnitWords.Grams.ContainsKey(word)) && words.Exists(word => word is "per" or "pro" or "par" or "por" or "je"))
            return new HeadReading([Meaning.Other], true, null, null, currency, share);
        // A price for so much weight is no price of a package.
        if (meanings is [Meaning.Paid, ..] && PerWeight().IsMatch(folded))
            return new HeadReading([Meaning.Other], true, null, null, currency, share);
        if (meanings.Count > 0 && meanings[0] is Meaning.Paid && share == Share.Total)
            meanings = [Meaning.PaidTotal];
        if (meanings.Count > 0 && meanings[0] is Meaning.Each or Meaning.Quantity && share == Share.Total)
            meanings = [Meaning.Total];
        // "Jars (oz)" is what the jars hold and not how many there are.
        if (meanings is [Meaning.Count or Meaning.Sealed, ..] && grams is not null)
            meanings = [Meaning.Quantity];
        if (meanings.Count == 0 && (grams ?? ml) is not null)
            (meanings, exact) = (grams is not null ? [Meaning.Each] : [Meaning.Container], true);
        if (meanings.Count == 0 && currency is not null)
            (meanings, exact) = ([share == Share.Total ? Meaning.PaidTotal : Meaning.Paid], true);
        return new HeadReading(meanings, exact, grams, ml, currency, share);
    }

    // Arabic writes the article together with its word.
    private static string Bare(string word) => word.Length > 4 && word.StartsWith("ال", StringComparison.Ordinal) ? word[2..] : word;

    private static (IReadOnlyList<Meaning> Meanings, bool Exact) Meant(string folded, string bare, List<string> words)
    {
        if (HeadWords.Known.TryGetValue(folded, out var whole) || HeadWords.Known.TryGetValue(bare, out whole)
            || HeadWords.Known.TryGetValue(bare.Trim('?', '.', '#', ' ', '/'), out whole) || HeadWords.Known.TryGetValue(string.Join(' ', bare.Split(' ').Select(Bare)), out whole))
            return (whole, true);
        // "fecha lata", "Dosen-Datum", "date on the tin": the day that stands on it.
        if (words.Count <= 5 && words.Exists(word => HeadWords.Known.TryGetValue(word.Trim('.').TrimEnd('s'), out var dated) && dated[0] == Meaning.Date) && words.Exists(word => VesselWords.Vessels.TryGetValue(word.Trim('.'), out var tin) && tin.Vessel == VesselKind.Tin)
            && !words.Exists(word => HeadWords.Known.TryGetValue(word, out var other) && other[0] is Meaning.Opened or Meaning.Sealed or Meaning.Bought or Meaning.Gone))
            return ([Meaning.Made], true);
        var found = new List<(Meaning[] Meanings, int Length, int At, bool Weak)>();
        for (var length = Math.Min(3, words.Count); length > 0; length--)
        {
            for (var at = 0; at + length <= words.Count; at++)
            {
                var phrase = string.Join(' ', words.GetRange(at, length).Select(Bare));
                if (HeadWords.Known.TryGetValue(phrase, out var meanings) || (phrase.EndsWith('s') && HeadWords.Known.TryGetValue(phrase[..^1], out meanings)))
                    found.Add((meanings, length, at, Array.IndexOf(Weak, meanings[0]) >= 0));
            }
        }

        if (found.Count == 0 || words.Count > 6)
            return ([], false);
        var best = found.OrderBy(hit => hit.Weak).ThenBy(hit => hit.Meanings[0] == Meaning.Quantity).ThenByDescending(hit => hit.Length).ThenByDescending(hit => hit.At).First();
        return (best.Meanings, false);
    }

    [GeneratedRegex(@"\b(?:d{1,2}[-/. ]m{1,2}|m{1,2}[-/. ]d{1,2}|tt[-/. ]mm|jj[-/. ]mm|gg[-/. ]mm)\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex DateForm();

    [GeneratedRegex(@"(?:/|\b(?:per|pro|je|par|por|za|за)\b)\s*\d*\s*(?:g|gr|gramm|gram|grams|oz|kg|lb|ounce|г|кг)\b", RegexOptions.CultureInvariant)]
    private static partial Regex PerWeight();

    [GeneratedRegex(@"^(.+?) (?:per|pro|par|por|je|a|na|za|за|на) (\p{L}+)\.?$", RegexOptions.CultureInvariant)]
    private static partial Regex PerPackage();

    [GeneratedRegex(@"[(\[]([^)\]]*)[)\]]", RegexOptions.CultureInvariant)]
    private static partial Regex Bracket();

    [GeneratedRegex(@"[\p{L}#°]+(?:'\p{L}+)?\.?", RegexOptions.CultureInvariant)]
    private static partial Regex Words();

    [GeneratedRegex(@"(^|[\s,/-]|\bin )(\p{L}+)\.?$", RegexOptions.CultureInvariant)]
    private static partial Regex UnitTail();
}
