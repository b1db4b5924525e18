using System.Text;
using System.Text.RegularExpressions;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Undercroft.Printing.Drawing;

/// <summary>A size of paper, upright.</summary>
/// <param name="Code">On the command line.</param>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Down.</param>
public sealed record PaperSize(string Code, double WidthMm, double HeightMm)
{
    /// <summary>ISO 216 A4.</summary>
    public static readonly PaperSize A4 = new("a4", 210, 297);

    /// <summary>North American Letter, 8½ by 11 inches.</summary>
    public static readonly PaperSize Letter = new("letter", 215.9, 279.4);

    /// <summary>The size of a code.</summary>
    /// <exception cref="Ledger.Refusal">No such size.</exception>
    public static PaperSize Of(string code) => code?.ToLowerInvariant() switch
    {
        "a4" => A4,
        "letter" => Letter,
        _ => throw new Ledger.Refusal($"'{code}' is not a size of paper: use a4 or letter."),
    };

    /// <summary>Lying on its side.</summary>
    internal PaperSize Lying => this with { WidthMm = HeightMm, HeightMm = WidthMm };
}

/// <summary>A PDF in the making. All places on it are in millimetres from the upper left corner.</summary>
/// <remarks>The same content gives the same bytes: the day printed stands in for the clock, and what the library draws by chance is set to what the content gives.</remarks>
internal sealed partial class Paper : IDisposable
{
    private readonly PdfDocument document = new();
    private readonly HashSet<string> replaced = new(StringComparer.Ordinal);

    /// <summary>An empty document.</summary>
    /// <param name="title">For whoever opens the file.</param>
    /// <param name="today">The day printed.</param>
    internal Paper(string title, DateOnly today)
    {
        PaperFont.Install();
        var noon = today.ToDateTime(new TimeOnly(12, 0), DateTimeKind.Utc);
        document.Info.Title = title;
        document.Info.Creator = "Undercroft";
        document.Info.CreationDate = noon;
        document.Info.ModificationDate = noon;
        document.ViewerPreferences.FitWindow = true;
        Today = today;
    }

    /// <summary>The day printed.</summary>
    internal DateOnly Today { get; }

    /// <summary>Pages so far.</summary>
    internal int Pages => document.PageCount;

    /// <summary>Signs for which □ stands, in the order of their code points.</summary>
    internal IReadOnlyList<string> Replaced => [.. replaced.Order(StringComparer.Ordinal)];

    /// <summary>A new page to draw on.</summary>
    internal PaperPage Add(PaperSize size)
    {
        var page = document.AddPage();
        page.Width = XUnit.FromMillimeter(size.WidthMm);
        page.Height = XUnit.FromMillimeter(size.HeightMm);
        return new PaperPage(page, size, this);
    }

    /// <summary>Text as the font can print it; what it lacks is remembered.</summary>
    internal string Printable(string text) => PaperFont.Printable(text, replaced);

    /// <summary>The file.</summary>
    internal byte[] ToBytes()
    {
        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);
        return Settled(stream.ToArray());
    }

    /// <inheritdoc/>
    public void Dispose() => document.Dispose();

    /// <summary>Random names of the subset fonts and of the file become fixed ones of the same length.</summary>
    private static byte[] Settled(byte[] bytes)
    {
        var text = Encoding.Latin1.GetString(bytes);
        List<string> tags = [];
        text = SubsetTag().Replace(text, found =>
        {
            if (!tags.Contains(found.Groups["tag"].Value))
                tags.Add(found.Groups["tag"].Value);
            return $"/UNDER{(char)('A' + tags.IndexOf(found.Groups["tag"].Value))}+{found.Groups["name"].Value}";
        });
        text = Uuid().Replace(text, found => found.Groups["lead"].Value + "00000000-0000-4000-8000-000000000000");
        text = FileId().Replace(text, found => $"/ID{found.Groups["a"].Value}<{new string('0', 32)}>{found.Groups["b"].Value}<{new string('0', 32)}>");
        return Encoding.Latin1.GetBytes(text);
    }

    [GeneratedRegex(@"/(?<tag>[A-Z]{6})\+(?<name>Liberation)", RegexOptions.CultureInvariant)]
    private static partial Regex SubsetTag();

    [GeneratedRegex(@"(?<lead>uuid:)[0-9a-fA-F]{8}-[0-9a-fA-F]{4}-[0-9a-fA-F]{4}-[0-9a-fA-F]{4}-[0-9a-fA-F]{12}", RegexOptions.CultureInvariant)]
    private static partial Regex Uuid();

    [GeneratedRegex(@"/ID(?<a>\s*\[\s*)<[0-9A-Fa-f]{32}>(?<b>\s*)<[0-9A-Fa-f]{32}>", RegexOptions.CultureInvariant)]
    private static partial Regex FileId();
}
