using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>A row that is asked about.</summary>
/// <param name="Sheet">Name of its sheet, or empty.</param>
/// <param name="Row">Row number as a spreadsheet shows it.</param>
/// <param name="Reason">In words for a person.</param>
/// <param name="HeldBack">True where nothing of the row is imported.</param>
/// <param name="Cells">The row, word for word.</param>
public sealed record RowDoubt(string Sheet, int Row, string Reason, bool HeldBack, IReadOnlyList<string> Cells);

/// <summary>All that a file says.</summary>
/// <param name="Tables">The tables with the guess of their columns.</param>
/// <param name="Rows">Every data row, understood or not.</param>
/// <param name="Doubts">Rows to ask about, and totals that do not add up.</param>
/// <param name="Remarks">What else a person should know: skipped sheets, margin notes, encodings.</param>
public sealed record SheetReading(IReadOnlyList<Table> Tables, IReadOnlyList<RowFacts> Rows, IReadOnlyList<RowDoubt> Doubts, IReadOnlyList<string> Remarks)
{
    /// <summary>How a text file stores its letters; null for a workbook.</summary>
    public string? Encoding { get; init; }

    /// <summary>Data rows; headers, blanks, headings and totals are none.</summary>
    public int RowsRead => Rows.Count;

    /// <summary>Data rows of which everything is understood.</summary>
    public int RowsUnderstood => Rows.Count(row => row.Standing == Standing.Understood);

    /// <summary>Data rows that are asked about, those held back among them.</summary>
    public int RowsDoubtful => Rows.Count - RowsUnderstood;

    /// <summary>Packages on the shelf.</summary>
    public int Packages => Rows.Sum(row => row.Packages);

    /// <summary>Grams that the data rows state, used-up ones left out.</summary>
    public double GramsRead => Rows.Sum(row => row.Gone ? 0 : row.GramsRead);

    /// <summary>Grams that are imported.</summary>
    public double GramsAdded => Rows.Sum(row => row.GramsAdded);
}

/// <summary>Understands a file: finds its tables, reads their rows, decides what can be decided, checks rows against one another.</summary>
public static class SheetUnderstanding
{
    /// <summary>All that the file says. A pure function of the file, the map and the day.</summary>
    /// <param name="file">The file as read.</param>
    /// <param name="today">The present: no date of the past lies after it.</param>
    /// <param name="map">What the person has said about columns, or null.</param>
    /// <param name="progress">Told how many rows are done, now and then.</param>
    public static SheetReading Of(SheetFile file, DateOnly today, SheetMap? map = null, Action<int>? progress = null)
    {
        var remarks = new List<string>(file.Remarks);
        var tables = new List<Table>();
        var several = file.Sheets.Count(sheet => sheet.Rows.Count > 0) > 1;
        foreach (var given in file.Sheets)
        {
            if (given.Rows.Count == 0)
                continue;
            var side = OnItsSide.Upright(given);
            var blocks = side is null ? InBlocks.Flat(given) : null;
            var sheet = side ?? blocks ?? given;
            if (blocks is not null)
                remarks.Add($"{(sheet.Name.Length > 0 ? $"Sheet '{sheet.Name}'" : "The sheet")} has a block of lines for each: every block was read as a row, numbered as its first line.");
            if (side is not null)
                remarks.Add($"{(sheet.Name.Length > 0 ? $"Sheet '{sheet.Name}'" : "The sheet")} lies on its side: each of its columns was read as a row, and 'row 2' is column B.");
            var found = HeaderGuess.Tables(sheet, today, map);
            if (several && Elsewhere.Of(sheet.Name) == Elsewhere.Kind.Summary)
                remarks.Add($"Sheet '{sheet.Name}' sums up the others; its {sheet.Rows.Count} rows were kept and not imported.");
            else if (several && !found.Any(HoldsPackages))
                remarks.Add($"Sheet '{sheet.Name}' holds no packages as far as its columns say; its {sheet.Rows.Count} rows were kept and not imported.");
            else
                tables.AddRange(found);
        }

        var cache = new ReadingCache(today);
        var order = DateOrder.Of(tables, cache, map);
        var rows = new List<RowFacts>();
        var totals = new List<RowDoubt>();
        foreach (var table in tables)
        {
            var setting = new TableSetting(today, order(table));
            var done = rows.Count;
            var pass = TablePass.Run(table, setting, cache, count => progress?.Invoke(done + count));
            if (pass.SaysAmountsAreTotals)
                pass = TablePass.Run(table, setting with { AmountsAreTotals = true }, cache, null);
            rows.AddRange(pass.Rows);
            totals.AddRange(pass.Totals);
            remarks.AddRange(pass.Remarks.Take(20));
        }

        RowChecks.Twins(rows);
        var doubts = rows.Where(row => row.Standing != Standing.Understood)
            .Select(row => new RowDoubt(row.Sheet, row.Row, string.Join(" ", row.Doubts), row.Standing == Standing.HeldBack, Raw(row.Source)))
            .Concat(totals).ToList();
        return new SheetReading(tables, rows, doubts, remarks) { Encoding = file.Encoding };
    }

    /// <summary>What every doubt about a total says, whatever the rows now add up to.</summary>
    internal const string TotalMark = " is not the sum of the rows above";

    internal static IReadOnlyList<string> Raw(SheetRow row) => [.. row.Cells.Select(cell => cell.Text)];

    private static bool HoldsPackages(Table table)
    {
        var amounts = table.Columns.Any(column => (column.IsAmount || column.Meaning is Meaning.Count or Meaning.Container) && column.Ground != Ground.Nothing);
        var named = table.Columns.Any(column => column.Meaning is Meaning.Blend && column.Ground is Ground.Head or Ground.Map);
        var dated = table.Columns.Any(column => column.IsDate);
        return amounts || (named && (dated || table.Of(Meaning.Place) is not null));
    }
}
