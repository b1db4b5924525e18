namespace Undercroft.Shell.Logs;

internal static partial class LayoutGuess
{
    private const int FewestTimeless = 3;

    private static readonly string[] Failures = ["na", "n/a", "nan", "nul", "null", "none", "err", "error", "fehler", "fail", "fault", "open", "short", "ol", "lo", "hi", "over", "under", "overflow", "inv", "invalid", "missing", "offline"];

    /// <summary>True for a row of numbers, dashes and errors alone, as stands where nothing but the readings was written down.</summary>
    internal static bool IsOfReadings(ReadOnlySpan<byte> line, ReadOnlySpan<(int Start, int Length)> cells, int clock, out bool any)
    {
        any = false;
        for (var column = 0; column < cells.Length; column++)
        {
            var cell = line.Slice(cells[column].Start, cells[column].Length);
            if (column == clock)
                continue;
            switch (Cells.Number(cell, out _, out _))
            {
                case CellKind.Number: any = true; break;
                case CellKind.Text when !IsFailure(cell): return false;
                default: break;
            }
        }

        return true;
    }

    // A log without times of its own: rows of numbers below each other, numbered or not, or with a time of day and no day.
    private static (SampleCut Cut, TimePlace Time, List<int> Rows)? Timeless(List<byte[]> lines)
    {
        (SampleCut Cut, TimePlace Time, List<int> Rows, int Figures)? best = null;
        foreach (var separator in Separators)
        {
            var cut = new SampleCut(lines, separator);
            foreach (var clock in Enumerable.Range(-1, Math.Min(cut.Width, 3) + 1))
            {
                if (Stretch(cut, clock) is not { } rows || SplitsDecimals(cut, rows))
                    continue;
                var time = clock >= 0 ? new TimePlace(clock, -1, TimeForm.Steady, IsClock: true) : Numbered(cut, rows) ?? new(-1, -1, TimeForm.Steady);
                var figures = rows.Sum(row => Figures(cut, row)) + (clock >= 0 ? rows.Count : 0);
                if (best is not { } other || rows.Count > 1.2 * other.Rows.Count || (rows.Count >= other.Rows.Count && figures > other.Figures))
                    best = (cut, time, rows, figures);
            }
        }

        return best is { } found ? (found.Cut, found.Time, found.Rows) : null;
    }

    // The longest run of rows of readings; an odd line between them does not end it.
    private static List<int>? Stretch(SampleCut cut, int clock)
    {
        List<int> best = [], run = [];
        for (var row = 0; row < cut.Count; row++)
        {
            Stamp stamp = default;
            var reads = cut.Row(row).Length > Math.Max(clock, 0) && IsOfReadings(cut.Line(row), cut.Row(row), clock, out var any) && any
                && (clock < 0 || (stamp.Take(cut.Cell(row, clock)) && stamp.HasClock && !stamp.HasDate && stamp.Parts == 0));
            if (reads && run.Count > 0 && row - run[^1] > 2)
                run = [];
            if (reads)
                run.Add(row);
            if (run.Count > best.Count)
                best = run;
        }

        var usual = best.Count == 0 ? 0 : best.GroupBy(row => cut.Row(row).Length).MaxBy(group => group.Count())!.Key;
        best = [.. best.Where(row => cut.Row(row).Length <= usual)];
        return best.Count >= FewestTimeless ? best : null;
    }

    // 21,5 below 21,7 is one column, and so is each pair of 21,5,55,3.
    private static bool SplitsDecimals(SampleCut cut, List<int> rows) => cut.Separator == ',' && rows.TrueForAll(row =>
    {
        for (var column = 0; column < cut.Row(row).Length; column++)
        {
            if (Cells.Number(cut.Cell(row, column), out var value, out _) == CellKind.Number && value != Math.Floor(value))
                return false;
        }

        return cut.Row(row).Length is 2 or 4;
    });

    private static int Figures(SampleCut cut, int row)
    {
        var figures = 0;
        for (var column = 0; column < cut.Row(row).Length; column++)
            figures += Cells.Number(cut.Cell(row, column), out _, out _) == CellKind.Number ? 1 : 0;
        return figures;
    }

    // A running number, or the time that has passed, beside at least one more column.
    private static TimePlace? Numbered(SampleCut cut, List<int> rows)
    {
        for (var column = 0; column < Math.Min(2, cut.Width - 1); column++)
        {
            var numbers = new List<double>();
            foreach (var row in rows)
            {
                if (Cells.Number(cut.Cell(row, column), out var number, out var unit) == CellKind.Number && unit.IsEmpty)
                    numbers.Add(number);
            }

            if (numbers.Count < rows.Count)
                continue;
            var steps = numbers.Zip(numbers.Skip(1), (one, next) => next - one).Order().ToList();
            var step = Math.Abs(steps[steps.Count / 2]);
            if (step > 0 && steps.Count(one => Math.Abs(Math.Abs(one) - step) < 1e-6 * step) >= 0.9 * steps.Count && (numbers.Min() == 0 || Math.Abs(numbers.Min() - step) < 1e-6 * step || (step == 1 && numbers.Count >= 10)))
                return new(column, -1, TimeForm.Steady, Step: step);
        }

        return null;
    }

    private static bool IsFailure(ReadOnlySpan<byte> cell)
    {
        var text = LogWords.Fold(Cells.Text(cell)).TrimEnd('.', '!');
        return !text.Any(char.IsLetterOrDigit) || Array.IndexOf(Failures, text) >= 0 || (text.StartsWith("err", StringComparison.Ordinal) && text.Length <= 8);
    }
}
