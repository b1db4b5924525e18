using Undercroft.Printing.Drawing;

namespace Undercroft.Printing;

/// <summary>A paper that is ready to be written to a file or sent to a browser.</summary>
/// <param name="Bytes">The PDF.</param>
/// <param name="Pages">How many.</param>
/// <param name="Replaced">Signs that the font lacks; □ stands for them.</param>
public sealed record Printed(byte[] Bytes, int Pages, IReadOnlyList<string> Replaced)
{
    internal static Printed From(Paper paper)
    {
        var pages = paper.Pages; // asked first: once written, a document answers no more
        return new(paper.ToBytes(), pages, paper.Replaced);
    }
}
