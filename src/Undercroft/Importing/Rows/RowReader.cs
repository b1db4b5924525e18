using System.Text.RegularExpressions;
using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>What holds for a whole table while its rows are read.</summary>
/// <param name="Today">The present.</param>
/// <param name="DayFirst">Order of day and month by the column's index, as far as something decides.</param>
/// <param name="AmountsAreTotals">True where a row of totals shows that a weight beside a count is the weight of all.</param>
internal sealed record TableSetting(DateOnly Today, IReadOnlyDictionary<int, bool> DayFirst, bool AmountsAreTotals = false);

/// <summary>Reads one data row: each cell by what its column is about, then what the cells say together.</summary>
internal sealed partial class RowReader(Table table, TableSetting setting, ReadingCache cache)
{
    private const double MostOfThem = 0.6;

    // A list in one column in which most lines say more than a name.
    private readonly Lazy<bool> onlyNames = new(() => table.Columns.Count(column => column.Ground != Ground.Nothing) == 1
        && table.Rows.Count(row => row.Cells.Any(cell => cell.Text.Any(char.IsAsciiDigit))) >= Math.Max(2, MostOfThem * table.Rows.Count));

    private readonly Column? blendColumn = table.Of(Meaning.Blend);
    private readonly Dictionary<int, CellSetting> settings = table.Columns.ToDictionary(column => column.Index, Setting);

    /// <summary>From the outermost inwards: a shelf or a box is inside of what any other column names.</summary>
    private readonly Column[] placeColumns = [.. table.Columns.Where(column => column.Meaning == Meaning.Place).OrderBy(column => PlaceWords.IsInner(column.Head))];

    /// <summary>The facts of a data row.</summary>
    /// <param name="row">The row.</param>
    /// <param name="context">Where it stands.</param>
    public RowFacts Read(SheetRow row, RowContext context)
    {
        var before = context.Above;
        var facts = new RowFacts(table.Sheet, row) { Context = context };
        var resolved = Repeated(row, before, facts);
        var amounts = new AmountCells();
        foreach (var column in table.Columns)
        {
            var cell = resolved[column.Index];
            if (cell.IsBlank)
                continue;
            if (cell.Kind == CellKind.Broken)
            {
                if (column.Meaning is not (Meaning.Other or Meaning.Note))
                    facts.Doubt("formula", $"'{Short(cell.Text)}' under '{Name(column)}' is a formula without a result.", column.Index, Blank(column));
                continue;
            }

            var sure = resolved[column.Index].Text == row[column.Index].Text ? Sureness.Written : Sureness.Decided;
            ReadCell(facts, amounts, column, cell, sure);
        }

        Places(facts, resolved, row);
        if (context.Place is { } place && facts.Place is null)
            facts.Place = new Said<IReadOnlyList<string>>(cache.Place(place), place, Sureness.Decided);
        else if (context.Heading is not null)
            facts.Notes.Add($"under '{context.Heading}'");
        NameReading.Split(facts, amounts, table, setting, cache);
        if (blendColumn is { Ground: Ground.Head or Ground.Map } && facts.Blend is null && facts.Maker is null)
        {
            if (resolved[blendColumn.Index].IsBlank)
                facts.Doubt("name-missing", "No name stands in this row: is it the same as above, or another?", blendColumn.Index,
                    before is not null && !before[blendColumn.Index].IsBlank ? [Choice.Cell("as-above", $"the same as above: {Short(before[blendColumn.Index].Text.Trim())}", blendColumn.Index, before[blendColumn.Index].Text)] : []);
        }

        else if (blendColumn is null && facts.Blend is null && facts.Maker is null && facts.Standing == Standing.Understood)
            facts.Doubt("name-missing", "No column says what it is called. Say which one does in the map of the columns.", -1);

        NoteReading.Take(facts, amounts, table, resolved, cache);
        AmountReading.Compose(facts, amounts, setting);
        if (onlyNames.Value && row == table.Rows[0] && facts is { Questions.Count: 0, Groups: [{ Count: 1, Each: null }], Container: null, Place: null, Dates.Count: 0 } && !row.Cells.Any(cell => cell.Text.Any(char.IsAsciiDigit)))
            facts.HoldBack("not-here", $"'{Short(facts.Source.Cells.First(cell => !cell.IsBlank).Text.Trim())}' names no amount, container or day as the others do: a package, or a remark?", -1, NotHere);
        if (context.Elsewhere == Elsewhere.Kind.Wished)
            facts.HoldBack("not-here", "It stands in a list of wishes, so it is not on the shelf.", -1, NotHere);
        else if (context.Elsewhere == Elsewhere.Kind.Gone)
            facts.Gone = true;
        RowChecks.Dates(facts, setting.Today);
        return facts;
    }

