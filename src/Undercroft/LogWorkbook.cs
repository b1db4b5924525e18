using Undercroft.Importing.Sheets;
using Undercroft.Shell.Logs;

namespace Undercroft;

/// <summary>Lets logs be read from workbooks with the reader of sheets. The rooms that read logs do not know that one.</summary>
internal static class LogWorkbook
{
    private static readonly SheetLimits Limits = SheetLimits.Standard with { Bytes = 128L << 20, Rows = 1_100_000, Cells = 16_000_000, Unpacked = 2L << 30 };

    /// <summary>The sheets of a workbook; dates and times of day that are stored as such are ISO 8601 already.</summary>
    public static IReadOnlyList<LogSheet> Sheets(ReadOnlyMemory<byte> bytes)
    {
        var file = SheetReader.Read(bytes, Limits, clocks: true);
        return [.. file.Sheets.Select(sheet => new LogSheet(sheet.Name, [.. sheet.Rows.Select(row => (IReadOnlyList<string>)[.. row.Cells.Select(cell => cell.Text)])], file.From1904))];
    }
}
