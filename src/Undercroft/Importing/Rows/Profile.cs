using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>What stands in a column, counted over its first filled cells.</summary>
internal sealed class Profile
{
    private const int Sample = 400;
    private const int LeastRunning = 4;
    private readonly HashSet<string> distinct = [];
    private int running;
    private double? above;

    public int Filled { get; private set; }

    public int Masses { get; private set; }

    public int Bare { get; private set; }

    public int SmallWhole { get; private set; }

    /// <summary>The largest of the small whole numbers.</summary>
    public int MostWhole { get; private set; }

    public int Places { get; private set; }

    /// <summary>Cells that count containers or pieces and say nothing of a weight.</summary>
    public int Counted { get; private set; }

    /// <summary>Cells that count packages by their state: <c>3 (1 open)</c>, <c>2 open, 2 closed</c>.</summary>
    public int CountedByState { get; private set; }

    /// <summary>Cells that hold the word for a kind of leaf.</summary>
    public int LeafKinds { get; private set; }

    /// <summary>True where the cells count the rows: each is a whole number and one more than the one above.</summary>
    public bool Running => Filled >= LeastRunning && running == Filled;

    public int Dates { get; private set; }

    public int Years { get; private set; }

    public int Prices { get; private set; }

    public int Vessels { get; private set; }

    public int Percents { get; private set; }

    /// <summary>Cells with a digit.</summary>
    public int Digits { get; private set; }

    public int States { get; private set; }

    public int Paths { get; private set; }

    public int Texts { get; private set; }

    public int Distinct => distinct.Count;

    public int DayFirst { get; private set; }

    public int MonthFirst { get; private set; }

    public int DecimalCommas { get; private set; }

    public int DecimalPoints { get; private set; }

    public static Profile Of(IEnumerable<SheetRow> rows, int column, DateOnly today)
    {
        var profile = new Profile();
        foreach (var row in rows)
        {
            var cell = row[column];
            if (cell.IsBlank || SmallWords.IsDitto(cell.Text) || SmallWords.IsUnknown(cell.Text))
                continue;
            profile.Add(cell, today);
            if (profile.Filled >= Sample)
                break;
        }

        return profile;
    }

    public double Part(int count) => Filled == 0 ? 0 : (double)count / Filled;

    private void Add(Cell cell, DateOnly today)
    {
        Filled++;
        distinct.Add(cell.Text);
        var date = cell.Kind == CellKind.Number ? new DateCell.None() : DateText.Read(cell.Text, today);
        if (cell.Kind == CellKind.Number && double.TryParse(cell.Text, System.Globalization.CultureInfo.InvariantCulture, out var year) && year is >= 1900 and < 2100 && year == Math.Floor(year))
            date = DateText.Read(cell.Text, today);
        if (date is DateCell.Known or DateCell.Either or DateCell.Doubtful or DateCell.Relative)
        {
            Dates++;
            if (date is DateCell.Known known)
            {
                Years += known.Date.Edtf.Length == 4 ? 1 : 0;
                DayFirst += known.DayFirst == true ? 1 : 0;
                MonthFirst += known.DayFirst == false ? 1 : 0;
            }
        }

        var facts = QuantityScan.Of(cell.Text, CellSetting.Open, cell.Kind == CellKind.Number);
        Masses += facts.Portions.Count > 0 ? 1 : 0;
        Counted += facts.Portions.Count == 0 && (facts.Count is not null || facts.Vessel is { Count: > 0, Ml: null }) ? 1 : 0;
        var byState = facts.Portions.Count == 0 && (facts.OpenOnes ?? facts.ClosedOnes) is not null;
        CountedByState += byState ? 1 : 0;
        Prices += facts.Price is not null ? 1 : 0;
        Vessels += facts.Vessel is not null ? 1 : 0;
        if (facts.Bare is { } bare)
        {
            Bare++;
            running += above is null || bare == above + 1 ? 1 : 0;
            above = bare;
            var small = bare == Math.Floor(bare) && bare is >= 0 and <= 60;
            SmallWhole += small ? 1 : 0;
            MostWhole = small ? Math.Max(MostWhole, (int)bare) : MostWhole;
        }

        LeafKinds += Physics.Catalogue.LeafKinds.Find(Folding.Fold(cell.Text)) is not null || cell.Text.Split([' ', '/', ',', '+', '&', '-']).Any(word => word.Length > 2 && Physics.Catalogue.LeafKinds.Find(Folding.Fold(word)) is not null) ? 1 : 0;
        Places += PlaceWords.Names(cell.Text) ? 1 : 0;
        Digits += cell.Text.Any(char.IsDigit) ? 1 : 0;
        Percents += cell.Text.TrimEnd().EndsWith('%') ? 1 : 0;
        Paths += cell.Text.Contains('/', StringComparison.Ordinal) || cell.Text.Contains('>', StringComparison.Ordinal) ? 1 : 0;
        States += facts.Open || facts.Gone || Folding.Fold(cell.Text) is var state && (SmallWords.Yes.Contains(state) || SmallWords.No.Contains(state) || SmallWords.Closed.Contains(state)) ? 1 : 0;
        Texts += (facts.Rest.Length > 2 || facts.Rest.Any(letter => letter >= '\u2E80')) && date is DateCell.None && facts.Bare is null && !byState ? 1 : 0;
        Marks(cell);
    }

    // Only cells that leave no doubt teach the others: "9,5" and "1.234,50", never "1,234".
    private void Marks(Cell cell)
    {
        if (cell.Kind == CellKind.Number)
            return;
        foreach (var token in Tokens.Of(Folding.Level(cell.Text)))
        {
            if (token.Kind != TokenKind.Number || token.Other is not null)
                continue;
            var last = token.Text.LastIndexOfAny(['.', ',']);
            if (last <= 0 || token.Text.Count(c => c == token.Text[last]) > 1)
                continue;
            if (token.Text[last] == ',')
                DecimalCommas++;
            else
                DecimalPoints++;
        }
    }
}
