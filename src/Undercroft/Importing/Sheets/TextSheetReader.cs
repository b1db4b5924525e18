using System.Text;
using Undercroft.Ledger;

namespace Undercroft.Importing.Sheets;

/// <summary>Text with separators: any of comma, semicolon, tab and bar, with quoted cells (RFC 4180) and people's own quotation marks.</summary>
internal static class TextSheetReader
{
    private static readonly char[] Separators = [';', '\t', '|', ','];

    /// <summary>Tried where none of the usual ones cuts the lines evenly.</summary>
    private static readonly char[] RareSeparators = ['^', '~', '\u001F', '\u0001', '¦', '§', ':', '&', '#', '!'];

    public static SheetFile Read(ReadOnlyMemory<byte> bytes, SheetLimits limits, string? said = null)
    {
        var (text, encoding, guess) = said is null ? TextDecoding.Decode(bytes.Span) : (TextDecoding.As(bytes.Span, said), TextDecoding.Find(said)!, null);
        List<string> remarks = guess is null ? [] : [guess];
        var named = NamedSeparator(text);
        var separator = named ?? GuessSeparator(text);
        if (named is null && separator == '\0')
            (text, separator) = (FixedWidths.Marked(text) ?? text, FixedWidths.Mark);
        var rows = new List<SheetRow>();
        var reader = new Splitter(text, separator, limits);
        var number = 0;
        var cells = 0;
        var pool = new Dictionary<string, string>();
        while (reader.Next() is { } fields)
        {
            number++;
            if (number == 1 && named is not null)
                continue;
            if (fields.TrueForAll(string.IsNullOrWhiteSpace))
                continue;
            cells += fields.Count;
            if (rows.Count >= limits.Rows || cells > limits.Cells)
                throw new Refusal($"The sheet has more than {(rows.Count >= limits.Rows ? $"{limits.Rows} rows" : $"{limits.Cells} cells")}, which is more than is read at once. Split it into several files.");
            var row = new Cell[fields.Count];
            for (var i = 0; i < row.Length; i++)
                row[i] = new Cell(Pooled(pool, fields[i]));
            rows.Add(new SheetRow(number, row));
        }

        if (reader.Unclosed > 0)
            remarks.Add($"A quotation mark in row {reader.Unclosed} is never closed; it was read as a character.");
        return new SheetFile($"text, {encoding}, {Say(separator)}", [new Sheet("", rows)], remarks) { Encoding = encoding };
    }

    private static string Pooled(Dictionary<string, string> pool, string text)
    {
        if (text.Length == 0)
            return "";
        if (pool.TryGetValue(text, out var known))
            return known;
        if (pool.Count < 50_000)
            pool[text] = text;
        return text;
    }

    private static string Say(char separator) => separator switch
    {
        FixedWidths.Mark => "in columns of fixed width or one",
        '\t' => "separated by tabs",
        < ' ' => $"separated by the control character {(int)separator}",
        _ => $"separated by '{separator}'",
    };

    private static char? NamedSeparator(string text)
    {
        var line = text.AsSpan(0, Math.Max(0, text.AsSpan().IndexOfAny('\r', '\n'))).Trim();
        return line.Length is 5 or 6 && line.StartsWith("sep=", StringComparison.OrdinalIgnoreCase) ? line[4] : null;
    }

    // The separator that gives the most lines the same number of cells; among equals the one that makes more cells. None where no mark cuts the lines evenly.
    private static char GuessSeparator(string text)
    {
        var best = ',';
        var bestScore = 0.0;
        foreach (var separator in Separators)
        {
            var (score, _, _) = Score(text, separator);
            score *= separator == ',' ? 0.9 : 1.0;
            if (score > bestScore)
                (best, bestScore) = (separator, score);
        }

        if (bestScore >= 0.5)
            return best;
        foreach (var separator in RareSeparators)
        {
            var (_, share, most) = Score(text, separator);
            if (share >= 0.95 && (most >= 2 || (most == 1 && separator < ' ')))
                return separator;
        }

        return bestScore > 0 && text.AsSpan().IndexOf("   ") < 0 ? best : FixedWidths.Marked(text) is null ? best : '\0';
    }

    private static (double Score, double Share, int Most) Score(string text, char separator)
    {
        var counts = new Dictionary<int, int>();
        int lines = 0, position = 0;
        while (lines < 200 && position < text.Length)
        {
            var (count, next, blank) = CountLine(text, position, separator);
            position = next;
            if (blank)
                continue;
            lines++;
            counts[count] = counts.GetValueOrDefault(count) + 1;
        }

        if (lines == 0)
            return (0, 0, 0);
        var (most, times) = counts.OrderByDescending(pair => pair.Value).ThenByDescending(pair => pair.Key).First();
        if (most == 0)
            (most, times) = counts.Where(pair => pair.Key > 0).OrderByDescending(pair => pair.Value * pair.Key).Select(pair => (pair.Key, pair.Value)).FirstOrDefault();
        var share = (double)times / lines;
        return (share * share * Math.Min(most, 8), share, most);
    }

    private static (int Count, int Next, bool Blank) CountLine(string text, int start, char separator)
    {
        int count = 0, i = start;
        var quoted = false;
        var blank = true;
        for (; i < text.Length; i++)
        {
            var c = text[i];
            if (c == '"')
                quoted = !quoted;
            else if (!quoted && c == separator)
                count++;
            if (c is '\n' or '\r' && (!quoted || i - start > 4000))
                break;
            blank &= char.IsWhiteSpace(c) || c == separator;
        }

        if (i < text.Length && text[i] == '\r' && i + 1 < text.Length && text[i + 1] == '\n')
            i++;
        return (count, i + 1, blank);
    }

