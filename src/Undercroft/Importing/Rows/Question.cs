using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Rows;

/// <summary>What is asked about a row, with the likeliest readings.</summary>
/// <param name="Kind">A stable word: questions of one kind about one column are alike, so that one answer can serve for several rows.</param>
/// <param name="Reason">In words for a person.</param>
/// <param name="Column">Index of the column that it is about, or -1 where it is about the row.</param>
/// <param name="Readings">What it may mean, likeliest first; may be empty where only a person can say. Run through once somebody asks.</param>
public sealed record Question(string Kind, string Reason, int Column, IEnumerable<Choice> Readings)
{
    private IReadOnlyList<Choice>? choices;

    /// <summary>What it may mean, likeliest first.</summary>
    public IReadOnlyList<Choice> Choices => choices ??= [.. Readings];
}

/// <summary>One reading to choose.</summary>
/// <param name="Code">A stable word that means the same for every row of such a question: <c>day-first</c>, <c>grams</c>.</param>
/// <param name="Words">What it means for this row.</param>
/// <param name="Cells">How cells of the row should read; null where none changes.</param>
/// <param name="LeaveOut">True where the row is then not imported.</param>
/// <param name="Take">True where a row that was held back is then imported.</param>
public sealed record Choice(string Code, string Words, IReadOnlyList<CellSaid>? Cells = null, bool LeaveOut = false, bool Take = false)
{
    /// <summary>One cell reads otherwise.</summary>
    internal static Choice Cell(string code, string words, int column, string text) => new(code, words, [new CellSaid(SheetMap.Letter(column), text)]);
}
