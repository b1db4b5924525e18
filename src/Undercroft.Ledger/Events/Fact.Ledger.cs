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
    public sealed record RowDoubted(string File, string Sha256, int Row, IReadOnlyList<string> Cells, string Reason, string? Sheet = null) : Fact;
}
