using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>Which columns of a log are read, one of each meaning. Contents decide where headings do not.</summary>
internal static partial class ColumnChoice
{
    private static readonly ColumnMeaning[] Measured = [ColumnMeaning.Temperature, ColumnMeaning.Humidity, ColumnMeaning.Pressure, ColumnMeaning.Light, ColumnMeaning.DewPoint];

    /// <summary>The layout with at most one column of each meaning.</summary>
    /// <param name="layout">As guessed.</param>
    /// <param name="answers">What the person says.</param>
    /// <param name="name">Of the file: it may say what a lone quantity is.</param>
    /// <param name="notes">Receives what was assumed.</param>
    /// <exception cref="Refusal">Nothing that is used, or several that could be.</exception>
    public static Layout Of(Layout layout, LogAnswers answers, string name, List<string> notes)
    {
        var facts = layout.Pairs ? [] : layout.Columns.Select(column => ColumnFacts.Of(layout, column)).ToList();
        if (answers.Columns is { Count: > 0 } said)
            return layout with { Columns = Said(layout, said, name) };
        if (layout.Pairs)
            return layout with { Columns = OneOfEach([.. layout.Columns.Where(column => column.Meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity)], [], answers, name, notes) };
        var columns = facts.Select(one => one.Column with { Meaning = ByContent(one, layout) }).ToList();
        foreach (var one in facts.Where(one => one.Column.Meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity && !one.IsNumeric && one.Texts.Exists(text => text.Any(char.IsAsciiDigit))))
            notes.Add($"'{one.Column.Name}' is left out: what stands in it, such as '{one.Texts.Find(text => text.Any(char.IsAsciiDigit))}', is no number that can be read.");
        if (LongForm(columns, facts, notes) is { } inRows)
            return layout with { Columns = inRows };
        if (!columns.Exists(column => column.Meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity))
            columns = ByRange(layout, columns, facts, name, notes);
        else
            columns = OtherHalf(columns, facts, notes);
        if (!columns.Exists(column => column.Meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity))
        {
            throw new Refusal(columns.Exists(column => column.Meaning == ColumnMeaning.Light)
                ? $"{name} is not read: it holds light alone, and neither temperature nor humidity. Export the channels of the air as well."
                : $"{name} is not read: no column of temperatures or of relative humidity stands beside the times ({Names(columns)}). Say which it is with --columns, such as --columns temperature=2.");
        }

        return layout with { Columns = OneOfEach(columns, facts, answers, name, notes) };
    }

    private static string Names(List<LogColumn> columns) => columns.Count == 0 ? "there is none" : "there are " + string.Join(", ", columns.Take(8).Select(column => $"'{column.Name}'"));

    private static List<LogColumn> Said(Layout layout, IReadOnlyDictionary<ColumnMeaning, string> said, string name)
    {
        var columns = new List<LogColumn>();
        foreach (var (meaning, which) in said)
        {
            var found = layout.Columns.FirstOrDefault(column => string.Equals(column.Heading, which, StringComparison.OrdinalIgnoreCase) || string.Equals(column.Name, which, StringComparison.OrdinalIgnoreCase))
                ?? (int.TryParse(which, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var number) ? layout.Columns.FirstOrDefault(column => column.Index == number - 1) : null)
                ?? throw new Refusal($"{name} has no column '{which}' beside its times. There are: {string.Join(", ", layout.Columns.Select(column => $"{column.Index + 1} '{column.Name}'"))}.");
            columns.Add(found with { Meaning = meaning });
        }

        return columns.Exists(column => column.Meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity or ColumnMeaning.Value) ? columns
            : throw new Refusal("Neither a temperature nor a humidity is among the columns that were named. Name one of them.");
    }

