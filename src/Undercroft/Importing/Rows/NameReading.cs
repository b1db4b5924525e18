using System.Text.RegularExpressions;
using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>A name that holds more than a name: <c>Harbour flake 50g tin '15</c>. Only what no other cell of the row says is taken from it.</summary>
internal static partial class NameReading
{
    public static void Split(RowFacts facts, AmountCells amounts, Table table, TableSetting setting, ReadingCache cache)
    {
        if (facts.Blend is not { } blend)
            return;
        var blendColumn = table.Of(Meaning.Blend)?.Index ?? -1;
        var alone = table.Columns.Count(column => column.Ground != Ground.Nothing) == 1;
        var amountColumn = table.Columns.Any(column => column.IsAmount);
        if (!alone && !HoldsMore(blend.Value))
            return;
        var dated = table.Columns.Any(column => column.Meaning is Meaning.Made or Meaning.Sealed or Meaning.Bought or Meaning.Date);
        var names = new List<string>();
        var found = new CellFacts();
        foreach (var piece in alone ? Pieces().Split(Bullet().Replace(blend.Value, "")) : [blend.Value])
        {
            var text = piece.Trim();
            if (text.Length > 0)
                Piece(facts, found, names, text, amounts.AnyAmount && !AmountReading.CountsPackages(amounts), alone || !amountColumn, alone || !dated || facts.Dates.Count == 0, setting, cache);
        }

        if (found.Portions.Count > 0 || found.Vessel is not null || found.Count is not null || found.OpenOnes is not null || found.ClosedOnes is not null || found.GoneOnes is not null)
            amounts.AddLoose(found, facts.Container is null && !amounts.AnyContainer);
        facts.Open |= found.Open && alone;
        facts.Gone |= found.Gone && alone;
        if (names.Count == 1 && names[0] == blend.Value.Trim())
            return;
        facts.Blend = names.Count == 0 ? null : new Said<string>(names[0], blend.Raw, blend.Sure);
        facts.Notes.AddRange(names.Skip(1));
        if (names.Count == 0 && facts.Maker is null)
            facts.Doubt("name-missing", "No name stands in this row.", blendColumn);
        if (alone && found.Portions.Count == 0 && found.Vessel is null && names.FirstOrDefault(Vague) is { } vague)
            facts.Doubt("amount-unread", $"'{vague}' is not understood as an amount.", blendColumn);
    }

    // A digit with a word behind it, or what may be a date: most names have neither.
    private static bool HoldsMore(string name)
    {
        for (var i = 0; i < name.Length; i++)
        {
            if (!char.IsAsciiDigit(name[i]) && name[i] is not ('½' or '¼' or '¾'))
                continue;
            var next = i + 1 < name.Length && name[i + 1] is ' ' or '-' ? i + 2 : i + 1;
            if (next < name.Length && (char.IsLetter(name[next]) || name[next] is '×' or '*' or '(' or ')'))
                return true;
        }

        return MayDate().IsMatch(name);
    }

    private static void Piece(RowFacts facts, CellFacts found, List<string> names, string piece, bool amountKnown, bool takesPlaces, bool takesYears, TableSetting setting, ReadingCache cache)
    {
        var text = piece;
        var read = cache.Quantity(piece, CellSetting.Open, false);
        if (Tells(read, piece) is var tells && tells && (found.Portions.Count > 0 || found.Vessel is not null || found.Count is not null))
        {
            // "8oz bag, 2oz smoked", "3 tins, gave one to a friend": how much of it is left, only a person can say.
            if (read.OpenOnes is null && read.GoneOnes is null)
                facts.Doubt("went", $"'{RowReader.Short(piece)}' says that some of it went: what is left?", -1);
            found.OpenOnes ??= read.OpenOnes;
            found.ClosedOnes ??= read.ClosedOnes;
            found.GoneOnes ??= read.GoneOnes;
            names.Add(piece);
            return;
        }

        found.OpenOnes ??= read.OpenOnes;
        found.ClosedOnes ??= read.ClosedOnes;
        var sized = read.Vessel is { } vessel && (vessel.Ml is not null || vessel.Count is > 0);
        var weighed = read.Portions.Exists(portion => portion.Amount is not null);
        var words = Joints().Replace(" " + read.Rest + " ", " ").Trim(' ', ',', '(', ')', '-', '/');
        if (!amountKnown && (weighed || sized || (takesPlaces && words.Length == 0 && (read.Vessel is not null || read.Count is not null))))
        {
            found.Portions.AddRange(read.Portions);
            found.Vessel ??= read.Vessel;
            found.Count ??= read.Count;
            found.Doubts.AddRange(read.Doubts);
            text = words.Length == 0 ? "" : Trailing().Replace(Spaces().Replace(read.Rest, " ").Trim(' ', ',', '-', '/', '(', ')', ':'), "").Trim(' ', ',', '-', ':', '@');
        }

        found.Open |= read.Open;
        found.Gone |= read.Gone && !tells;
        if (tells)
            facts.Doubt("went", $"'{RowReader.Short(piece)}' says that some of it went: what is left?", -1);
        var tin = read.Vessel?.Kind == VesselKind.Tin || found.Vessel?.Kind == VesselKind.Tin;
        if (takesYears && text.Length > 0 && MayDate().IsMatch(text))
            text = Dates(facts, text, piece, tin, takesPlaces && (weighed || found.Portions.Count > 0), setting);
        if (text.Length == 0)
            return;
        if (takesPlaces && facts.Place is null && names.Count > 0 && PlaceWords.Names(text))
            facts.Place = new Said<IReadOnlyList<string>>(PlaceWords.Path(text), text, Sureness.Written);
        else if (text.Any(char.IsLetterOrDigit))
            names.Add(text);
    }

