using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>Finds the tables of a sheet: where the head is, of how many rows, where a second one begins.</summary>
public static partial class HeaderGuess
{
    private const int Deep = 60;

    /// <summary>The tables of a sheet. A sheet without any head is one table whose columns are known by their contents alone.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="today">The present, for years of two digits.</param>
    /// <param name="map">What the person has said about columns, or null.</param>
    public static IReadOnlyList<Table> Tables(Sheet sheet, DateOnly today, SheetMap? map = null) =>
        [.. SideBySide.Parts(sheet).SelectMany(part => OneBelowAnother(part, today, map))];

    private static List<Table> OneBelowAnother(Sheet sheet, DateOnly today, SheetMap? map)
    {
        var rows = sheet.Rows;
        var heads = new List<(int From, int To)>();
        string[]? current = null;
        for (var i = 0; i < rows.Count; i++)
        {
            if ((heads.Count == 0 && i > Deep) || !IsHead(rows, i, heads.Count > 0))
                continue;
            var (from, to) = Span(rows, i, heads.Count == 0 ? 0 : heads[^1].To + 1);
            var texts = Heads(rows, from, to);
            if (current is null || !Same(current, texts))
            {
                heads.Add((from, to));
                current = texts;
            }

            i = to;
        }

        if (heads.Count == 0)
            return [Headless(sheet, today, map)];
        var tables = new List<Table>();
        for (var h = 0; h < heads.Count; h++)
        {
            var (from, to) = heads[h];
            var end = h + 1 < heads.Count ? heads[h + 1].From : rows.Count;
            var under = rows.Skip(to + 1).Take(end - to - 1).ToList();
            var columns = ColumnGuess.Columns(Heads(rows, from, to), under, today, map, h == 0 ? UnitOfTitles(rows, from) : null);
            tables.Add(new Table(sheet.Name, rows.Skip(from).Take(to - from + 1).Select(row => row.Number).ToList(), columns, under));
        }

        return tables;
    }

    // "All weights in grams" in a title line.
    private static double? UnitOfTitles(IReadOnlyList<SheetRow> rows, int head)
    {
        double? unit = null;
        foreach (var cell in rows.Take(head).SelectMany(row => row.Cells))
        {
            var words = Tokens.Of(Folding.Level(cell.Text));
            for (var i = 0; i + 1 < words.Count; i++)
            {
                if (words[i].Text is not ("in" or "en" or "em" or "w" or "в") || words[i + 1].Kind != TokenKind.Word || !UnitWords.Grams.TryGetValue(words[i + 1].Text, out var grams))
                    continue;
                // Two units in the titles decide nothing.
                if (unit is not null && unit != grams)
                    return null;
                unit = grams;
            }
        }

        return unit;
    }

    /// <summary>True where a row only repeats the head of its table.</summary>
    internal static bool Repeats(SheetRow row, IReadOnlyList<Column> columns)
    {
        int same = 0, filled = 0;
        for (var c = 0; c < columns.Count; c++)
        {
            var cell = row[columns[c].Index];
            if (cell.IsBlank)
                continue;
            filled++;
            var text = cell.Text.Trim();
            var head = columns[c].Head;
            same += text.Length > 0 && text.Length <= head.Length && (text.Length > 1 || head.Length == 1)
                && (head.StartsWith(text, StringComparison.OrdinalIgnoreCase) || head.EndsWith(text, StringComparison.OrdinalIgnoreCase)) ? 1 : 0;
            if (filled - same > 0.4 * row.Cells.Count)
                return false;
        }

        return filled >= 1 && same >= Math.Max(1, (0.6 * filled)) && (filled > 1 || columns.Count(column => column.Head.Length > 0) == 1);
    }

