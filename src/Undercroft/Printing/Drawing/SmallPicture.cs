using SkiaSharp;

namespace Undercroft.Printing.Drawing;

/// <summary>A kept photo as large as paper needs it.</summary>
internal static class SmallPicture
{
    private const int LongestSide = 800; // some 300 dots an inch at the width that it is printed
    private const int Quality = 80;

    /// <summary>JPEG bytes; null where the file cannot be read.</summary>
    internal static byte[]? Of(byte[] file)
    {
        using var bitmap = SKBitmap.Decode(file);
        if (bitmap is null)
            return null;
        var scale = Math.Min(1.0, LongestSide / (double)Math.Max(bitmap.Width, bitmap.Height));
        using var small = bitmap.Resize(
            bitmap.Info with { Width = Math.Max(1, (int)Math.Round(bitmap.Width * scale)), Height = Math.Max(1, (int)Math.Round(bitmap.Height * scale)) },
            new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        using var data = small.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return data.ToArray();
    }
}
