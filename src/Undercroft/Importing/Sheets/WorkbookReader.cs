using System.IO.Compression;
using System.Text;
using System.Xml;
using Undercroft.Ledger;

namespace Undercroft.Importing.Sheets;

/// <summary>
/// Workbooks of ECMA-376 (.xlsx): visible and hidden sheets, shared and inline strings, numbers, dates by their style, merged cells.
/// Only stored values are read; a formula is never computed.
/// </summary>
internal static class WorkbookReader
{
    public static SheetFile Read(ReadOnlyMemory<byte> bytes, SheetLimits limits)
    {
        using var archive = new ZipArchive(new MemoryStream(bytes.ToArray(), writable: false), ZipArchiveMode.Read);
        if (archive.Entries.Count > limits.Entries)
            throw new Refusal($"The file holds {archive.Entries.Count} parts, which no sheet does. Nothing was imported.");
        var parts = new Unpacking(archive, bytes.Length, limits);
        if (archive.GetEntry("xl/workbook.bin") is not null)
            throw new Refusal("This is a binary workbook (.xlsb), which is not read. Save it as .xlsx or .csv and try again.");
        if (archive.Entries.All(entry => !entry.FullName.StartsWith("xl/", StringComparison.OrdinalIgnoreCase)))
            throw new Refusal(archive.GetEntry("mimetype") is not null
                ? "This is a document of another office format (an OpenDocument sheet ends in .ods), which is not read. Open it where it was made, save it as .xlsx or .csv and import that; a password has to be taken off first."
                : "The file is a packed archive and not a workbook. Unpack it and choose the .xlsx or .csv file inside.");
        var (sheets, dates1904) = Contents(parts);
        var strings = SharedStrings(parts, limits);
        var styles = CellStyles.Read(parts.Open("xl/styles.xml"), dates1904);
        var remarks = new List<string>();
        var read = new List<Sheet>();
        var budget = new Budget(limits);
        foreach (var (name, path, hidden) in sheets)
        {
            using var reader = parts.Open(path);
            if (reader is null)
                throw new InvalidDataException();
            read.Add(new Sheet(name, new WorksheetReader(reader, strings, styles, budget).Rows()));
            if (hidden)
                remarks.Add($"Sheet '{name}' is hidden in the workbook; it was read all the same.");
        }

        if (budget.FormulasWithoutResult > 0)
            remarks.Add($"{budget.FormulasWithoutResult} formulas have no stored result: open the workbook in a spreadsheet program and save it once to store them.");
        return new SheetFile("workbook", read, remarks);
    }

    private static (List<(string Name, string Path, bool Hidden)> Sheets, bool Dates1904) Contents(Unpacking parts)
    {
        var targets = new Dictionary<string, string>();
        using (var relations = parts.Open("xl/_rels/workbook.xml.rels"))
        {
            while (relations?.Read() == true)
            {
                if (relations is { NodeType: XmlNodeType.Element, LocalName: "Relationship" } && relations.GetAttribute("Id") is { } id)
                    targets[id] = relations.GetAttribute("Target") ?? "";
            }
        }

        var sheets = new List<(string, string, bool)>();
        var dates1904 = false;
        using var workbook = parts.Open("xl/workbook.xml") ?? throw new InvalidDataException();
        while (workbook.Read())
        {
            if (workbook.NodeType != XmlNodeType.Element)
                continue;
            if (workbook.LocalName == "workbookPr")
                dates1904 = workbook.GetAttribute("date1904") is "1" or "true";
            if (workbook.LocalName != "sheet")
                continue;
            string? id = null;
            for (var more = workbook.MoveToFirstAttribute(); more; more = workbook.MoveToNextAttribute())
            {
                if (workbook.LocalName == "id" && workbook.NamespaceURI.Length > 0)
                    id = workbook.Value;
            }

            workbook.MoveToElement();
            var target = targets.GetValueOrDefault(id ?? "", $"worksheets/sheet{sheets.Count + 1}.xml");
            var path = target.StartsWith('/') ? target[1..] : "xl/" + target;
            if (path.Contains("worksheets", StringComparison.OrdinalIgnoreCase))
                sheets.Add((workbook.GetAttribute("name") ?? "", path, workbook.GetAttribute("state") is "hidden" or "veryHidden"));
        }

        return (sheets, dates1904);
    }

    private static List<string> SharedStrings(Unpacking parts, SheetLimits limits)
    {
        var strings = new List<string>();
        using var reader = parts.Open("xl/sharedStrings.xml");
        while (reader?.Read() == true)
        {
            if (reader is not { NodeType: XmlNodeType.Element, LocalName: "si" })
                continue;
            strings.Add(RichText(reader, limits.CellCharacters));
            if (strings.Count > limits.Cells)
                throw new Refusal($"The workbook holds more than {limits.Cells} texts, which is more than is read at once. Split it into several files.");
        }

        return strings;
    }

    /// <summary>The text of an element made of runs, without phonetic hints.</summary>
    internal static string RichText(XmlReader reader, int longest)
    {
        if (reader.IsEmptyElement)
            return "";
        var text = new StringBuilder();
        var depth = reader.Depth;
        var phonetic = 0;
        var inText = false;
        while (reader.Read() && reader.Depth > depth)
        {
            switch (reader.NodeType)
            {
                case XmlNodeType.Element when reader.LocalName == "rPh" && !reader.IsEmptyElement:
                    phonetic++;
                    break;
                case XmlNodeType.EndElement when reader.LocalName == "rPh":
                    phonetic--;
                    break;
                case XmlNodeType.Element when reader.LocalName == "t":
                    inText = !reader.IsEmptyElement;
                    break;
                case XmlNodeType.EndElement when reader.LocalName == "t":
                    inText = false;
                    break;
                case XmlNodeType.Text or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace or XmlNodeType.CDATA
                    when inText && phonetic == 0 && text.Length < longest:
                    text.Append(reader.Value.AsSpan(0, Math.Min(reader.Value.Length, longest - text.Length)));
                    break;
                default:
                    break;
            }
        }

        return text.ToString();
    }

    /// <summary>What is left of the limits, shared by all sheets of a workbook.</summary>
    internal sealed class Budget(SheetLimits limits)
    {
        private int rows;
        private int cells;

        public SheetLimits Limits => limits;

        public int FormulasWithoutResult { get; set; }

        public void Row()
        {
            if (++rows > limits.Rows)
                throw new Refusal($"The workbook has more than {limits.Rows} rows, which is more than is read at once. Split it into several files.");
        }

        public void Cell()
        {
            if (++cells > limits.Cells)
                throw new Refusal($"The workbook has more than {limits.Cells} filled cells, which is more than is read at once. Split it into several files.");
        }
    }
}
