using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>One walk down the rows of a table: data rows are read, headings are remembered, totals are compared.</summary>
internal sealed class TablePass
{
    private readonly Table table;
    private readonly RowReader reader;
    private readonly ReadingCache cache;
    private int sinceTotal;
    private bool totalsSayAmountsAreTotals;
    private bool totalsSayOtherwise;

    private TablePass(Table table, TableSetting setting, ReadingCache cache)
    {
        this.table = table;
        this.cache = cache;
        reader = new RowReader(table, setting, cache);
    }

    public List<RowFacts> Rows { get; } = [];

    public List<RowDoubt> Totals { get; } = [];

    public List<string> Remarks { get; } = [];

    /// <summary>True where every total fits the amounts as they stand and not the amounts times their counts.</summary>
    public bool SaysAmountsAreTotals => totalsSayAmountsAreTotals && !totalsSayOtherwise;

    public static TablePass Run(Table table, TableSetting setting, ReadingCache cache)
    {
        var pass = new TablePass(table, setting, cache);
        pass.Walk();
        return pass;
    }

    private void Walk()
    {
        string? heading = null, place = null;
        var elsewhere = Elsewhere.Of(table.Sheet);
        var underHeading = Elsewhere.Kind.None;
        for (var i = 0; i < table.Rows.Count; i++)
        {
            var row = table.Rows[i];
            switch (RowKinds.Of(row, table, i + 1 < table.Rows.Count ? table.Rows[i + 1] : null))
            {
                case RowKind.Head:
                    break;
                case RowKind.Total:
                    Compare(row);
                    break;
                case RowKind.Heading:
                    heading = row.Cells.First(cell => !cell.IsBlank).Text.Trim(' ', '-', '=', '*', '#', '~', '_', ':');
                    place = PlaceWords.Names(heading) ? heading : null;
                    underHeading = Elsewhere.Of(heading);
                    break;
                case RowKind.Note:
                    Remarks.Add($"Row {row.Number}{(table.Sheet.Length > 0 ? $" of '{table.Sheet}'" : "")} is a remark and was kept: '{RowReader.Short(string.Join(" ", row.Cells.Where(cell => !cell.IsBlank && !cell.Continued).Select(cell => cell.Text.Trim())))}'.");
                    break;
                case RowKind.Data:
                    if (IsBareSum(row, i))
                        Compare(row);
                    else
                        Read(row, place, heading, underHeading is Elsewhere.Kind.None ? elsewhere : underHeading);
                    break;
                default:
                    throw new InvalidOperationException("A row of no kind.");
            }
        }
    }

    private void Read(SheetRow row, string? place, string? heading, Elsewhere.Kind elsewhere)
    {
        var facts = reader.Read(row, place, place is null ? heading : null);
        if (elsewhere == Elsewhere.Kind.Wished)
            facts.HoldBack("not-here", "It stands in a list of wishes, so it is not on the shelf.", -1, RowReader.NotHere);
        else if (elsewhere == Elsewhere.Kind.Gone)
            facts.Gone = true;
        facts.Context = facts.Context! with { Elsewhere = elsewhere };
        Rows.Add(facts);
    }

    // A sum without any word: the last row, nameless, one number in a column of amounts that is the sum of those above.
    private bool IsBareSum(SheetRow row, int index)
    {
        if (index + 1 < table.Rows.Count && table.Rows[index + 1].Number == row.Number + 1)
            return false;
        var blend = table.Of(Meaning.Blend);
        if (blend is null || !row[blend.Index].IsBlank || Rows.Count < 2)
            return false;
        foreach (var column in table.Columns)
        {
            if (!row[column.Index].IsBlank && !column.IsAmount && column.Meaning is not (Meaning.Count or Meaning.Paid or Meaning.PaidTotal))
                return false;
        }

        return table.Columns.Any(column => !row[column.Index].IsBlank && (column.IsAmount || column.Meaning == Meaning.Count) && Fits(row, column) != Fit.None);
    }

    private enum Fit
    {
        Nothing,
        None,
        Multiplied,
        Written,
        Both,
    }

    private void Compare(SheetRow row)
    {
        var any = false;
        foreach (var column in table.Columns)
        {
            if (row[column.Index].IsBlank || !(column.IsAmount || column.Meaning == Meaning.Count))
                continue;
            var fit = Fits(row, column);
            any |= fit != Fit.Nothing;
            totalsSayAmountsAreTotals |= fit == Fit.Written && column.Share == Share.Unsaid && column.Meaning is Meaning.Each or Meaning.Quantity;
            totalsSayOtherwise |= fit == Fit.Multiplied;
            if (fit == Fit.None)
            {
                var sum = column.Meaning == Meaning.Count ? $"{All().Sum(Packages):0}" : $"{All().Sum(Grams):0.#} g";
                Totals.Add(new RowDoubt(table.Sheet, row.Number, $"The total '{row[column.Index].Text.Trim()}' under '{RowReader.Name(column)}' is not the sum of the rows above, which is {sum}.", false, SheetUnderstanding.Raw(row)));
            }
        }

        sinceTotal = any ? Rows.Count : sinceTotal;
    }

    private Fit Fits(SheetRow row, Column column)
    {
        var cell = row[column.Index];
        var setting = new CellSetting(column.GramsPerUnit, null, false, column.Meaning == Meaning.Count, null, column.CommaIsDecimal);
        var read = cache.Quantity(cell.Text.Trim(), setting, cell.Kind == CellKind.Number);
        if (column.Meaning == Meaning.Count)
        {
            if (read.Count is not { } count && (read.Vessel?.Count is not { } several || (count = several) == 0))
                return Fit.Nothing;
            return Near(All().Sum(Packages), count, 0) || Near(Since().Sum(Packages), count, 0) ? Fit.Both : Fit.None;
        }

        // A bare total in a column whose cells carry their unit is in that unit, as far as all carry the same.
        var stated = read.Portions.Count > 0 ? read.Portions.Where(portion => portion.Amount is not null).Sum(portion => portion.Amount!.Value.Grams * (portion.Count ?? 1)) : read.Bare ?? double.NaN;
        if (!double.IsFinite(stated) || (read.Portions.Count == 0 && !All().Any(facts => facts.GramsRead > 0)))
            return Fit.Nothing;
        var units = read.Portions.Count > 0 ? [1.0] : new[] { 1.0, UnitWords.OunceGrams, UnitWords.PoundGrams, 1000.0 };
        bool multiplied = false, written = false;
        foreach (var unit in units)
        {
            multiplied |= Near(All().Sum(Grams), stated * unit, 0.006) || Near(Since().Sum(Grams), stated * unit, 0.006);
            written |= Near(All().Sum(facts => facts.GramsWritten), stated * unit, 0.006) || Near(Since().Sum(facts => facts.GramsWritten), stated * unit, 0.006);
        }

        return multiplied && written ? Fit.Both : multiplied ? Fit.Multiplied : written ? Fit.Written : Fit.None;
    }

    private List<RowFacts> All() => Rows;

    private IEnumerable<RowFacts> Since() => Rows.Skip(sinceTotal);

    private static double Grams(RowFacts facts) => facts.GramsRead;

    private static double Packages(RowFacts facts) => facts.Groups.Sum(group => group.Count);

    private static bool Near(double one, double two, double part) => Math.Abs(one - two) <= Math.Max(part * Math.Abs(two), 0.51);
}