    private void Places(RowFacts facts, SheetRow resolved, SheetRow row)
    {
        IReadOnlyList<string>? path = null;
        var raw = "";
        var sure = Sureness.Written;
        foreach (var column in placeColumns)
        {
            var text = resolved[column.Index].Text.Trim();
            if (text.Length == 0 || resolved[column.Index].Kind == CellKind.Broken || SmallWords.IsUnknown(text))
                continue;
            // A bare number is the number of a shelf or a box.
            var words = text.All(char.IsAsciiDigit) && column.Head.Length > 0 ? $"{column.Head} {text}" : text;
            path = path is null ? cache.Place(words) : [.. path, .. cache.Place(words)];
            raw = raw.Length == 0 ? text : $"{raw} / {text}";
            sure = text == row[column.Index].Text.Trim() ? sure : Sureness.Decided;
        }

        if (path is not null)
            facts.Place = new Said<IReadOnlyList<string>>(path, raw, sure);
    }

    // Cells with a ditto mark take what stands above; merged cells are filled in by the reader of the file.
    internal static SheetRow Repeated(SheetRow row, SheetRow? above, RowFacts? facts)
    {
        Cell[]? cells = null;
        for (var c = 0; c < row.Cells.Count; c++)
        {
            if (row[c].IsBlank || row[c].Kind != CellKind.Text || !SmallWords.IsDitto(row[c].Text))
                continue;
            cells ??= [.. row.Cells];
            if (above is null || above[c].IsBlank)
            {
                facts?.Doubt("ditto", $"'{row[c].Text.Trim()}' says the same as above, and nothing stands above.", c, Choice.Cell("blank", "leave it blank", c, ""));
                cells[c] = Cell.Empty;
            }
            else
            {
                cells[c] = above[c] with { Continued = false };
            }
        }

        return cells is null ? row : new SheetRow(row.Number, cells);
    }

