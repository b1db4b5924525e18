namespace Undercroft.Shell.Logs;

/// <summary>What the first rows show of one column.</summary>
internal sealed class ColumnFacts
{
    private readonly List<double> sorted;

    private ColumnFacts(LogColumn column, List<double> numbers, List<string> texts, int rows, string unit, bool counts)
    {
        Column = column;
        // Error values below anything that is measured here say nothing about the range.
        sorted = [.. numbers.Where(number => number > -90).Order()];
        Texts = texts;
        Rows = rows;
        Unit = unit;
        Counts = counts;
        Whole = numbers.TrueForAll(number => number == Math.Floor(number));
    }

    public LogColumn Column { get; }

    public int Rows { get; }

    public int Numbers => sorted.Count;

    public List<string> Texts { get; }

    /// <summary>The unit behind the numbers, folded; empty where there is none.</summary>
    public string Unit { get; }

    /// <summary>True where each row is one more (or less) than the one before: an index.</summary>
    public bool Counts { get; }

    public bool Whole { get; }

    public bool IsNumeric => Numbers > 0 && 2 * Numbers >= Rows - Blank;

    public int Blank => Rows - Numbers - Texts.Count;

    public bool IsConstant => sorted.Count > 0 && sorted[0] == sorted[^1];

    public double At(double share) => sorted[(int)Math.Round(share * (sorted.Count - 1))];

    public double Median => At(0.5);

    public static ColumnFacts Of(Layout layout, LogColumn column)
    {
        var numbers = new List<double>();
        var texts = new List<string>();
        var units = new Dictionary<string, int>();
        int steps = 0, ones = 0;
        double before = double.NaN;
        foreach (var row in layout.DataRows)
        {
            switch (Cells.Number(layout.Sample.Cell(row, column.Index), out var value, out var unit))
            {
                case CellKind.Number:
                    numbers.Add(value);
                    if (unit.Length > 0)
                    {
                        var word = LogWords.Fold(Cells.Text(unit));
                        units[word] = units.GetValueOrDefault(word) + 1;
                    }

                    if (!double.IsNaN(before))
                    {
                        steps++;
                        ones += Math.Abs(value - before) == 1 && (value - before > 0) ? 1 : 0;
                        ones -= value - before == -1 ? 1 : 0;
                    }

                    before = value;
                    break;
                case CellKind.Text:
                    texts.Add(layout.Sample.Text(row, column.Index));
                    break;
                case CellKind.Blank:
                    break;
                default:
                    throw new InvalidOperationException("An unknown kind of cell.");
            }
        }

        return new(column, numbers, texts, layout.DataRows.Count, units.Count == 0 ? "" : units.MaxBy(pair => pair.Value).Key, steps > 1 && Math.Abs(ones) >= 0.8 * steps && (steps > 3 || numbers[0] is 0 or 1));
    }
}
