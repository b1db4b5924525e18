using Undercroft.Ledger.Dates;

namespace Undercroft.Ledger.Events;

public abstract partial record Fact
{
    /// <summary>An earlier event was written down wrongly; this is how it should have read, in full.</summary>
    /// <param name="Event">The event that is corrected: the original one, also where it was corrected before.</param>
    /// <param name="Replacement">The whole fact as it should have read, of the same type.</param>
    /// <param name="ReplacesDate">True where <paramref name="Happened"/> replaces the date of the original.</param>
    /// <param name="Happened">When it really happened.</param>
    /// <param name="Reason">In words.</param>
    public sealed record EventCorrected(Guid Event, Fact Replacement, bool ReplacesDate = false, UnevenDate Happened = default, string? Reason = null) : Fact;

    /// <summary>An earlier event is taken back, with everything that it caused. Undoing an undo or a correction brings back what was.</summary>
    /// <param name="Event">Which.</param>
    /// <param name="Reason">In words.</param>
    public sealed record EventUndone(Guid Event, string? Reason = null) : Fact;

    /// <summary>A sheet was read. What it brought names this event as its cause.</summary>
    /// <param name="File">Name of the file.</param>
    /// <param name="Sha256">Digest of its bytes, in hexadecimal.</param>
    /// <param name="RowsRead">Data rows.</param>
    /// <param name="RowsDoubtful">Of them not understood.</param>
    /// <param name="Mapping">How columns were read, in words.</param>
    public sealed record SheetImported(string File, string Sha256, int RowsRead, int RowsDoubtful = 0, string? Mapping = null) : Fact;

    /// <summary>A row of a sheet that was not understood, kept whole.</summary>
    /// <param name="File">Name of the file.</param>
    /// <param name="Sha256">Digest of its bytes, in hexadecimal.</param>
    /// <param name="Row">Row number in the file, from 1.</param>
    /// <param name="Cells">The row as it stood.</param>
    /// <param name="Reason">Why it was not understood.</param>
    /// <param name="Sheet">Name of the sheet in a workbook.</param>
    /// <param name="Brought">The events that this row brought all the same; null where it was held back or is no row of packages.</param>
    public sealed record RowDoubted(
        string File, string Sha256, int Row, IReadOnlyList<string> Cells, string Reason, string? Sheet = null, IReadOnlyList<Guid>? Brought = null) : Fact;

    /// <summary>A person decided about a doubtful row. What follows from it names this event as its cause.</summary>
    /// <param name="Doubt">The event that kept the row as a doubt.</param>
    /// <param name="Question">What was asked.</param>
    /// <param name="Answer">In words.</param>
    /// <param name="Cells">How cells of the row should read; null where none changes.</param>
    /// <param name="Open">What is still asked about the row; null where nothing is.</param>
    /// <param name="LeftOut">True where the row is not to be in the cellar.</param>
    /// <param name="Taken">True where a row that was held back is to be in the cellar all the same.</param>
    public sealed record RowAnswered(
        Guid Doubt, string Question, string Answer, IReadOnlyList<CellSaid>? Cells = null, IReadOnlyList<string>? Open = null, bool LeftOut = false, bool Taken = false) : Fact;
}

/// <summary>How a cell of a sheet should read.</summary>
/// <param name="Column">Its letter, as a spreadsheet shows it.</param>
/// <param name="Text">The words; empty for a blank cell.</param>
public sealed record CellSaid(string Column, string Text);
