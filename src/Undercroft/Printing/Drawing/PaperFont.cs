using System.Globalization;
using System.Reflection;
using System.Text;
using PdfSharp.Fonts;
using SkiaSharp;

namespace Undercroft.Printing.Drawing;

/// <summary>The one typeface of all papers, part of the program file, so that a paper looks alike on every machine.</summary>
/// <remarks>Liberation Sans 2.1.5 under the SIL Open Font License 1.1, which allows embedding: Latin, Greek and Cyrillic. Licence and checksums stand beside the files.</remarks>
internal sealed class PaperFont : IFontResolver
{
    /// <summary>Its name.</summary>
    internal const string Family = "Liberation Sans";

    private const string Regular = "LiberationSans-Regular.ttf";
    private const string Bold = "LiberationSans-Bold.ttf";
    private static readonly Lazy<SKFont[]> Faces = new(() => [.. new[] { Regular, Bold }.Select(name => new SKFont(SKTypeface.FromData(SKData.CreateCopy(Bytes(name)))))]);
    private static readonly Lock Gate = new();

    private PaperFont()
    {
    }

    /// <summary>Makes it the typeface of every PDF of this process.</summary>
    internal static void Install()
    {
        lock (Gate)
            GlobalFontSettings.FontResolver ??= new PaperFont();
    }

    /// <inheritdoc/>
    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) => new(isBold ? Bold : Regular);

    /// <inheritdoc/>
    public byte[]? GetFont(string faceName) => Bytes(faceName);

    /// <summary>Text as this font can print it: composed, in one line, without control and direction signs, and with □ for each sign that it lacks or cannot set.</summary>
    /// <param name="text">As entered.</param>
    /// <param name="replaced">The signs for which □ stands.</param>
    internal static string Printable(string text, ICollection<string> replaced)
    {
        ArgumentNullException.ThrowIfNull(text);
        var printable = new StringBuilder();
        foreach (var rune in Composed(text).EnumerateRunes())
        {
            switch (Rune.GetUnicodeCategory(rune))
            {
                case UnicodeCategory.Control or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.SpaceSeparator:
                    printable.Append(' ');
                    break;
                case UnicodeCategory.Format: // joiners, and marks that would turn the direction of what follows
                    break;
                case UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark when !Has(rune):
                    break; // a lone accent that no letter of the font carries; the letter stays
                default:
                    var known = Has(rune) && !RunsLeft(rune);
                    if (!known)
                        replaced.Add(rune.ToString());
                    printable.Append(known ? rune.ToString() : "□");
                    break;
            }
        }

        return string.Join(' ', printable.ToString().Split(' ', StringSplitOptions.RemoveEmptyEntries));
    }

    private static bool Has(Rune rune)
    {
        lock (Gate)
            return Faces.Value.All(face => face.ContainsGlyph(rune.Value));
    }

    /// <summary>Hebrew is in the font, but nothing here sets a line from right to left.</summary>
    private static bool RunsLeft(Rune rune) => rune.Value is (>= 0x0590 and <= 0x08FF) or (>= 0xFB1D and <= 0xFDFF) or (>= 0xFE70 and <= 0xFEFF) or (>= 0x10800 and <= 0x10FFF);

    private static string Composed(string text)
    {
        var whole = new StringBuilder();
        foreach (var rune in text.EnumerateRunes()) // half a surrogate pair becomes the sign for what could not be read
            whole.Append(rune.ToString());
        return whole.ToString().Normalize(NormalizationForm.FormC);
    }

    private static byte[] Bytes(string name)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("fonts/" + name)
            ?? throw new InvalidOperationException($"The font {name} is not part of this program.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