    private static ColumnMeaning ByContent(ColumnFacts facts, Layout layout)
    {
        var column = facts.Column;
        if (column.Meaning is ColumnMeaning.Sensor)
            return facts.IsNumeric && !column.Folded.Contains("channel", StringComparison.Ordinal) && facts.Counts ? ColumnMeaning.Other : ColumnMeaning.Sensor;
        if (column.Meaning is ColumnMeaning.Quantity or ColumnMeaning.Unit)
            return facts.IsNumeric ? ColumnMeaning.Other : column.Meaning;
        if (!facts.IsNumeric)
        {
            // A column of errors alone is no channel, whatever it is called.
            return facts.Texts.Count > 0 && column.Meaning == ColumnMeaning.Unknown && SharesTimes(layout) && facts.Texts.Distinct().Count() is > 1 and <= 20
                ? IsQuantityList(facts) ? ColumnMeaning.Quantity : ColumnMeaning.Sensor
                : IsQuantityList(facts) && column.Meaning == ColumnMeaning.Unknown ? ColumnMeaning.Quantity : ColumnMeaning.Other;
        }

        if (column.Meaning != ColumnMeaning.Unknown)
            return column.Meaning == ColumnMeaning.Time ? ColumnMeaning.Other : column.Meaning;
        if (facts.Counts)
            return ColumnMeaning.Other;
        if (facts.Unit.Length > 0)
        {
            return facts.Unit[0] == '%' ? ColumnMeaning.Humidity
                : HeadingWords.TemperatureUnit(facts.Unit) is not null ? ColumnMeaning.Temperature
                : HeadingWords.PressureUnit(facts.Unit) is not null ? ColumnMeaning.Pressure
                : facts.Unit is "lx" or "lux" ? ColumnMeaning.Light : ColumnMeaning.Other;
        }

        return ColumnMeaning.Unknown;
    }

    private static bool IsQuantityList(ColumnFacts facts) =>
        facts.Texts.Count > 0 && facts.Texts.Distinct().Take(20).Count(text => HeadingWords.Meaning(LogWords.Fold(text)) is ColumnMeaning.Temperature or ColumnMeaning.Humidity) is > 0 and var known
        && (known > 1 || facts.Texts.Distinct().Count() <= 3);

    // Rows that stand at one instant with another: several sensors or quantities below each other.
    private static bool SharesTimes(Layout layout)
    {
        var shared = 0;
        string? before = null;
        foreach (var row in layout.DataRows)
        {
            var time = string.Join(' ', Enumerable.Range(0, layout.Sample.Width).Where(layout.Time.Uses).Select(column => layout.Sample.Text(row, column)));
            shared += time == before ? 1 : 0;
            before = time;
        }

        return shared > 0.3 * layout.DataRows.Count;
    }

    private static List<LogColumn>? LongForm(List<LogColumn> columns, List<ColumnFacts> facts, List<string> notes)
    {
        var which = columns.Find(column => column.Meaning == ColumnMeaning.Quantity && IsQuantityList(facts[columns.IndexOf(column)]))
            ?? columns.Find(column => column.Meaning == ColumnMeaning.Unit && IsQuantityOrUnitList(facts[columns.IndexOf(column)]));
        if (which is null)
            return null;
        var numeric = columns.Where(column => column != which && facts[columns.IndexOf(column)].IsNumeric && column.Meaning is ColumnMeaning.Value or ColumnMeaning.Unknown or ColumnMeaning.Temperature).ToList();
        var value = numeric.Find(column => column.Meaning == ColumnMeaning.Value) ?? (numeric.Count == 1 ? numeric[0] : null);
        if (value is null || columns.Exists(column => column.Meaning == ColumnMeaning.Humidity))
            return null;
        notes.Add($"One quantity a row: '{which.Name}' names it and '{value.Name}' holds its value; rows of one time make one reading.");
        var long1 = new List<LogColumn> { which with { Meaning = ColumnMeaning.Quantity }, value with { Meaning = ColumnMeaning.Value } };
        long1.AddRange(columns.Where(column => column != which && column.Meaning is ColumnMeaning.Sensor or ColumnMeaning.Unit && column.Index != which.Index));
        return long1;
    }

    private static bool IsQuantityOrUnitList(ColumnFacts facts) =>
        facts.Texts.Distinct().Take(20).Any(text => HeadingWords.TemperatureUnit(LogWords.Fold(text)) is not null) && facts.Texts.Distinct().Count() > 1;
}
