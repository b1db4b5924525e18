using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>One walk down the rows of a table: data rows are read, headings are remembered, totals are compared.</summary>
internal sealed class TablePass
{
    private const int FewRows = 2_000;
    private const int Stride = 10_000;
    private readonly Table table;
    private readonly TableSetting setting;
    private readonly ReadingCache cache;
    private int sinceTotal;
    private bool totalsSayAmountsAreTotals;
    private bool totalsSayOtherwise;

    private TablePass(Table table, TableSetting setting, ReadingCache cache)
    {
        this.table = table;
        this.setting = setting;
        this.cache = cache;
    }

    /// <summary>The totals of a table that do not add up, once more with rows as they were answered.</summary>
    /// <param name="table">Which.</param>
    /// <param name="setting">What holds for it.</param>
    /// <param name="cache">Readings made before.</param>
    /// <param name="rows">The rows as they stand now, by number; those left out are missing.</param>
    public static IReadOnlyList<RowDoubt> TotalsAgain(Table table, TableSetting setting, ReadingCache cache, IReadOnlyDictionary<int, RowFacts> rows)
    {
        var pass = new TablePass(table, setting, cache);
        foreach (var item in pass.Sorted())
        {
            if (item.Kind == RowKind.Total)
                pass.Compare(item.Row);
            else if (item.Kind == RowKind.Data && rows.TryGetValue(item.Row.Number, out var facts))
                pass.Rows.Add(facts);
        }

        return pass.Totals;
    }

    /// <summary>A row with what its reading needs; other rows than those of data need nothing.</summary>
    private readonly record struct Item(SheetRow Row, RowKind Kind, RowContext? Context, bool MayBeSum);

    public List<RowFacts> Rows { get; } = [];

    public List<RowDoubt> Totals { get; } = [];

    public List<string> Remarks { get; } = [];

    /// <summary>True where every total fits the amounts as they stand and not the amounts times their counts.</summary>
    public bool SaysAmountsAreTotals => totalsSayAmountsAreTotals && !totalsSayOtherwise;

    /// <summary>Reads a table.</summary>
    /// <param name="table">Which.</param>
    /// <param name="setting">What holds for it.</param>
    /// <param name="cache">Readings made before.</param>
    /// <param name="progress">Told how many rows are read, now and then.</param>
    public static TablePass Run(Table table, TableSetting setting, ReadingCache cache, Action<int>? progress)
    {
        var pass = new TablePass(table, setting, cache);
        var items = pass.Sorted();
        pass.Join(items, pass.Read(items, progress));
        return pass;
    }

    // What each row is, under which heading and below which row it stands: all that goes from one row to the next.
    private List<Item> Sorted()
    {
        string? heading = null, place = null;
        var elsewhere = Elsewhere.Of(table.Sheet);
        var underHeading = Elsewhere.Kind.None;
        SheetRow? above = null;
        var items = new List<Item>(table.Rows.Count);
        for (var i = 0; i < table.Rows.Count; i++)
        {
            var row = table.Rows[i];
            var kind = RowKinds.Of(row, table, i + 1 < table.Rows.Count ? table.Rows[i + 1] : null);
            var sum = kind == RowKind.Data && MayBeSum(row, i, items.Count);
            if (kind == RowKind.Heading)
            {
                heading = row.Cells.First(cell => !cell.IsBlank).Text.Trim(' ', '-', '=', '*', '#', '~', '_', ':');
                place = PlaceWords.Names(heading) ? heading : null;
                underHeading = Elsewhere.Of(heading);
            }
            else if (kind != RowKind.Head)
            {
                var context = kind != RowKind.Data ? null : new RowContext(table, setting, cache, above, place, place is null ? heading : null, underHeading is Elsewhere.Kind.None ? elsewhere : underHeading);
                items.Add(new Item(row, kind, context, sum));
            }

            // What may be a sum and has a name is most likely none: marks below it say the same as it.
            if (kind == RowKind.Data && (!sum || (table.Of(Meaning.Blend) is { } name && !row[name.Index].IsBlank)))
                above = RowReader.Repeated(row, above, null);
        }

        return items;
    }

    // Rows do not depend on one another any more, so that several cores can read a long table.
    private RowFacts?[] Read(List<Item> items, Action<int>? progress)
    {
        var facts = new RowFacts?[items.Count];
        var parts = items.Count < FewRows ? 1 : Math.Clamp(Environment.ProcessorCount, 1, 8);
        var done = 0;
        var gate = new Lock();
        void Part(int part, ReadingCache mine)
        {
            var reader = new RowReader(table, setting, mine);
            int from = (int)((long)items.Count * part / parts), to = (int)((long)items.Count * (part + 1) / parts), told = from;
            for (var i = from; i < to; i++)
            {
                var item = items[i];
                if (item.Context is { } context)
                    facts[i] = reader.Read(item.Row, context);
                if (progress is null || i + 1 - told < Stride)
                    continue;
                lock (gate)
                {
                    done += i + 1 - told;
                    progress(done);
                }

                told = i + 1;
            }
        }

        if (parts == 1)
            Part(0, cache);
        else
            Parallel.For(0, parts, part => Part(part, new ReadingCache(setting.Today)));
        return facts;
    }