    private void ReadCell(RowFacts facts, AmountCells amounts, Column column, Cell cell, Sureness sure)
    {
        var text = cell.Text.Trim();
        var unknown = SmallWords.IsUnknown(text);
        switch (column.Meaning)
        {
            case Meaning.Blend:
                if (SmallWords.Gone.Contains(Folding.Fold(text)))
                    facts.HoldBack("not-here", $"'{text}' stands in place of a name: no leaf is in it.", column.Index, NotHere);
                else if (unknown && SmallWords.IsAsked(text))
                    facts.Doubt("name-unknown", $"What it is is not known: '{text}'.", column.Index);
                else if (!unknown)
                    Named(facts, column, cell, text, sure);
                break;
            case Meaning.Quantity or Meaning.Each or Meaning.Total or Meaning.Left or Meaning.Gross or Meaning.Tare or Meaning.Count or Meaning.Sort or Meaning.Container or Meaning.Unit:
                if (unknown && !SmallWords.IsAsked(text))
                    break;
                amounts.Add(column, cell, unknown ? null : cache.Quantity(text, settings[column.Index], cell.Kind == CellKind.Number), sure);
                break;
            case Meaning.Made or Meaning.Sealed or Meaning.Bought or Meaning.Date or Meaning.Opened or Meaning.Gone:
                ReadDate(facts, amounts, column, cell, text, sure);
                break;
            case Meaning.Maker when !unknown:
                facts.Maker = new Said<string>(text, text, sure);
                break;
            case Meaning.Leaf when !unknown:
                facts.Leaf = new Said<string>(text, text, sure);
                break;
            case Meaning.Cut when !unknown:
                facts.Cut = new Said<string>(text, text, sure);
                break;
            case Meaning.Source when !unknown:
                facts.ComesFrom = new Said<string>(text, text, sure);
                break;
            case Meaning.Label when !unknown:
                facts.Label = new Said<string>(text, text, sure);
                break;
            case Meaning.Paid or Meaning.PaidTotal when !unknown:
                ReadPrice(facts, column, cell, text, sure);
                break;
            case Meaning.Moisture when !unknown:
                ReadMoisture(facts, column, cell, text, sure);
                break;
            case Meaning.Status when !unknown:
                ReadStatus(facts, amounts, column, text);
                break;
            case Meaning.Note or Meaning.Other when !unknown:
                facts.Notes.Add(column.Meaning == Meaning.Note || column.Head.Length == 0 ? text : $"{column.Head}: {text}");
                break;
            default:
                break;
        }
    }

    private static void Named(RowFacts facts, Column column, Cell cell, string text, Sureness sure)
    {
        var name = text;
        if (cell.Struck || (text.Length > 4 && text.StartsWith("~~", StringComparison.Ordinal) && text.EndsWith("~~", StringComparison.Ordinal)))
        {
            name = text.Trim('~', ' ');
            facts.HoldBack("not-here", $"'{Short(name)}' is struck out: is it no longer here?", column.Index, NotHere);
        }

        facts.Blend = new Said<string>(name, text, sure);
    }

    private void ReadDate(RowFacts facts, AmountCells amounts, Column column, Cell cell, string text, Sureness sure)
    {
        var role = column.Meaning switch
        {
            Meaning.Made => DateRole.Made,
            Meaning.Sealed => DateRole.Sealed,
            Meaning.Bought => DateRole.Bought,
            Meaning.Opened => DateRole.Opened,
            Meaning.Gone => DateRole.Gone,
            _ => DateRole.Unsaid,
        };
        var folded = role is DateRole.Opened or DateRole.Gone ? Folding.Fold(text) : "";
        if (role is DateRole.Opened or DateRole.Gone && (SmallWords.No.Contains(folded) || SmallWords.Closed.Contains(folded) || folded is "not yet" or "still sealed"))
            return;
        if (role is DateRole.Opened or DateRole.Gone && (SmallWords.Yes.Contains(folded) || SmallWords.Open.Contains(folded)))
        {
            facts.Open |= role == DateRole.Opened;
            facts.Gone |= role == DateRole.Gone;
            return;
        }

        if (role is DateRole.Opened or DateRole.Gone && Counts(amounts, role == DateRole.Opened ? Meaning.Opened : Meaning.Gone, text))
            return;
        var date = Decided(cache.Date(text, cell.Kind), column, ref sure);
        if (date is DateCell.None && Short2(text) is { } two && column.Meaning == Meaning.Made)
            date = cache.Date("'" + two, CellKind.Text);
        if (date is not DateCell.None)
        {
            facts.Dates.TryAdd(role, new Said<DateCell>(date, text, sure));
            facts.Gone |= role == DateRole.Gone && date is DateCell.Known;
            return;
        }

        var (dates, place, rest) = LooseFacts.Of(text, setting.Today, bareYears: true);
        foreach (var (said, found, words) in dates)
            facts.Dates.TryAdd(said == DateRole.Unsaid ? role : said, new Said<DateCell>(Decided(found, column, ref sure), words, sure));
        if (dates.Count == 0)
            facts.Doubt("date-unread", $"'{Short(text)}' under '{Name(column)}' is not understood as a date.", column.Index, Blank(column));
        else if ((place ?? rest).Length > 0)
            facts.Notes.Add($"{column.Head}: {text}");
    }

