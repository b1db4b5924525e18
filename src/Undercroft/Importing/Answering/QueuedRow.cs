namespace Undercroft.Importing.Answering;

/// <summary>A row that waits for an answer.</summary>
/// <param name="Line">Number of the line of the ledger that keeps the doubt; name it to answer.</param>
/// <param name="File">Name of the sheet's file.</param>
/// <param name="Sheet">Name of the sheet in a workbook, else null.</param>
/// <param name="Row">Row number as a spreadsheet shows it.</param>
/// <param name="HeldBack">True where nothing of it is in the cellar.</param>
/// <param name="Packages">What stands in the cellar because of it.</param>
/// <param name="Cells">The row, with the heads of its columns and with what was answered so far.</param>
/// <param name="Questions">What is asked.</param>
public sealed record QueuedRow(long Line, string File, string? Sheet, int Row, bool HeldBack, IReadOnlyList<string> Packages, IReadOnlyList<QueuedCell> Cells, IReadOnlyList<QueuedQuestion> Questions);

/// <summary>A cell of a row that waits.</summary>
/// <param name="Column">Its letter.</param>
/// <param name="Head">The head of its column; empty where there is none.</param>
/// <param name="Text">What it says.</param>
public sealed record QueuedCell(string Column, string Head, string Text);

/// <summary>A question about a row.</summary>
/// <param name="Question">Its number, from 1.</param>
/// <param name="Kind">A stable word.</param>
/// <param name="Reason">In words for a person.</param>
/// <param name="Choices">The likeliest readings; may be empty.</param>
/// <param name="Alike">How many other rows of the sheet wait with such a question.</param>
public sealed record QueuedQuestion(int Question, string Kind, string Reason, IReadOnlyList<QueuedChoice> Choices, int Alike);

/// <summary>A reading to choose.</summary>
/// <param name="Choice">Its number, from 1.</param>
/// <param name="Code">A stable word.</param>
/// <param name="Words">What it means for this row.</param>
public sealed record QueuedChoice(int Choice, string Code, string Words);
