using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>Which number of a date comes first.</summary>
public enum DateOrder
{
    /// <summary>Day, month, year.</summary>
    DayFirst,

    /// <summary>Month, day, year.</summary>
    MonthFirst,

    /// <summary>Year, month, day.</summary>
    YearFirst,
}

/// <summary>What a person says about a log; null where the file is to say it.</summary>
/// <param name="Unit">Of temperature: <c>C</c>, <c>F</c> or <c>K</c>.</param>
/// <param name="Zone">Of the times: an IANA name, <c>UTC</c>, or a fixed offset such as <c>+01:00</c>.</param>
/// <param name="Order">Of day, month and year.</param>
/// <param name="Sensor">Which of several, by a part of its name.</param>
/// <param name="Columns">Heading or number (from 1) of a column, by what it holds.</param>
public sealed record LogAnswers(
    char? Unit = null, string? Zone = null, DateOrder? Order = null, string? Sensor = null, IReadOnlyDictionary<ColumnMeaning, string>? Columns = null)
{
    /// <summary>Nothing is said.</summary>
    public static LogAnswers None { get; } = new();

    private static readonly (string Word, ColumnMeaning Meaning)[] Words =
    [
        ("temperature", ColumnMeaning.Temperature), ("humidity", ColumnMeaning.Humidity), ("pressure", ColumnMeaning.Pressure), ("light", ColumnMeaning.Light),
        ("dewpoint", ColumnMeaning.DewPoint), ("sensor", ColumnMeaning.Sensor), ("quantity", ColumnMeaning.Quantity), ("value", ColumnMeaning.Value),
    ];

    /// <summary>The words by which columns are named.</summary>
    public static IReadOnlyList<string> ColumnWords { get; } = [.. Words.Select(word => word.Word)];

    /// <summary>The meaning of a word; null where there is none.</summary>
    public static ColumnMeaning? MeaningOf(string word) => Words.Where(one => one.Word == word).Select(one => (ColumnMeaning?)one.Meaning).FirstOrDefault();

    /// <summary>The word of a meaning.</summary>
    public static string WordOf(ColumnMeaning meaning) => Words.Where(one => one.Meaning == meaning).Select(one => one.Word).FirstOrDefault() ?? "";

    /// <summary>Reads <c>d/m/y</c>, <c>m/d/y</c> or <c>y/m/d</c>.</summary>
    /// <exception cref="Refusal">None of them.</exception>
    public static DateOrder? OrderOf(string? text) => text?.Trim().ToLowerInvariant() switch
    {
        null or "" => null,
        "d/m/y" => DateOrder.DayFirst,
        "m/d/y" => DateOrder.MonthFirst,
        "y/m/d" => DateOrder.YearFirst,
        _ => throw new Refusal($"'{text}' is no order of day, month and year. Write d/m/y, m/d/y or y/m/d."),
    };

    /// <summary>Reads <c>temperature=3,humidity=RH</c>.</summary>
    /// <exception cref="Refusal">Not such pairs.</exception>
    public static IReadOnlyDictionary<ColumnMeaning, string>? ColumnsOf(string? text)
    {
        if (string.IsNullOrWhiteSpace(text))
            return null;
        var columns = new Dictionary<ColumnMeaning, string>();
        foreach (var pair in text.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var at = pair.IndexOf('=', StringComparison.Ordinal);
            if (at < 1 || at == pair.Length - 1 || MeaningOf(pair[..at].Trim().ToLowerInvariant()) is not { } meaning || !columns.TryAdd(meaning, pair[(at + 1)..].Trim()))
                throw new Refusal($"'{pair}' names no column. Write what it holds and its heading or number, such as temperature=2,humidity=3; known are {string.Join(", ", ColumnWords)}.");
        }

        return columns;
    }
}
