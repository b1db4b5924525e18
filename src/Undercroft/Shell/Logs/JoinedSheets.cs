namespace Undercroft.Shell.Logs;

/// <summary>Sheets of one workbook that make one log: a sheet for each quantity, or a sheet for each month.</summary>
internal static class JoinedSheets
{
    /// <summary>One log of all sheets; null where two of them say the same quantity for the same time, as two sensors do.</summary>
    /// <param name="sheets">Names and logs.</param>
    public static Log? Of(IReadOnlyList<(string Name, Log Log)> sheets)
    {
        for (var one = 0; one < sheets.Count; one++)
        {
            for (var other = one + 1; other < sheets.Count; other++)
            {
                if (Meet(sheets[one].Log, sheets[other].Log))
                    return null;
            }
        }

        var rows = sheets.SelectMany(sheet => Enumerable.Range(0, sheet.Log.Count).Select(row => sheet.Log[row])).GroupBy(row => row.UtcSeconds).OrderBy(group => group.Key).Select(Filled).ToList();
        var seconds = rows.ConvertAll(row => row.UtcSeconds).ToArray();
        var first = sheets[0].Log.Form;
        return new Log(
            seconds, [.. rows.Select(row => row.Kelvin)], [.. rows.Select(row => row.Humidity)], Column(rows, row => row.Pascals), Column(rows, row => row.Lux), rows.Count)
        {
            RowsRead = sheets.Sum(sheet => sheet.Log.RowsRead) - (sheets.Sum(sheet => sheet.Log.Count) - rows.Count),
            Repeated = sheets.Sum(sheet => sheet.Log.Repeated),
            Contradicted = sheets.Sum(sheet => sheet.Log.Contradicted),
            Rejected = sheets.Sum(sheet => sheet.Log.Rejected),
            Interval = Steps.Usual(seconds),
            Notes = [$"Sheets {string.Join(", ", sheets.Select(sheet => $"'{sheet.Name}'"))} are read as one log.", .. sheets.SelectMany(sheet => sheet.Log.Notes).Distinct()],
            Form = first with
            {
                Columns = [.. sheets.SelectMany(sheet => sheet.Log.Form.Columns).DistinctBy(column => column.Meaning)],
                Unit = sheets.Select(sheet => sheet.Log.Form.Unit).FirstOrDefault(unit => unit is not null),
            },
        };
    }

    private static bool Meet(Log one, Log other) => one.Seconds[0] <= other.Seconds[^1] && other.Seconds[0] <= one.Seconds[^1]
        && (Has(one.Kelvin) && Has(other.Kelvin) || Has(one.Humidity) && Has(other.Humidity));

    private static bool Has(ReadOnlySpan<double> values) => values.IndexOfAnyExcept(double.NaN) >= 0;

    private static LogRow Filled(IEnumerable<LogRow> rows)
    {
        static double Known(double one, double other) => double.IsNaN(one) ? other : one;
        return rows.Aggregate((one, other) => new(one.UtcSeconds, Known(one.Kelvin, other.Kelvin), Known(one.Humidity, other.Humidity), Known(one.Pascals, other.Pascals), Known(one.Lux, other.Lux)));
    }

    private static double[]? Column(List<LogRow> rows, Func<LogRow, double> value) => rows.Exists(row => !double.IsNaN(value(row))) ? [.. rows.Select(value)] : null;
}
