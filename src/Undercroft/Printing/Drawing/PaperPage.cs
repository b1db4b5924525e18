using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Undercroft.Printing.Drawing;

/// <summary>How letters look.</summary>
/// <param name="Points">Their size.</param>
/// <param name="Bold">Heavy.</param>
/// <param name="Grey">Quieter than black; still readable after a photocopy.</param>
internal readonly record struct Letters(double Points, bool Bold = false, bool Grey = false)
{
    private const double MmPerPoint = 25.4 / 72;

    /// <summary>From one line to the next, in millimetres.</summary>
    internal double Line => Points * 1.22 * MmPerPoint;

    /// <summary>From the top of a line to the foot of its letters, in millimetres.</summary>
    internal double Rise => Points * 0.93 * MmPerPoint;
}

/// <summary>One page, in millimetres from its upper left corner.</summary>
/// <param name="page">Of the document.</param>
/// <param name="size">Its size.</param>
/// <param name="paper">Whose.</param>
internal sealed class PaperPage(PdfPage page, PaperSize size, Paper paper) : IDisposable
{
    private const double PointsPerMm = 72 / 25.4;
    private static readonly Lock MeasuringGate = new();
    private static XGraphics? measuring;
    private readonly XGraphics ink = XGraphics.FromPdfPage(page);

    /// <summary>Its size.</summary>
    internal PaperSize Size => size;

    /// <summary>Closes it for drawing.</summary>
    public void Dispose() => ink.Dispose();

    /// <summary>One line of text; its top left corner is given.</summary>
    internal void Text(string text, double x, double y, Letters letters) =>
        ink.DrawString(paper.Printable(text), Font(letters), letters.Grey ? XBrushes.DimGray : XBrushes.Black, P(x), P(y + letters.Rise));

    /// <summary>One line of text around a middle.</summary>
    internal void Centred(string text, double middle, double y, Letters letters)
    {
        var printable = paper.Printable(text);
        Text(printable, middle - (Width(printable, letters) / 2), y, letters);
    }

    /// <summary>One line of text that ends at a place.</summary>
    internal void EndingAt(string text, double right, double y, Letters letters)
    {
        var printable = paper.Printable(text);
        Text(printable, right - Width(printable, letters), y, letters);
    }

    /// <summary>A line from one point to another.</summary>
    internal void Line(double x1, double y1, double x2, double y2, double thick = 0.2) => ink.DrawLine(new XPen(XColors.Black, P(thick)), P(x1), P(y1), P(x2), P(y2));

    /// <summary>A frame.</summary>
    internal void Frame(double x, double y, double width, double height, double thick = 0.25) =>
        ink.DrawRectangle(new XPen(XColors.Black, P(thick)), P(x), P(y), P(width), P(height));

    /// <summary>A ring of dashes, to cut along.</summary>
    internal void CuttingRing(double middleX, double middleY, double diameter) =>
        ink.DrawEllipse(new XPen(XColors.Gray, P(0.15)) { DashStyle = XDashStyle.Dash }, P(middleX - (diameter / 2)), P(middleY - (diameter / 2)), P(diameter), P(diameter));

    /// <summary>A warning triangle.</summary>
    internal void Warning(double x, double y, double side)
    {
        var height = side * 0.88;
        ink.DrawPolygon(new XPen(XColors.Black, P(side * 0.09)) { LineJoin = XLineJoin.Round }, [new(P(x + (side / 2)), P(y)), new(P(x + side), P(y + height)), new(P(x), P(y + height))]);
        ink.DrawRectangle(XBrushes.Black, P(x + (side * 0.455)), P(y + (height * 0.36)), P(side * 0.09), P(height * 0.32));
        ink.DrawRectangle(XBrushes.Black, P(x + (side * 0.455)), P(y + (height * 0.76)), P(side * 0.09), P(height * 0.11));
    }

    /// <summary>A QR code. Its quiet zone of four modules lies within the square.</summary>
    internal void Code(string content, double x, double y, double side)
    {
        var rows = QrSquare.Of(content);
        var module = side / rows.Length;
        var dark = new XGraphicsPath { FillMode = XFillMode.Winding };
        for (var row = 0; row < rows.Length; row++)
        {
            for (var from = 0; from < rows.Length; from++)
            {
                if (!rows[row][from])
                    continue;
                var to = from;
                while (to < rows.Length && rows[row][to])
                    to++;
                dark.AddRectangle(P(x + (from * module)), P(y + (row * module)), P((to - from) * module), P(module));
                from = to;
            }
        }

        ink.DrawPath(XBrushes.Black, dark);
    }

    /// <summary>A picture as large as fits into a rectangle, in its middle.</summary>
    internal void Picture(byte[] jpeg, double x, double y, double width, double height)
    {
        using var stream = new MemoryStream(jpeg);
        using var image = XImage.FromStream(stream);
        var scale = Math.Min(width / image.PixelWidth, height / image.PixelHeight);
        var (across, down) = (image.PixelWidth * scale, image.PixelHeight * scale);
        ink.DrawImage(image, P(x + ((width - across) / 2)), P(y + ((height - down) / 2)), P(across), P(down));
    }

    /// <summary>The width of a line, in millimetres.</summary>
    internal static double Width(string text, Letters letters)
    {
        PaperFont.Install();
        lock (MeasuringGate)
        {
            measuring ??= XGraphics.CreateMeasureContext(new XSize(4000, 4000), XGraphicsUnit.Point, XPageDirection.Downwards);
            return measuring.MeasureString(text, Font(letters)).Width / PointsPerMm;
        }
    }

    /// <summary>Text in lines that fit a width. Words that are wider than it are broken.</summary>
    /// <param name="text">In one piece.</param>
    /// <param name="width">Millimetres.</param>
    /// <param name="letters">How it looks.</param>
    /// <param name="most">Lines at most; what does not fit ends in "…".</param>
    internal IReadOnlyList<string> Broken(string text, double width, Letters letters, int most = int.MaxValue)
    {
        List<string> lines = [];
        var line = "";
        foreach (var word in paper.Printable(text).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var rest = word;
            while (rest.Length > 0)
            {
                var joined = line.Length == 0 ? rest : line + " " + rest;
                if (Width(joined, letters) <= width)
                {
                    (line, rest) = (joined, "");
                }
                else if (line.Length > 0)
                {
                    lines.Add(line);
                    line = "";
                }
                else
                {
                    var fits = Fitting(rest, width, letters);
                    lines.Add(rest[..fits]);
                    rest = rest[fits..];
                }
            }
        }

        if (line.Length > 0)
            lines.Add(line);
        return lines.Count <= most ? lines : [.. lines.Take(most - 1), Shortened(string.Join(' ', lines.Skip(most - 1)), width, letters)];
    }

    private static string Shortened(string text, double width, Letters letters)
    {
        var length = text.Length;
        while (length > 0 && Width(text[..length].TrimEnd() + "…", letters) > width)
            length--;
        return text[..length].TrimEnd() + "…";
    }

    private static int Fitting(string word, double width, Letters letters)
    {
        var length = word.Length;
        while (length > 1 && Width(word[..length], letters) > width)
            length--;
        return length;
    }

    private static XFont Font(Letters letters) => new(PaperFont.Family, letters.Points, letters.Bold ? XFontStyleEx.Bold : XFontStyleEx.Regular);

    private static double P(double mm) => mm * PointsPerMm;
}
