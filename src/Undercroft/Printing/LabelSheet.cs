using Undercroft.Ledger;
using Undercroft.Printing.Drawing;

namespace Undercroft.Printing;

/// <summary>A sheet of labels: where each begins, in millimetres.</summary>
/// <param name="Code">On the command line.</param>
/// <param name="Name">For people.</param>
/// <param name="Paper">Of the whole sheet.</param>
/// <param name="Columns">Across.</param>
/// <param name="Rows">Down.</param>
/// <param name="WidthMm">Of one label.</param>
/// <param name="HeightMm">Of one label.</param>
/// <param name="LeftMm">From the sheet's left edge to the first label.</param>
/// <param name="TopMm">From the sheet's upper edge to the first label.</param>
/// <param name="StepAcrossMm">From one label's left edge to the next one's.</param>
/// <param name="StepDownMm">From one label's upper edge to the next one's.</param>
/// <param name="PaddingMm">Kept blank inside each label's edge: what printers cannot reach or cut off.</param>
/// <remarks>Common grids; their measures are from memory and usual in the trade. Measure your own sheet, print a first page on plain paper, hold both against the light, and shift.</remarks>
public sealed record LabelSheet(
    string Code, string Name, PaperSize Paper, int Columns, int Rows, double WidthMm, double HeightMm, double LeftMm, double TopMm, double StepAcrossMm, double StepDownMm, double PaddingMm)
{
    /// <summary>All that are known.</summary>
    public static IReadOnlyList<LabelSheet> All { get; } =
    [
        new("a4-3x7", "A4, 21 labels of 63.5 × 38.1 mm", PaperSize.A4, 3, 7, 63.5, 38.1, 7.25, 15.15, 66, 38.1, 2.4),
        new("a4-3x8", "A4, 24 labels of 70 × 37 mm, edge to edge", PaperSize.A4, 3, 8, 70, 37, 0, 0.5, 70, 37, 5),
        new("a4-3x8-gap", "A4, 24 labels of 63.5 × 33.9 mm", PaperSize.A4, 3, 8, 63.5, 33.9, 7.25, 12.9, 66, 33.9, 2.2),
        new("letter-3x10", "Letter, 30 labels of 2⅝ × 1 in", PaperSize.Letter, 3, 10, 66.675, 25.4, 4.7625, 12.7, 69.85, 25.4, 1.8),
    ];

    /// <summary>Labels on one sheet.</summary>
    public int Count => Columns * Rows;

    /// <summary>The sheet of a code.</summary>
    /// <exception cref="Refusal">No such sheet; the message lists them.</exception>
    public static LabelSheet Of(string code) => All.FirstOrDefault(sheet => string.Equals(sheet.Code, code?.Trim(), StringComparison.OrdinalIgnoreCase))
        ?? throw new Refusal($"'{code}' is not a sheet of labels known here: {string.Join(", ", All.Select(sheet => sheet.Code))}.");

    /// <summary>Upper left corner of a label, counted from 0 along the rows.</summary>
    internal (double X, double Y) Corner(int label) => (LeftMm + (label % Columns * StepAcrossMm), TopMm + (label / Columns * StepDownMm));
}
