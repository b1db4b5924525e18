using System.Globalization;
using System.IO.Compression;
using System.Security;
using System.Text;

namespace Undercroft.Tests.Importing;

/// <summary>Makes small workbooks of ECMA-376 for tests: strings, numbers, dates and styles, merged cells, several sheets.</summary>
internal sealed class WorkbookMaker
{
    public const int Plain = 0;
    public const int Date = 1;
    public const int Grams = 2;
    public const int Percent = 3;
    public const int MonthYear = 4;
    public const int Moment = 5;
    public const int Clock = 6;

    private readonly List<(string Name, string Xml, string State)> sheets = [];
    private readonly List<string> shared = [];

    /// <summary>True where the workbook counts its days from 1904.</summary>
    public bool From1904 { get; init; }

    /// <summary>A cell that shows a number with a style.</summary>
    public sealed record Styled(double Value, int Style);

    /// <summary>A formula with or without a stored result.</summary>
    public sealed record Formula(string Text, double? Result);

    /// <summary>A text kept in the cell itself.</summary>
    public sealed record Inline(string Text);

    public WorkbookMaker Sheet(string name, object?[][] rows, string[]? merged = null, string state = "visible")
    {
        var xml = new StringBuilder("<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData>");
        for (var r = 0; r < rows.Length; r++)
        {
            xml.Append(CultureInfo.InvariantCulture, $"<row r=\"{r + 1}\">");
            for (var c = 0; c < rows[r].Length; c++)
                xml.Append(Cell($"{(char)('A' + c)}{r + 1}", rows[r][c]));
            xml.Append("</row>");
        }

        xml.Append("</sheetData>");
        if (merged is not null)
            xml.Append("<mergeCells>").AppendJoin("", merged.Select(range => $"<mergeCell ref=\"{range}\"/>")).Append("</mergeCells>");
        sheets.Add((name, xml.Append("</worksheet>").ToString(), state));
        return this;
    }

    public byte[] Bytes()
    {
        var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            Put(zip, "xl/workbook.xml", "<workbook xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\" xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\">" + (From1904 ? "<workbookPr date1904=\"1\"/>" : "") + "<sheets>"
                + string.Concat(sheets.Select((sheet, i) => $"<sheet name=\"{SecurityElement.Escape(sheet.Name)}\" sheetId=\"{i + 1}\" state=\"{sheet.State}\" r:id=\"rId{i + 1}\"/>")) + "</sheets></workbook>");
            Put(zip, "xl/_rels/workbook.xml.rels", "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">"
                + string.Concat(sheets.Select((_, i) => $"<Relationship Id=\"rId{i + 1}\" Target=\"worksheets/sheet{i + 1}.xml\"/>")) + "</Relationships>");
            Put(zip, "xl/styles.xml", "<styleSheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><numFmts><numFmt numFmtId=\"170\" formatCode=\"0&quot; g&quot;\"/><numFmt numFmtId=\"171\" formatCode=\"mmm yyyy\"/><numFmt numFmtId=\"172\" formatCode=\"dd/mm/yyyy\\ hh:mm:ss.000\"/></numFmts>"
                + "<cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"170\"/><xf numFmtId=\"10\"/><xf numFmtId=\"171\"/><xf numFmtId=\"172\"/><xf numFmtId=\"20\"/></cellXfs></styleSheet>");
            Put(zip, "xl/sharedStrings.xml", "<sst xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\">" + string.Concat(shared.Select(text => $"<si><t xml:space=\"preserve\">{SecurityElement.Escape(text)}</t></si>")) + "</sst>");
            for (var i = 0; i < sheets.Count; i++)
                Put(zip, $"xl/worksheets/sheet{i + 1}.xml", sheets[i].Xml);
        }

        return stream.ToArray();
    }

    internal static void Put(ZipArchive zip, string name, string text)
    {
        using var writer = new StreamWriter(zip.CreateEntry(name).Open(), new UTF8Encoding(false));
        writer.Write(text);
    }

    private string Cell(string at, object? value)
    {
        string Number(double number) => number.ToString("R", CultureInfo.InvariantCulture);
        switch (value)
        {
            case null:
                return "";
            case string text:
                shared.Add(text);
                return $"<c r=\"{at}\" t=\"s\"><v>{shared.Count - 1}</v></c>";
            case Inline inline:
                return $"<c r=\"{at}\" t=\"inlineStr\"><is><r><t>{SecurityElement.Escape(inline.Text)}</t></r></is></c>";
            case bool truth:
                return $"<c r=\"{at}\" t=\"b\"><v>{(truth ? 1 : 0)}</v></c>";
            case DateOnly day:
                return $"<c r=\"{at}\" s=\"1\"><v>{day.DayNumber - new DateOnly(1899, 12, 30).DayNumber}</v></c>";
            case Styled styled:
                return $"<c r=\"{at}\" s=\"{styled.Style}\"><v>{Number(styled.Value)}</v></c>";
            case Formula formula:
                return $"<c r=\"{at}\"><f>{SecurityElement.Escape(formula.Text)}</f>{(formula.Result is { } result ? $"<v>{Number(result)}</v>" : "")}</c>";
            default:
                return $"<c r=\"{at}\"><v>{Number(Convert.ToDouble(value, CultureInfo.InvariantCulture))}</v></c>";
        }
    }
}