    private void Join(List<Item> items, RowFacts?[] facts)
    {
        for (var i = 0; i < items.Count; i++)
        {
            var row = items[i].Row;
            switch (items[i].Kind)
            {
                case RowKind.Total:
                    Compare(row);
                    break;
                case RowKind.Note:
                    Remarks.Add($"Row {row.Number}{(table.Sheet.Length > 0 ? $" of '{table.Sheet}'" : "")} is a remark and was kept: '{RowReader.Short(string.Join(" ", row.Cells.Where(cell => !cell.IsBlank && !cell.Continued).Select(cell => cell.Text.Trim())))}'.");
                    break;
                case RowKind.Data when items[i].MayBeSum && IsBareSum(row):
                    Compare(row);
                    break;
                case RowKind.Data:
                    Rows.Add(facts[i]!);
                    break;
                default:
                    throw new InvalidOperationException("A row of no kind.");
            }
        }
    }

    // A sum without any word: the last row, nameless, one number in a column of amounts that is the sum of those above.
    private bool MayBeSum(SheetRow row, int index, int before)
    {
        if (index + 1 < table.Rows.Count && table.Rows[index + 1].Number == row.Number + 1)
            return false;
        if (table.Of(Meaning.Blend) is null || before < 2)
            return false;
        var words = 0;
        foreach (var column in table.Columns)
        {
            if (row[column.Index].IsBlank || column.IsAmount || column.Meaning is Meaning.Count or Meaning.Sort or Meaning.Paid or Meaning.PaidTotal)
                continue;
            words++;
            if (column.Meaning is not (Meaning.Blend or Meaning.Maker))
                return false;
        }

        return words <= 1;
    }

    // Without a name one sum is enough; beside a word that no list knows two must fit, and nothing may fail to.
    private bool IsBareSum(SheetRow row)
    {
        if (Rows.Count < 2)
            return false;
        var named = table.Columns.Any(column => !row[column.Index].IsBlank && column.Meaning is Meaning.Blend or Meaning.Maker);
        int fits = 0, fails = 0;
        foreach (var column in table.Columns)
        {
            if (row[column.Index].IsBlank || !(column.IsAmount || column.Meaning == Meaning.Count))
                continue;
            var fit = Fits(row, column);
            fits += fit is Fit.None or Fit.Nothing ? 0 : 1;
            fails += fit == Fit.None ? 1 : 0;
        }

        return named ? fits >= 2 && fails == 0 : fits > 0 || (fails == 0 && table.Columns.Any(column => !row[column.Index].IsBlank && (column.IsAmount || column.Meaning == Meaning.Count)));
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
                Totals.Add(new RowDoubt(table.Sheet, row.Number, Differs(row, column), false, SheetUnderstanding.Raw(row)));
            }
        }

        sinceTotal = any ? Rows.Count : sinceTotal;
    }

    private string Differs(SheetRow row, Column column)
    {
        var written = row[column.Index].Text;
        var counts = column.Meaning == Meaning.Count;
        var reason = $"The total '{written.Trim()}' under '{RowReader.Name(column)}'{SheetUnderstanding.TotalMark}, which is {(counts ? $"{All().Sum(Packages):0}" : Weight(All().Sum(Grams), column, written))}.";
        // Where one row alone says nothing, what is missing is most likely its own.
        var silent = counts ? [] : Rows.Skip(sinceTotal).Where(facts => facts.GramsRead <= 0 && facts is { Gone: false, Standing: not Standing.HeldBack }).Take(2).ToList();
        return silent is [var only] ? $"{reason} Row {only.Row} alone has no weight." : reason;
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

    // In the unit in which the total stands.
    private static string Weight(double grams, Column column, string written)
    {
        var unit = Tokens.Of(Folding.Level(written)).Select(token => UnitWords.Grams.TryGetValue(token.Text, out var own) && token.Kind == TokenKind.Word ? own : (double?)null).FirstOrDefault(own => own is not null) ?? column.GramsPerUnit;
        return unit is UnitWords.OunceGrams ? $"{grams / UnitWords.OunceGrams:0.##} oz" : unit is UnitWords.PoundGrams ? $"{grams / UnitWords.PoundGrams:0.##} lb" : $"{grams:0.#} g";
    }

    private static double Grams(RowFacts facts) => facts.GramsRead;

    private static double Packages(RowFacts facts) => facts.Groups.Sum(group => group.Count);

    private static bool Near(double one, double two, double part) => Math.Abs(one - two) <= Math.Max(part * Math.Abs(two), 0.51);
}