    private static bool IsHead(IReadOnlyList<SheetRow> rows, int index, bool again)
    {
        var row = rows[index];
        if (again && Digits(row))
            return false;
        int filled = 0, exact = 0, known = 0, data = 0;
        var numbered = again || row.Cells.Count < 3 ? null : NumberedHeads.Words(row.Cells.Select(cell => cell.Text));
        for (var c = 0; c < row.Cells.Count; c++)
        {
            var cell = row[c];
            if (cell.IsBlank)
                continue;
            filled++;
            if (numbered?.Count > 0 && NumberedHeads.WordOf(cell.Text) is { } word && numbered.Contains(word))
            {
                known++;
                continue;
            }

            if (again && (cell.Kind is CellKind.Number or CellKind.Date || char.IsAsciiDigit(cell.Text[0]) || filled - exact > 1 + (0.4 * row.Cells.Count)))
                return false;
            if (!again && IsYear(cell.Text, new DateOnly(2200, 1, 1)) && CountedBelow(rows, index, c))
            {
                known++;
                continue;
            }

            if (cell.Kind is CellKind.Number or CellKind.Date)
            {
                data++;
                continue;
            }

            var head = HeadReading.Of(cell.Text);
            exact += head.Exact ? 1 : 0;
            known += head.Meanings.Count > 0 ? 1 : 0;
            if (!again && IsSort(cell.Text) && CountedBelow(rows, index, c))
            {
                exact++;
                known++;
                continue;
            }

            data += (!head.Exact && LooksLikeData(cell.Text)) || RowKinds.IsTotalWord(cell.Text) && head.Meanings is not [Meaning.Total, ..] ? 1 : 0;
        }

        if (filled == 0 || data > 0.25 * filled)
            return false;
        if (again)
            return filled >= 2 && exact >= 2 && exact >= 0.6 * filled && data == 0;
        if (known >= 2 && (known >= 0.3 * filled || exact >= 2))
            return true;
        // A head of one column, or of words that no list knows above rows of numbers.
        if (filled == 1 && exact == 1 && index + 1 < rows.Count)
            return rows.Skip(index + 1).Take(5).All(next => next.Filled <= 1) || (row.Filled == 1 && row[0].IsBlank == false && rows.Skip(index + 1).Take(5).Any(next => next.Filled > 1 && !IsHead(rows, index + 1, false)) && rows.Count > index + 1 && rows[index + 1].Filled <= 1);
        return filled >= 2 && data == 0 && Strange(rows, index, filled, exact >= 1 || known == 0 ? 1 : 2);
    }

    /// <summary>True for a head that names a sort of package: <c>8oz jar</c>, <c>50g tin</c>, <c>pint jars</c>.</summary>
    internal static bool IsSort(string head)
    {
        var read = QuantityScan.Of(head, CellSetting.Open);
        return (read.Portions is [{ Amount: not null }] || read.Vessel is { Ml: not null }) && !read.Rest.Any(char.IsLetterOrDigit) && read.Price is null;
    }

    /// <summary>True for a head over how many are open or closed: <c>sealed tins</c>, <c>open jars</c>; a lone <c>open</c> only above numbers that are more than yes and no.</summary>
    internal static bool CountsState(string head, int most)
    {
        bool state = false, counted = most > 1;
        foreach (var token in Tokens.Of(Folding.Level(head)))
        {
            if (token.Text is "date" or "on" or "since" or "am" or "le" or "when" or "year" or "seit" or "datum" or "data" or "fecha" or "days")
                return false;
            state |= SmallWords.Open.Contains(token.Text) || SmallWords.Closed.Contains(token.Text);
            counted |= token.Text is "#" || VesselWords.Vessels.ContainsKey(token.Text) || SmallWords.Pieces.Contains(token.Text);
        }

        return state && counted;
    }

    /// <summary>True for a head that is a year, above numbers of packages.</summary>
    internal static bool IsYear(string head, DateOnly today) =>
        head.Trim() is { Length: 4 } year && int.TryParse(year, System.Globalization.CultureInfo.InvariantCulture, out var number) && number >= 1950 && number <= today.Year;

    private static bool CountedBelow(IReadOnlyList<SheetRow> rows, int index, int column)
    {
        int filled = 0, counts = 0;
        foreach (var row in rows.Skip(index + 1).Take(20))
        {
            filled += row[column].IsBlank ? 0 : 1;
            counts += int.TryParse(row[column].Text.Trim(), System.Globalization.CultureInfo.InvariantCulture, out var count) && count is >= 0 and <= 500 ? 1 : 0;
        }

        return counts > 0 && counts >= 0.5 * filled;
    }

    // A head inside a table is words; rows of values are passed over without a closer look.
    private static bool Digits(SheetRow row)
    {
        int filled = 0, digits = 0;
        foreach (var cell in row.Cells)
        {
            filled += cell.Text.Length > 0 ? 1 : 0;
            digits += cell.Text.AsSpan().IndexOfAnyInRange('0', '9') >= 0 ? 1 : 0;
        }

        return digits > 0.34 * filled;
    }

    // Nothing in this row reads as a value while the rows below do, in at least two columns.
    private static bool Strange(IReadOnlyList<SheetRow> rows, int index, int filled, int least)
    {
        if (index > 12 || filled < 2)
            return false;
        var columns = 0;
        for (var c = 0; c < rows[index].Cells.Count; c++)
        {
            if (rows[index][c].IsBlank)
                continue;
            int values = 0, below = 0;
            foreach (var row in rows.Skip(index + 1).Take(8))
            {
                if (row[c].IsBlank)
                    continue;
                below++;
                values += row[c].Kind != CellKind.Text || LooksLikeData(row[c].Text) ? 1 : 0;
            }

            columns += below > 0 && values >= 0.6 * below ? 1 : 0;
        }

        return columns >= 2 || (columns >= least && filled <= 3);
    }