    private sealed class Splitter(string text, char separator, SheetLimits limits)
    {
        private readonly StringBuilder buffer = new();
        private int position;
        private int usual;
        private int row;
        private int failures;

        public int Unclosed { get; private set; }

        public List<string>? Next()
        {
            if (position >= text.Length)
                return null;
            row++;
            var start = position;
            var lineEnd = LineEnd(start);
            var line = text.AsSpan(start, lineEnd - start);
            List<string> fields;
            if (!line.Contains('"'))
            {
                fields = Plain(line);
                position = After(lineEnd);
            }
            else if (HasLoneMark(line) && Plain(line) is var plain && (plain.Count == usual || usual == 0))
            {
                fields = plain.ConvertAll(Unwrap);
                position = After(lineEnd);
            }
            else if (usual > 0 && HasLoneMark(line) && Quoted(start, lone: true) is { } marked && marked.Count == usual)
            {
                fields = marked;
            }
            else
            {
                position = start;
                fields = (failures < 50 ? Quoted(start) : null) ?? Plain(line);
                if (position == start)
                {
                    failures++;
                    Unclosed = Unclosed == 0 ? row : Unclosed;
                    position = After(lineEnd);
                }
            }

            if (fields.Count > limits.Columns)
                throw new Refusal($"Row {row} has {fields.Count} columns and at most {limits.Columns} are read. Is this a sheet?");
            if (usual == 0 && fields.Count > 1 && fields.Count(field => field.Trim().Length > 0) > 1)
                usual = fields.Count;
            return fields;
        }

        // A mark alone between two separators is a ditto mark unless the cells say otherwise.
        private bool HasLoneMark(ReadOnlySpan<char> line)
        {
            for (var i = 0; i < line.Length; i++)
            {
                if (line[i] != '"')
                    continue;
                int left = i - 1, right = i + 1;
                while (left >= 0 && line[left] == ' ')
                    left--;
                while (right < line.Length && line[right] == ' ')
                    right++;
                if ((left < 0 || line[left] == separator) && (right >= line.Length || line[right] == separator))
                    return true;
            }

            return false;
        }

        private static string Unwrap(string field)
        {
            var trimmed = field.Trim();
            return trimmed.Length >= 2 && trimmed[0] == '"' && trimmed[^1] == '"' && trimmed != "\"\""
                ? trimmed[1..^1].Replace("\"\"", "\"", StringComparison.Ordinal)
                : field;
        }

        private List<string> Plain(ReadOnlySpan<char> line)
        {
            var fields = new List<string>(usual + 1);
            while (true)
            {
                var at = line.IndexOf(separator);
                fields.Add(Cut(at < 0 ? line : line[..at]));
                if (at < 0)
                    return fields;
                line = line[(at + 1)..];
            }
        }

        private string Cut(ReadOnlySpan<char> field) =>
            (field.Length > limits.CellCharacters ? field[..limits.CellCharacters] : field).Trim().ToString();

        // With lone marks a quotation mark that is a whole cell is one, as in "the same as above", and others begin quoted cells.
        private List<string>? Quoted(int start, bool lone = false)
        {
            var fields = new List<string>(usual + 1);
            var i = start;
            while (true)
            {
                var at = i;
                while (at < text.Length && text[at] == ' ')
                    at++;
                if (lone && at < text.Length && text[at] == '"' && IsEnd(at + 1))
                {
                    fields.Add("\"");
                    for (i = at + 1; i < text.Length && text[i] == ' ';)
                        i++;
                }
                else if (at < text.Length && text[at] == '"')
                {
                    buffer.Clear();
                    for (at++; ; at++)
                    {
                        if (at >= text.Length || buffer.Length > limits.CellCharacters)
                            return null;
                        if (text[at] != '"')
                        {
                            buffer.Append(text[at]);
                            continue;
                        }

                        if (at + 1 < text.Length && text[at + 1] == '"')
                        {
                            buffer.Append('"');
                            at++;
                            continue;
                        }

                        break;
                    }

                    at++;
                    var rest = at;
                    while (rest < text.Length && text[rest] != separator && text[rest] is not ('\r' or '\n'))
                        rest++;
                    var more = text.AsSpan(at, rest - at).TrimEnd();
                    // A quoted cell over several lines that does not end at a separator was never meant as one.
                    if (more.Length > 0 && buffer.ToString().Contains('\n', StringComparison.Ordinal))
                        return null;
                    buffer.Append(more);
                    i = rest;
                    fields.Add(buffer.ToString().Trim());
                }
                else
                {
                    var end = i;
                    while (end < text.Length && text[end] != separator && text[end] is not ('\r' or '\n'))
                        end++;
                    fields.Add(Cut(text.AsSpan(i, end - i)));
                    i = end;
                }

                if (i < text.Length && text[i] == separator)
                {
                    i++;
                    continue;
                }

                position = After(i);
                return fields;
            }
        }

        private bool IsEnd(int at)
        {
            while (at < text.Length && text[at] == ' ')
                at++;
            return at >= text.Length || text[at] == separator || text[at] is '\r' or '\n';
        }

        private int LineEnd(int start)
        {
            var length = text.AsSpan(start).IndexOfAny('\r', '\n');
            return length < 0 ? text.Length : start + length;
        }

        private int After(int end) =>
            end >= text.Length ? text.Length : text[end] == '\r' && end + 1 < text.Length && text[end + 1] == '\n' ? end + 2 : end + 1;
    }
}
