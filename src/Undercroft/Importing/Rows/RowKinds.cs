using System.Buffers;
using System.Collections.Frozen;
using System.Text.RegularExpressions;
using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>What a row under a head is.</summary>
public enum RowKind
{
    /// <summary>Packages.</summary>
    Data,

    /// <summary>The head once more.</summary>
    Head,

    /// <summary>A sum of rows above.</summary>
    Total,

    /// <summary>A heading over the rows below.</summary>
    Heading,

    /// <summary>A remark in the margin.</summary>
    Note,
}

/// <summary>Tells data rows from repeated heads, totals, headings and remarks.</summary>
internal static partial class RowKinds
{
    private static readonly FrozenSet<string> TotalWords = ("total|totals|totaux|totali|totales|totais|grand total|subtotal|sub total|sub-total|sum|overall|total weight|total grams|total tins|total jars|in all|all together|altogether|summe|gesamt|gesamtsumme|zwischensumme|insgesamt|gesamtgewicht|somme|total general|sous-total|suma|suma total|totale|somma|totale generale|soma|totaal|subtotaal|razem|suma razem|lacznie|totalt|i alt|summa|sammanlagt|celkem|soucet|итого|всего|сумма|合计|总计|小计|合計|小計|総計|συνολο|σύνολο|סהכ|סה\"כ|المجموع|합계|총계|소계|총합|總計|總和|toplam|ara toplam|osszesen|yhteensa|всього|разом|סך הכל|סך הכול|jumlah|suma calkowita|total geral|somme totale|average|avg|mean|durchschnitt|moyenne|promedio|media|среднее|平均")
        .Split('|').Select(Folding.Fold).ToFrozenSet();

    private static readonly FrozenSet<string> GroupWords = ("virginia|virginias|english|englishes|aromatic|aromatics|aro|burley|burleys|oriental|orientals|latakia|latakias|balkan|balkans|cavendish|perique|va|vas|vaper|vapers|va/per|kentucky|flakes|flake|plugs|plug|ribbon|ribbons|ropes|twist|twists|bulk|tins|jars|tinned|jarred|pouches|bags|open|opened|sealed|unopened|other|others|misc|miscellaneous|samples|dosen|glaser|offen|aromaten|englisch|cellar|smoking now|in rotation|rotation")
        .Split('|').Select(Folding.Fold).ToFrozenSet();

    /// <summary>First letters of the words for sums, so that most cells need no closer look.</summary>
    private static readonly SearchValues<char> First = SearchValues.Create([.. TotalWords.Select(word => word[0])]);

    /// <summary>What a row is. The last column that matters is the last with a meaning; beyond it stands the margin.</summary>
    public static RowKind Of(SheetRow row, Table table, SheetRow? next)
    {
        if (table.HeadRows.Count > 0 && HeaderGuess.Repeats(row, table.Columns))
            return RowKind.Head;
        if (IsTotal(row, table))
            return RowKind.Total;
        int filled = 0, own = 0, meant = 0, only = -1;
        for (var c = 0; c < row.Cells.Count; c++)
        {
            if (row[c].IsBlank)
                continue;
            filled++;
            own += row[c].Continued ? 0 : 1;
            var column = c < table.Columns.Count ? table.Columns[c] : null;
            meant += column is { Ground: not Ground.Nothing } && !row[c].Continued ? 1 : 0;
            if (!row[c].Continued)
                only = c;
        }

        if (own == 0)
            return RowKind.Note;
        if (own > 1)
            return meant == 0 && table.HeadRows.Count > 0 ? RowKind.Note : RowKind.Data;
        var text = row[only].Text.Trim();
        if (row[only].Kind is CellKind.Number or CellKind.Date)
            return meant > 0 ? RowKind.Data : RowKind.Note;
        return Lone(row, table, only, text, next, filled > own);
    }