    // "1" under "Open?" of three tins: so many of them. A lone one or nought may only be yes or no.
    private bool Counts(AmountCells amounts, Meaning meaning, string text)
    {
        if (!int.TryParse(text, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var count) || count is < 1 or > 60 || table.Of(Meaning.Count) is null)
            return false;
        var told = amounts.Told ??= new CellFacts();
        if (meaning == Meaning.Opened)
            told.OpenOnes = count;
        else if (meaning == Meaning.Gone)
            told.GoneOnes = count;
        else
            told.ClosedOnes = count;
        return true;
    }

    private static string? Short2(string text) => text.Length == 2 && char.IsAsciiDigit(text[0]) && char.IsAsciiDigit(text[1]) ? text : null;

    private DateCell Decided(DateCell date, Column column, ref Sureness sure)
    {
        if (date is not DateCell.Either either || !setting.DayFirst.TryGetValue(column.Index, out var dayFirst))
            return date;
        sure = Sureness.Decided;
        return new DateCell.Known(dayFirst ? either.WhenDayFirst : either.WhenMonthFirst);
    }

    private void ReadPrice(RowFacts facts, Column column, Cell cell, string text, Sureness sure)
    {
        var read = cache.Quantity(text, settings[column.Index], cell.Kind == CellKind.Number);
        var share = column.Meaning == Meaning.PaidTotal ? Share.Total : column.Share;
        var price = read.Price ?? (read.Bare is { } bare && bare < 1e9 ? new Price((decimal)Math.Round(bare, 4), "", Share.Unsaid) : null);
        if (price is null)
        {
            if (text.Any(char.IsAsciiDigit))
                facts.Doubt("price-unread", $"'{Short(text)}' under '{Name(column)}' is not understood as a price.", column.Index, Blank(column));
            facts.Notes.Add($"{column.Head}: {text}");
            return;
        }

        price = price with { Currency = price.Currency.Length > 0 ? price.Currency : column.Currency ?? "", Share = price.Share != Share.Unsaid ? price.Share : share };
        if (facts.Paid is null || price.Share == Share.Total)
            facts.Paid = new Said<Price>(price, text, sure);
        if (text.StartsWith('-'))
            facts.Doubt("price-below-zero", $"The price '{text}' is below zero.", column.Index, Choice.Cell("positive", $"it should read {text.TrimStart('-', ' ')}", column.Index, text.TrimStart('-', ' ')), Blank(column));
    }

    private void ReadMoisture(RowFacts facts, Column column, Cell cell, string text, Sureness sure)
    {
        var bare = cache.Quantity(text.TrimEnd('%', ' '), settings[column.Index], cell.Kind == CellKind.Number).Bare;
        if (bare is { } points and >= 0 and < 100 && !text.StartsWith('-'))
            facts.MoisturePct = new Said<double>(points is > 0 and < 1 && !text.Contains('%', StringComparison.Ordinal) ? points * 100 : points, text, sure);
        else if (text.Any(char.IsAsciiDigit))
            facts.Doubt("moisture-unread", $"'{Short(text)}' under '{Name(column)}' is no moisture: it lies from 0 up to 100 %.", column.Index, Blank(column));
        else
            facts.Notes.Add($"{column.Head}: {text}");
    }