    private static bool LooksLikeData(string text)
    {
        var facts = QuantityScan.Of(text, CellSetting.Open);
        return facts.Portions.Count > 0 || facts.Bare is not null || facts.Price is not null || facts.Vessel?.Ml is not null
            || DateText.Read(text, new DateOnly(2030, 1, 1)) is DateCell.Known or DateCell.Either;
    }

    // A row above that groups the columns and a row below that names units belong to the head.
    private static (int From, int To) Span(IReadOnlyList<SheetRow> rows, int index, int first)
    {
        int from = index, to = index;
        if (from > first && rows[from - 1].Number == rows[from].Number - 1 && Groups(rows[from - 1], rows[from]))
            from--;
        while (to + 1 < rows.Count && to - index < 2 && rows[to + 1].Number == rows[to].Number + 1 && Continues(rows, to + 1, rows[index]))
            to++;
        return (from, to);
    }

    private static bool Groups(SheetRow above, SheetRow head)
    {
        if (above.Filled >= head.Filled || above.Filled == 0)
            return false;
        var merged = above.Cells.Any(cell => cell.Continued && !cell.IsBlank);
        int known = 0, texts = 0;
        foreach (var cell in above.Cells)
        {
            if (cell.IsBlank || cell.Continued)
                continue;
            // A row of values above a head that comes again is no part of it.
            if (cell.Kind != CellKind.Text || SmallWords.IsDitto(cell.Text) || (LooksLikeData(cell.Text) && !HeadWords.Known.ContainsKey(Folding.Fold(cell.Text))))
                return false;
            texts++;
            known += HeadReading.Of(cell.Text).Exact ? 1 : 0;
        }

        return merged ? texts > 1 || known == 1 : texts >= 2 && known >= 1;
    }

    private static bool Continues(IReadOnlyList<SheetRow> rows, int index, SheetRow head)
    {
        var row = rows[index];
        int filled = 0, words = 0, fillsGap = 0;
        for (var c = 0; c < row.Cells.Count; c++)
        {
            var cell = row[c];
            if (cell.IsBlank)
                continue;
            if (cell.Kind != CellKind.Text)
                return false;
            filled++;
            var reading = HeadReading.Of(cell.Text);
            var folded = Folding.Fold(cell.Text).Trim('(', ')', '[', ']', ' ', '.');
            words += reading.Exact || UnitWords.Grams.ContainsKey(folded) || UnitWords.Millilitres.ContainsKey(folded) || UnitWords.Currencies.ContainsKey(folded)
                || folded is "yyyy-mm-dd" or "date" or "%" or "fl oz" or "fl. oz" or "floz" or "pcs" or "stk" or "szt" || HeadReading.OrderOf(folded) is not null || (head[c].Continued && cell.Text == head[c].Text) ? 1 : 0;
            fillsGap += head[c].IsBlank || head[c].Continued ? 1 : 0;
        }

        if (filled > head.Filled && IsHead(rows, index, again: true))
            return true;
        return filled > 0 && words == filled && (filled >= 2 || fillsGap > 0) && filled <= head.Cells.Count(cell => !cell.IsBlank) + fillsGap;
    }

    private static string[] Heads(IReadOnlyList<SheetRow> rows, int from, int to)
    {
        var width = rows.Skip(from).Take(to - from + 1).Max(row => row.Cells.Count);
        var heads = new string[width];
        for (var c = 0; c < width; c++)
        {
            var parts = new List<string>();
            for (var r = from; r <= to; r++)
            {
                var text = Level(rows[r][c].Text);
                // A group's name without merging stands over its first column only; the columns beside it belong to it as long as they stay empty.
                for (var left = c; r < to && text.Length == 0 && left > 0 && rows[r][left].IsBlank && !rows[to][c].IsBlank && from < to && rows[r].Filled < rows[to].Filled;)
                    text = Level(rows[r][--left].Text);
                if (text.Length > 0 && !parts.Contains(text))
                    parts.Add(text);
            }

            heads[c] = string.Join(HeadReading.RowBreak, parts);
        }

        return heads;
    }

    private static string Level(string text) => text.ReplaceLineEndings(" ").Trim();

    private static bool Same(string[] one, string[] two)
    {
        var shared = 0;
        for (var c = 0; c < Math.Min(one.Length, two.Length); c++)
            shared += one[c].Length > 0 && two[c].Length > 0 && Folding.Fold(one[c]).EndsWith(Folding.Fold(two[c]), StringComparison.Ordinal) ? 1 : 0;
        return shared >= 0.6 * Math.Max(1, two.Count(text => text.Length > 0));
    }
}