    private static string Dates(RowFacts facts, string text, string piece, bool tin, bool trailingYear, TableSetting setting)
    {
        var (dates, place, others) = LooseFacts.Of(text, setting.Today, bareYears: false);
        foreach (var (role, date, words) in dates)
        {
            var of = role != DateRole.Unsaid ? role : tin ? DateRole.Made : DateRole.Unsaid;
            facts.Dates.TryAdd(of, new Said<DateCell>(date, words, Sureness.Written));
        }

        if (dates.Count > 0)
            return place is null ? others : others.Length > 0 ? $"{others}, {place}" : place;
        var year = LastYear().Match(text);
        if (!trailingYear || !year.Success || int.Parse(year.Groups[1].ValueSpan, System.Globalization.CultureInfo.InvariantCulture) > setting.Today.Year || DateText.Read(year.Groups[1].Value, setting.Today) is not DateCell.Known known)
            return text;
        facts.Dates.TryAdd(tin ? DateRole.Made : DateRole.Unsaid, new Said<DateCell>(known, piece, Sureness.Decided));
        return text[..year.Index].TrimEnd(' ', ',', '-', '(');
    }

    // A word for leaf that went, among others: it may be of a part.
    private static bool Tells(CellFacts read, string piece)
    {
        int went = 0, others = 0;
        foreach (var token in Tokens.Of(Folding.Level(piece)))
        {
            went += SmallWords.Went.Contains(token.Text) ? 1 : 0;
            others += token.Kind == TokenKind.Number || (token.Kind == TokenKind.Word && !SmallWords.Went.Contains(token.Text) && !SmallWords.Gone.Contains(token.Text)) ? 1 : 0;
        }

        return read.OpenOnes is not null || read.GoneOnes is not null || (went > 0 && others > 0);
    }

    private static bool Vague(string text)
    {
        foreach (var token in Tokens.Of(Folding.Level(text)))
        {
            if (SmallWords.Vague.Contains(token.Text))
                return true;
        }

        return false;
    }

    [GeneratedRegex(@"(?<!\d),|,(?!\d)|[;|\n\r\t]|\s[-–—]\s|(?<!\b(?:no|nr|n|vol)):\s+(?=\d)", RegexOptions.CultureInvariant)]
    private static partial Regex Pieces();

    [GeneratedRegex(@"(?<=\s)(?:in|a|an|of|with|the|and|&|w/|x|-|@)(?=\s)", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Joints();

    [GeneratedRegex(@"(?:[\s:](?:in|a|an|of|with|the|and|&|w/|x|-|@))+$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Trailing();

    [GeneratedRegex(@"(?<!\d)(?:18|19|20)\d\d(?!\d)|'\d\d|\d[/.-]\d|\p{L}[ .]'?\d\d(?!\d)", RegexOptions.CultureInvariant)]
    private static partial Regex MayDate();

    [GeneratedRegex(@"^\s*(?:[-*•·–—+>]\s+|\d{1,3}[.)]\s+)(?=\p{L}|\d)", RegexOptions.CultureInvariant)]
    private static partial Regex Bullet();

    [GeneratedRegex(@"\s+", RegexOptions.CultureInvariant)]
    private static partial Regex Spaces();

    [GeneratedRegex(@"(?:^|[\s(])((?:19[5-9]|20[0-4])\d)\)?$", RegexOptions.CultureInvariant)]
    private static partial Regex LastYear();
}
