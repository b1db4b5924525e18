using System.Diagnostics;
using System.Globalization;
using System.Text;
using Undercroft.Printing;
using ZXing;
using ZXing.Common;

namespace Undercroft.Tests.Printing;

/// <summary>A paper as a printer would put it down: drawn by poppler, an independent renderer, at ten pixels a millimetre.</summary>
internal sealed class Rendered
{
    /// <summary>254 dots an inch.</summary>
    internal const double PixelsPerMm = 10;

    private Rendered(IReadOnlyList<Grey> pages, string text)
    {
        Pages = pages;
        Text = text;
    }

    /// <summary>Its pages.</summary>
    internal IReadOnlyList<Grey> Pages { get; }

    /// <summary>Its text, page by page, in reading order.</summary>
    internal string Text { get; }

    internal static async Task<Rendered> Of(Printed printed)
    {
        var folder = Directory.CreateTempSubdirectory("undercroft-paper").FullName;
        try
        {
            var file = Path.Combine(folder, "paper.pdf");
            await File.WriteAllBytesAsync(file, printed.Bytes);
            await Run("pdftoppm", "-r", "254", "-gray", file, Path.Combine(folder, "page"));
            return new([.. Directory.GetFiles(folder, "page*.pgm").Order(StringComparer.Ordinal).Select(page => Grey.Of(File.ReadAllBytes(page)))], await TextOf(file));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>The text alone: nothing is drawn.</summary>
    internal static async Task<string> TextOf(Printed printed)
    {
        var file = Path.Combine(Path.GetTempPath(), $"undercroft-{Guid.NewGuid():N}.pdf");
        try
        {
            await File.WriteAllBytesAsync(file, printed.Bytes);
            return await TextOf(file);
        }
        finally
        {
            File.Delete(file);
        }
    }

    /// <summary>The QR code in a rectangle of a page, given in millimetres; null where none can be read.</summary>
    internal string? CodeAt(int page, double x, double y, double width, double height)
    {
        var (part, across, down) = Pages[page].Part((int)(x * PixelsPerMm), (int)(y * PixelsPerMm), (int)(width * PixelsPerMm), (int)(height * PixelsPerMm));
        var reader = new BarcodeReaderGeneric { Options = new DecodingOptions { TryHarder = true, PossibleFormats = [BarcodeFormat.QR_CODE] } };
        return reader.Decode(new RGBLuminanceSource(part, across, down, RGBLuminanceSource.BitmapFormat.Gray8))?.Text;
    }

    /// <summary>True where nothing but paper shows in a rectangle.</summary>
    internal bool IsBlank(int page, double x, double y, double width, double height) => Ink(page, x, y, width, height) is null;

    /// <summary>The bounds of all ink in a rectangle, in millimetres from the page's corner; null where it is blank.</summary>
    internal (double Left, double Top, double Right, double Bottom)? Ink(int page, double x, double y, double width, double height)
    {
        var (left, top, right, bottom) = (int.MaxValue, int.MaxValue, -1, -1);
        var (fromX, toX) = (Math.Max(0, (int)Math.Round(x * PixelsPerMm)), Math.Min(Pages[page].Width, (int)Math.Round((x + width) * PixelsPerMm)));
        var (fromY, toY) = (Math.Max(0, (int)Math.Round(y * PixelsPerMm)), Math.Min(Pages[page].Height, (int)Math.Round((y + height) * PixelsPerMm)));
        for (var row = fromY; row < toY; row++)
        {
            var line = Pages[page].Row(row)[fromX..toX];
            var first = line.IndexOfAnyInRange((byte)0, (byte)127);
            if (first >= 0)
                (left, top, right, bottom) = (Math.Min(left, fromX + first), Math.Min(top, row), Math.Max(right, fromX + line.LastIndexOfAnyInRange((byte)0, (byte)127) + 1), row + 1);
        }

        return right < 0 ? null : (left / PixelsPerMm, top / PixelsPerMm, right / PixelsPerMm, bottom / PixelsPerMm);
    }

    private static Task<string> TextOf(string file) => Run("pdftotext", "-layout", file, "-");

    private static async Task<string> Run(string program, params string[] words)
    {
        using var process = Process.Start(new ProcessStartInfo(program, words) { RedirectStandardOutput = true, RedirectStandardError = true, StandardOutputEncoding = Encoding.UTF8 })
            ?? throw new InvalidOperationException($"{program} did not start: install poppler-utils.");
        var output = process.StandardOutput.ReadToEndAsync();
        var error = await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return process.ExitCode == 0 ? await output : throw new InvalidOperationException($"{program} failed: {error}");
    }

    /// <summary>A page in shades of grey: a portable graymap (Netpbm, P5).</summary>
    internal sealed record Grey(byte[] Shades, int Width, int Height)
    {
        internal static Grey Of(byte[] file)
        {
            var (at, numbers) = (2, new int[3]);
            for (var n = 0; n < 3; n++)
            {
                while (file[at] is (byte)' ' or (byte)'\n')
                    at++;
                var end = at;
                while (file[end] is >= (byte)'0' and <= (byte)'9')
                    end++;
                numbers[n] = int.Parse(Encoding.ASCII.GetString(file, at, end - at), CultureInfo.InvariantCulture);
                at = end;
            }

            return new(file[(at + 1)..], numbers[0], numbers[1]);
        }

        internal ReadOnlySpan<byte> Row(int row) => Shades.AsSpan(row * Width, Width);

        internal (byte[] Part, int Width, int Height) Part(int x, int y, int width, int height)
        {
            (width, height) = (Math.Min(width, Width - x), Math.Min(height, Height - y));
            var part = new byte[width * height];
            for (var row = 0; row < height; row++)
                Row(y + row).Slice(x, width).CopyTo(part.AsSpan(row * width));
            return (part, width, height);
        }
    }
}
