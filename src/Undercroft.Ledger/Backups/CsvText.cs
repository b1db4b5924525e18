using System.Globalization;

namespace Undercroft.Ledger.Backups;

/// <summary>Comma-separated values (RFC 4180) that a spreadsheet shows and does not run.</summary>
internal sealed class CsvText
{
    private readonly List<string> lines = [];
    private readonly int[] kept;

    /// <param name="columns">Names; a column whose name is null is left out.</param>
    internal CsvText(params string?[] columns)
    {
        kept = [.. Enumerable.Range(0, columns.Length).Where(i => columns[i] is not null)];
        lines.Add(string.Join(',', kept.Select(i => columns[i])));
    }

    internal void Add(params object?[] cells) => lines.Add(string.Join(',', kept.Select(i => Cell(cells[i]))));

    /// <summary>UTF-8 text with a line end after every row, the header first.</summary>
    public override string ToString() => string.Join("\r\n", lines) + "\r\n";

    internal static string Cell(object? value) => value switch
    {
        null => "",
        bool truth => truth ? "yes" : "no",
        string text => Words(text),
        double number => Math.Round(number, 9).ToString("R", CultureInfo.InvariantCulture),
        IFormattable plain => plain.ToString(null, CultureInfo.InvariantCulture),
        _ => Words(value.ToString() ?? ""),
    };

    /// <summary>A text that would begin a formula gets an apostrophe before it; quotes, commas and line ends are quoted.</summary>
    private static string Words(string text)
    {
        if (text.Length > 0 && text[0] is '=' or '+' or '-' or '@' or '\t' or '\r')
            text = "'" + text;
        return text.AsSpan().IndexOfAny("\",\r\n") < 0 ? text : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
    }
}
