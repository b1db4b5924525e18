using System.Diagnostics;
using System.Globalization;
using System.IO.Compression;
using System.Text;

namespace Undercroft.Bench;

/// <summary>How long the program takes to understand and to bring in a sheet, as text and as a workbook, beside a plain parse of the same text line by line: cells cut at commas, numbers read, nothing understood.</summary>
internal static class SheetImport
{
    private static readonly string[] Names = ["Harbour", "Evening", "Old Mill", "Lantern", "Fen", "Moss", "Larch", "Bay", "Oak", "Quiet"];
    private static readonly string[] Amounts = ["50g", "100 g", "8 oz", "1 lb", "1.75oz", "2 oz"];
    private static readonly string[] Made = ["'15", "2016", "ca. 2012", "Spring 2020", ""];
    private static readonly string[] Places = ["closet / top shelf", "attic", "basement > box 2"];

    /// <summary>Arguments: rows, rounds.</summary>
    public static int Run(string[] args)
    {
        var rows = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 100_000;
        var rounds = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 3;
        var folder = Directory.CreateTempSubdirectory("undercroft-bench-");
        try
        {
            string text = Path.Combine(folder.FullName, "sheet.csv"), book = Path.Combine(folder.FullName, "sheet.xlsx");
            File.WriteAllText(text, Text(rows), new UTF8Encoding(false));
            Workbook(book, File.ReadLines(text));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{rows} rows, text {new FileInfo(text).Length / 1e6:0.0} MB, workbook {new FileInfo(book).Length / 1e6:0.0} MB"));
            Console.WriteLine("| what | wall, s | CPU, s | CPU over the plain parse | peak memory, MB |");
            Console.WriteLine("|---|---|---|---|---|");
            for (var round = 0; round < rounds; round++)
            {
                var plain = Plain(text);
                Line("plain parse, line by line", plain.Wall, plain.Cpu, plain.Cpu, 0);
                foreach (var (file, name) in new[] { (text, "text"), (book, "workbook") })
                {
                    var cellar = Path.Combine(folder.FullName, name + round.ToString(CultureInfo.InvariantCulture));
                    Imported($"{name}, understood (--dry-run), whole process", plain.Cpu, "import", "sheet", file, "--dry-run", "--data", cellar, "--json");
                    Imported($"{name}, brought in, whole process", plain.Cpu, "import", "sheet", file, "--data", cellar, "--json");
                }
            }

            return 0;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static string Text(int rows)
    {
        var random = new Random(1);
        var text = new StringBuilder("Blend,Tins,Net,Tin date,Bought,Place,Price,Notes\n");
        string Any(string[] words) => words[random.Next(words.Length)];
        for (var i = 0; i < rows; i++)
            text.Append(CultureInfo.InvariantCulture, $"{Any(Names)} {i % 700},{random.Next(1, 3)},{Any(Amounts)},{Any(Made)},{random.Next(13, 29)}/{random.Next(1, 13):00}/{random.Next(2021, 2026)},{Any(Places)},${random.Next(5, 31)}.50,{(i % 3 == 0 ? "" : "note " + i.ToString(CultureInfo.InvariantCulture))}\n");
        return text.ToString();
    }

    // Inline strings and numbers in one sheet, as small programs write workbooks.
    private static void Workbook(string path, IEnumerable<string> lines)
    {
        using var zip = ZipFile.Open(path, ZipArchiveMode.Create);
        Put(zip, "xl/workbook.xml", "<workbook xmlns:r=\"r\"><sheets><sheet name=\"Cellar\" r:id=\"rId1\"/></sheets></workbook>");
        var sheet = new StringBuilder("<worksheet><sheetData>");
        var row = 0;
        foreach (var line in lines)
        {
            row++;
            sheet.Append(CultureInfo.InvariantCulture, $"<row r=\"{row}\">");
            var cells = line.Split(',');
            for (var c = 0; c < cells.Length; c++)
            {
                if (cells[c].Length > 0)
                {
                    var number = cells[c].All(char.IsAsciiDigit);
                    sheet.Append(CultureInfo.InvariantCulture, $"<c r=\"{(char)('A' + c)}{row}\"").Append(number ? "><v>" : " t=\"inlineStr\"><is><t>")
                        .Append(cells[c].Replace(">", "&gt;", StringComparison.Ordinal)).Append(number ? "</v></c>" : "</t></is></c>");
                }
            }

            sheet.Append("</row>");
        }

        Put(zip, "xl/worksheets/sheet1.xml", sheet.Append("</sheetData></worksheet>").ToString());
    }

    private static void Put(ZipArchive zip, string name, string text)
    {
        using var part = new StreamWriter(zip.CreateEntry(name, CompressionLevel.Fastest).Open(), new UTF8Encoding(false));
        part.Write(text);
    }

    private static (double Wall, double Cpu) Plain(string file)
    {
        using var process = Process.GetCurrentProcess();
        var (wall, cpu) = (Stopwatch.StartNew(), process.TotalProcessorTime);
        var sum = 0.0;
        foreach (var line in File.ReadLines(file))
        {
            foreach (var cell in line.Split(','))
                sum += double.TryParse(cell.TrimEnd('g', ' '), NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number : 0;
        }

        process.Refresh();
        var spent = (process.TotalProcessorTime - cpu).TotalSeconds;
        return sum > 0 ? (wall.Elapsed.TotalSeconds, spent) : throw new InvalidOperationException("The sheet held no number.");
    }

    private static void Imported(string what, double plain, params string[] args)
    {
        var run = ProgramRun.Of(args);
        Line(what, run.WallMs / 1000, run.CpuMs / 1000, plain, run.PeakMb);
    }

    private static void Line(string what, double wall, double cpu, double plain, double peak) => Console.WriteLine(string.Create(
        CultureInfo.InvariantCulture, $"| {what} | {wall:0.00} | {cpu:0.00} | {cpu / plain:0} | {(peak > 0 ? peak.ToString("0", CultureInfo.InvariantCulture) : "")} |"));
}