    private static RowKind Lone(SheetRow row, Table table, int at, string text, SheetRow? next, bool merged)
    {
        var column = at < table.Columns.Count ? table.Columns[at] : null;
        var narrow = table.Columns.Count(c => c.Ground != Ground.Nothing) <= 1;
        var folded = Folding.Fold(text).Trim(' ', '-', '=', '*', '#', '~', '_', '.', ':');
        if (folded.Length == 0)
            return RowKind.Note;
        if (Remark().IsMatch(Folding.Fold(text)) || text.Length > 80 || (Sentence().IsMatch(text) && text.Split(' ').Length >= 4 && !text.Any(char.IsAsciiDigit)))
            return RowKind.Note;
        if (narrow)
            return Ruled().IsMatch(text) || (text.EndsWith(':') && !text.Any(char.IsAsciiDigit)) ? RowKind.Heading : RowKind.Data;
        var amounts = QuantityScan.Of(text, CellSetting.Open);
        if (amounts.Portions.Count > 0)
            return RowKind.Data;
        if (column is { Meaning: Meaning.Note or Meaning.Other or Meaning.Label } && at > 0)
            return RowKind.Note;
        if (column is null || (at > 0 && column.Meaning is not (Meaning.Blend or Meaning.Maker)))
            return column is { Ground: Ground.Nothing } or null ? RowKind.Note : RowKind.Data;
        var shouted = Shouts(text);
        var others = table.Rows.Take(50).Count(other => Shouts(other[at].Text));
        if (merged || text.EndsWith(':') || Ruled().IsMatch(text) || (shouted && others * 3 < Math.Min(50, table.Rows.Count))
            || GroupWords.Contains(folded) || PlaceWords.Names(text) || Elsewhere.Of(text) is not Elsewhere.Kind.None)
            return next is null && !merged ? RowKind.Note : RowKind.Heading;
        return RowKind.Data;
    }

    /// <summary>True for a word that stands for a sum.</summary>
    internal static bool IsTotalWord(string text) => TotalWords.Contains(Folding.Fold(text).Trim(' ', ':', '=', '.', '-', '*', '#'));

    private static bool Shouts(string text) => text.Length > 2 && text.Any(char.IsUpper) && !text.Any(char.IsLower);

    // The word stands for the whole row: alone in a cell, or before a colon, a number or another such word; and no date or container is beside it.
    private static bool IsTotal(SheetRow row, Table table)
    {
        var named = false;
        foreach (var column in table.Columns)
        {
            var cell = row[column.Index];
            if (cell.IsBlank || cell.Kind != CellKind.Text)
                continue;
            if (IsTotalText(cell.Text))
                named = true;
            else if (column.Meaning is Meaning.Container or Meaning.Place or Meaning.Source && named)
                return false;
        }

        if (!named)
            return false;
        var blend = table.Of(Meaning.Blend);
        if (blend is null || row[blend.Index].IsBlank)
            return true;
        return IsTotalText(row[blend.Index].Text);
    }

    private static bool IsTotalText(string text)
    {
        if (text.Length > 60 || !First.Contains(char.ToLowerInvariant(text.AsSpan().TrimStart(" :=.-*#∑Σ").Slice(0, Math.Min(1, text.AsSpan().TrimStart(" :=.-*#∑Σ").Length)) is [var first] ? first : ' ')))
            return false;
        var folded = Folding.Fold(text).Trim(' ', ':', '=', '.', '-', '*', '#', '∑', 'Σ');
        return TotalWords.Contains(folded) || TotalPhrase().IsMatch(folded) || (folded.IndexOfAny([':', '=']) is > 0 and var mark && TotalWords.Contains(folded[..mark].Trim()));
    }

    [GeneratedRegex(@"^(grand |sub|sub-)?(total|totals|sum|summe|gesamt|totale|totaal|razem|celkem|итого|всего|合计|合計|somme|suma)\b[\s:=]*(\(?\d[\d.,\s]*|of|in|all|for|so far|cellar|weight|grams?|g|oz|lbs?|kg|tins?|jars?|packages?|dosen|glaser|boites|latas|gramm|am|per|to date|\))*$", RegexOptions.CultureInvariant)]
    private static partial Regex TotalPhrase();

    [GeneratedRegex(@"^(note|notes|nb|n\.b|ps|p\.s|key|legend|remember|todo|to do|hinweis|legende|achtung|last updated|updated|stand|as of|printed)\b|^\*|^\(", RegexOptions.CultureInvariant)]
    private static partial Regex Remark();

    [GeneratedRegex(@"[.!?]\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex Sentence();

    [GeneratedRegex(@"^\s*([-=*#~_>+]{2,}).*|.*[-=*~_<]{2,}\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex Ruled();
}