    private void ReadStatus(RowFacts facts, AmountCells amounts, Column column, string text)
    {
        var folded = Folding.Fold(text);
        if (Elsewhere.Of(text) == Elsewhere.Kind.Wished)
        {
            facts.HoldBack("not-here", $"'{text}' under '{Name(column)}' says that it is not here yet.", column.Index, NotHere);
            return;
        }

        if (HeadWords.Happenings.Contains(Folding.Fold(column.Head)) && (HeadWords.GoingOut.Contains(folded) || cache.Quantity(text, CellSetting.Open, false) is { Open: true } or { Gone: true }))
        {
            facts.HoldBack("happening", $"'{text}' under '{column.Head}' tells what became of packages of another row: it adds none. Say it of them once they are in.", column.Index, NotHere);
            return;
        }

        var head = HeadReading.Of(column.Head.Trim('?', ' ')).Meanings;
        if (head is [Meaning.Opened or Meaning.Sealed or Meaning.Gone, ..] && Counts(amounts, head[0], text))
            return;
        bool yes = SmallWords.Yes.Contains(folded) || folded == "1", no = SmallWords.No.Contains(folded) || folded == "0";
        if ((yes && head.Contains(Meaning.Opened)) || (no && head is [Meaning.Sealed, ..]))
            facts.Open = true;
        else if (yes && head is [Meaning.Gone, ..])
            facts.Gone = true;
        else if (folded is "0" or "1")
            facts.Notes.Add($"{column.Head}: {text}");
        else if (SmallWords.No.Contains(folded) || SmallWords.Closed.Contains(folded) || folded is "cellared" or "aging" or "ageing" or "full")
            facts.Notes.Add($"{column.Head}: {text}");
        else
        {
            var read = cache.Quantity(text, CellSetting.Open, false);
            var (dates, _, _) = LooseFacts.Of(text, setting.Today, bareYears: false);
            foreach (var (role, date, words) in dates)
                facts.Dates.TryAdd(role == DateRole.Unsaid ? DateRole.Opened : role, new Said<DateCell>(date, words, Sureness.Written));
            facts.Open |= read.Open;
            if (PartLeft().IsMatch(folded) || (head is [Meaning.Left, ..] && text.Any(char.IsAsciiDigit)))
                facts.Doubt("part-left", $"'{Short(text)}' under '{Name(column)}' says that part of it is left, and not how much in weight. All of it is imported.", column.Index, AmountChoices.Part(facts, column));
            facts.Gone |= read.Gone && !PartLeft().IsMatch(folded) && !folded.Contains("almost", StringComparison.Ordinal) && !folded.Contains("nearly", StringComparison.Ordinal) && !folded.Contains("half", StringComparison.Ordinal) && !folded.StartsWith("not ", StringComparison.Ordinal);
            facts.Notes.Add($"{column.Head}: {text}");
        }
    }

    /// <summary>What to do with a row that does not stand on the shelf as the sheet has it.</summary>
    internal static IEnumerable<Choice> NotHere => [new Choice("leave-out", "it is not here: leave it out", LeaveOut: true), new Choice("take", "it is here: take it in", Take: true)];

    /// <summary>True where folded words say that a part of it is left.</summary>
    internal static bool SaysPart(string folded) => PartLeft().Match(folded) is { Success: true } part && part.Value.Any(char.IsLetter);

    private static Choice Blank(Column column) => Choice.Cell("blank", "nobody knows: leave it blank", column.Index, "");

    [GeneratedRegex(@"\b(?:half|halb|halbes|halbvoll|halvfull|halvfuld|halfvol|moitie|medio|meta|quarter|third|most|mostly|partly|partial|almost|nearly|fast|presque|casi|quasi)\b|[½¼¾⅓⅔]|(?<![\d/.])\d/\d(?![\d/.])|\d ?%", RegexOptions.CultureInvariant)]
    private static partial Regex PartLeft();

    private static CellSetting Setting(Column column) => new(
        column.GramsPerUnit, column.MlPerUnit, column.Meaning == Meaning.Container, column.Meaning is Meaning.Count or Meaning.Sort, column.Currency, column.CommaIsDecimal);

    internal static string Name(Column column) => column.Head.Length > 0 ? column.Head : $"column {SheetMap.Letter(column.Index)}";

    internal static string Short(string text) => text.Length <= 60 ? text : text[..57] + "...";
}
