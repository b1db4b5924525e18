using System.Text;
using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>One sheet of a workbook: its name and its rows of cells as text, dates and times as ISO 8601, numbers with a point.</summary>
/// <param name="Name">Of the sheet.</param>
/// <param name="Rows">Of cells.</param>
/// <param name="From1904">True where the workbook counts its days from 1904; it matters for those that are stored without a style.</param>
public sealed record LogSheet(string Name, IReadOnlyList<IReadOnlyList<string>> Rows, bool From1904 = false);

/// <summary>Reads a workbook.</summary>
/// <param name="bytes">The whole file.</param>
public delegate IReadOnlyList<LogSheet> WorkbookSheets(ReadOnlyMemory<byte> bytes);

/// <summary>A workbook as the text that a logger would have written.</summary>
internal static class WorkbookText
{
    public static bool IsWorkbook(LogSource source)
    {
        Span<byte> head = stackalloc byte[4];
        using var stream = source.Open();
        return stream.ReadAtLeast(head, 4, throwOnEndOfStream: false) == 4 && head.SequenceEqual("PK\u0003\u0004"u8);
    }

    public static Log Of(LogSource source, WorkbookSheets? workbook, LogAnswers answers, Func<LogSource, bool, Log> read)
    {
        if (workbook is null)
            throw new Refusal($"{source.Name} is a workbook, which is not read here. Save the sheet as text (.csv).");
        using var stream = source.Open();
        var bytes = new byte[source.Length];
        stream.ReadExactly(bytes);
        var sheets = workbook(bytes).Where(sheet => sheet.Rows.Count > 0).ToList();
        if (answers.Sensor is { } sensor && sheets.Find(sheet => string.Equals(sheet.Name, sensor, StringComparison.OrdinalIgnoreCase)) is { } named)
            sheets = [named];
        var logs = new List<(string Name, Log Log)>();
        Refusal? refused = null;
        foreach (var sheet in sheets.OrderByDescending(sheet => sheet.Rows.Count))
        {
            try
            {
                logs.Add((sheet.Name, read(LogSource.Of(source.Name, Text(sheet)), sheet.From1904)));
            }
            catch (Refusal refusal)
            {
                refused ??= refusal; // that of the longest sheet: the others may be a title or a summary
            }
        }

        return logs.Count switch
        {
            1 => logs[0].Log,
            0 => throw refused ?? new Refusal($"{source.Name} is empty: there is nothing to import."),
            _ when JoinedSheets.Of(logs) is { } joined => joined,
            _ => throw new Refusal($"{source.Name} is not read: several of its sheets hold readings ({string.Join(", ", logs.Select(log => $"'{log.Name}'"))}). Say which with --sensor, such as --sensor \"{logs[0].Name}\"."),
        };
    }

    private static byte[] Text(LogSheet sheet)
    {
        var text = new StringBuilder();
        foreach (var row in sheet.Rows)
        {
            foreach (var cell in row)
                text.Append(cell.Replace('\t', ' ').Replace('\n', ' ').Replace('\r', ' ')).Append('\t');
            text.Append('\n');
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }
}
