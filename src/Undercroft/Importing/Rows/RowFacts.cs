using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>How sure a reading is.</summary>
public enum Sureness
{
    /// <summary>Written so.</summary>
    Written,

    /// <summary>Decided by something else of the sheet: its head, the other rows, a ditto mark, a reading that is impossible.</summary>
    Decided,

    /// <summary>More than one reading remains.</summary>
    Doubtful,
}

/// <summary>A fact with the cell that it comes from.</summary>
/// <param name="Value">What was understood.</param>
/// <param name="Raw">The cell, word for word.</param>
/// <param name="Sure">How sure.</param>
public sealed record Said<T>(T Value, string Raw, Sureness Sure);

/// <summary>What becomes of a row.</summary>
public enum Standing
{
    /// <summary>Everything in it is understood.</summary>
    Understood,

    /// <summary>What is known is imported; what is not is asked.</summary>
    Doubtful,

    /// <summary>Not imported, since it would be wrong.</summary>
    HeldBack,
}

/// <summary>So many equal packages.</summary>
/// <param name="Count">How many.</param>
/// <param name="Each">Leaf in each, or null where nobody says.</param>
/// <param name="Split">True where a total was divided evenly among them.</param>
/// <param name="Sort">Their container where it is not the row's, else null.</param>
/// <param name="Open">Whether just these are open; null where only the row says.</param>
public sealed record PackageGroup(int Count, Amount? Each, bool Split = false, Vessel? Sort = null, bool? Open = null);

/// <summary>A row of the sheet, understood as far as it can be.</summary>
public sealed class RowFacts(string sheet, SheetRow source)
{
    /// <summary>Name of its sheet.</summary>
    public string Sheet => sheet;

    /// <summary>The row as it stands.</summary>
    public SheetRow Source => source;

    /// <summary>Row number as a spreadsheet shows it.</summary>
    public int Row => source.Number;

    /// <summary>What becomes of it.</summary>
    public Standing Standing { get; private set; }

    /// <summary>What is not understood, with the likeliest readings.</summary>
    public List<Question> Questions { get; } = [];

    /// <summary>What is not understood, in words for a person.</summary>
    public IEnumerable<string> Doubts => Questions.Select(question => question.Reason);

    /// <summary>Where it was read, so that it can be read again with other words in its cells.</summary>
    internal RowContext? Context { get; set; }

    /// <summary>The packages.</summary>
    public List<PackageGroup> Groups { get; } = [];

    /// <summary>Grams of leaf that the row states, whether or not they are imported.</summary>
    public double GramsRead { get; set; }

    /// <summary>The same without any count: the sum of the cells as they stand.</summary>
    public double GramsWritten { get; set; }

    public Said<string>? Blend { get; set; }

    public Said<string>? Maker { get; set; }

    public Said<string>? Leaf { get; set; }

    public Said<string>? Cut { get; set; }

    public Said<string>? ComesFrom { get; set; }

    public Said<string>? Label { get; set; }

    public Said<Vessel>? Container { get; set; }

    public Said<IReadOnlyList<string>>? Place { get; set; }

    public Said<Price>? Paid { get; set; }

    public Said<double>? MoisturePct { get; set; }

    public Said<double>? GrossGrams { get; set; }

    public Said<double>? TareGrams { get; set; }

    /// <summary>Dates by what they are of.</summary>
    public RowDates Dates { get; } = new();

    /// <summary>True where it is said to be open.</summary>
    public bool Open { get; set; }

    /// <summary>True where it is said to be no longer there: recorded, but not on the shelf.</summary>
    public bool Gone { get; set; }

    /// <summary>Words that are none of these, with the head of their column.</summary>
    public List<string> Notes { get; } = [];

    /// <summary>Packages on the shelf by this row.</summary>
    public int Packages => Standing == Standing.HeldBack || Gone ? 0 : Groups.Sum(group => group.Count);

    /// <summary>Grams that are imported as being on the shelf.</summary>
    public double GramsAdded => Standing == Standing.HeldBack || Gone ? 0 : Groups.Sum(group => group.Count * (group.Each?.Grams ?? 0));

    /// <summary>The date as far as it is decided, or null.</summary>
    public SheetDate? DateOf(DateRole role) => Dates.TryGetValue(role, out var said) && said.Value is DateCell.Known known ? known.Date : null;

    /// <summary>Imports what is known and asks.</summary>
    /// <param name="kind">A stable word for the question.</param>
    /// <param name="reason">In words for a person.</param>
    /// <param name="column">Index of the column that it is about, or -1.</param>
    /// <param name="choices">The likeliest readings.</param>
    public void Doubt(string kind, string reason, int column, params IEnumerable<Choice> choices)
    {
        if (!Questions.Exists(question => question.Reason == reason))
            Questions.Add(new Question(kind, reason, column, choices));
        if (Standing == Standing.Understood)
            Standing = Standing.Doubtful;
    }

    /// <summary>Imports what is known and asks.</summary>
    internal void Ask(Question question) => Doubt(question.Kind, question.Reason, question.Column, question.Readings);

    /// <summary>Does not import and says why.</summary>
    /// <param name="kind">A stable word for the question.</param>
    /// <param name="reason">In words for a person.</param>
    /// <param name="column">Index of the column that it is about, or -1.</param>
    /// <param name="choices">The likeliest readings.</param>
    public void HoldBack(string kind, string reason, int column, params IEnumerable<Choice> choices)
    {
        Doubt(kind, reason, column, choices);
        Standing = Standing.HeldBack;
    }

    /// <summary>The person takes it, whatever held it back.</summary>
    internal void Take()
    {
        if (Standing == Standing.HeldBack)
            Standing = Standing.Doubtful;
    }

    /// <summary>Nothing is asked any more about what a person decided.</summary>
    internal void Settle(Func<Question, bool> decided)
    {
        Questions.RemoveAll(question => decided(question));
        if (Questions.Count == 0 && Standing == Standing.Doubtful)
            Standing = Standing.Understood;
    }

    /// <summary>The column in which words stand: one of the wanted meaning before any other; -1 where none does.</summary>
    internal int ColumnOf(string words, Func<Column, bool> wanted)
    {
        var other = -1;
        foreach (var column in Context?.Table.Columns ?? [])
        {
            if (!source[column.Index].Text.Contains(words, StringComparison.Ordinal))
                continue;
            if (wanted(column))
                return column.Index;
            other = other < 0 ? column.Index : other;
        }

        return other;
    }
}
