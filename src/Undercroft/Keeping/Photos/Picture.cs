using System.Security.Cryptography;
using SkiaSharp;
using Undercroft.Ledger;

namespace Undercroft.Keeping.Photos;

/// <summary>A picture as it is kept: upright, small, and nothing in it but what it shows.</summary>
/// <param name="Jpeg">JPEG bytes without any notes of the camera: no position, no serial number, no date.</param>
/// <param name="Sha256">Their digest, in lower case hexadecimal: the name of the file.</param>
/// <param name="Taken">The day that the camera noted, which the ledger keeps instead; null where it noted none.</param>
/// <param name="Width">Pixels.</param>
/// <param name="Height">Pixels.</param>
public sealed record Picture(byte[] Jpeg, string Sha256, DateOnly? Taken, int Width, int Height)
{
    /// <summary>Longest side of a kept picture, in pixels: enough for a loupe on a screen, some 500 kB.</summary>
    public const int LongestSide = 2048;

    /// <summary>More pixels than any phone takes: what claims more is turned away before it is unpacked.</summary>
    public const long MostPixels = 120_000_000;

    /// <summary>Pixels in memory at most. JPEG, as cameras write it, is unpacked in parts of an eighth of its size, no larger than is needed.</summary>
    private const long MostUnpacked = 50_000_000;

    private const int Quality = 85;

    /// <summary>Makes a picture ready to be kept.</summary>
    /// <param name="file">JPEG, PNG, WebP or what else can be read, as it was sent.</param>
    /// <exception cref="Refusal">Not a picture, or too large a one.</exception>
    public static Picture From(byte[] file)
    {
        ArgumentNullException.ThrowIfNull(file);
        using var bitmap = Decoded(file);
        using var small = Fitting(bitmap, LongestSide);
        using var flat = new SKBitmap(new SKImageInfo(small.Width, small.Height, SKColorType.Rgba8888, SKAlphaType.Opaque, SKColorSpace.CreateSrgb()));
        using (var canvas = new SKCanvas(flat))
        {
            canvas.Clear(SKColors.White);
            canvas.DrawBitmap(small, 0, 0, SKSamplingOptions.Default);
        }

        using var image = SKImage.FromBitmap(flat);
        using var data = image.Encode(SKEncodedImageFormat.Jpeg, Quality);
        var bytes = data.ToArray();
        return new(bytes, Convert.ToHexStringLower(SHA256.HashData(bytes)), CameraDate.Of(file), flat.Width, flat.Height);
    }

    /// <summary>The pixels of a file, upright.</summary>
    /// <exception cref="Refusal">Not a picture, or too large a one.</exception>
    internal static SKBitmap Decoded(byte[] file)
    {
        using var codec = SKCodec.Create(new MemoryStream(file));
        if (codec is null)
            throw new Refusal("This is no picture that can be read. JPEG, PNG and WebP can; some phones must be told to save JPEG.");
        if ((long)codec.Info.Width * codec.Info.Height > MostPixels)
            throw new Refusal("This picture is larger than any camera's. Send it smaller.");
        var size = codec.GetScaledDimensions(Scale(codec.Info));
        if ((long)size.Width * size.Height > MostUnpacked)
            throw new Refusal("This picture is larger than can be unpacked here. Send it smaller, or as JPEG.");
        var bitmap = new SKBitmap(new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Premul, SKColorSpace.CreateSrgb()));
        if (codec.GetPixels(bitmap.Info, bitmap.GetPixels()) is not SKCodecResult.Success and var failed)
        {
            bitmap.Dispose();
            throw new Refusal($"This picture {(failed == SKCodecResult.IncompleteInput ? "broke off on its way" : "is damaged and cannot be read")}. Take, choose or send it again.");
        }

        return Upright(bitmap, codec.EncodedOrigin);
    }

    /// <summary>Not longer than so many pixels; a copy.</summary>
    internal static SKBitmap Fitting(SKBitmap bitmap, int longest)
    {
        var scale = Math.Min(1.0, longest / (double)Math.Max(bitmap.Width, bitmap.Height));
        var info = bitmap.Info with { Width = Math.Max(1, (int)Math.Round(bitmap.Width * scale)), Height = Math.Max(1, (int)Math.Round(bitmap.Height * scale)) };
        return scale >= 1 ? bitmap.Copy() : bitmap.Resize(info, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
    }

    /// <summary>The least number of eighths that leaves enough to look at and to find a code on.</summary>
    private static float Scale(SKImageInfo info)
    {
        const int Enough = 2400;
        return Math.Min(8, MathF.Ceiling(8f * Enough / Math.Max(info.Width, info.Height))) / 8;
    }

    /// <summary>Turns a picture as the camera says that it was held.</summary>
    private static SKBitmap Upright(SKBitmap bitmap, SKEncodedOrigin origin)
    {
        if (origin == SKEncodedOrigin.TopLeft)
            return bitmap;
        var (w, h) = ((float)bitmap.Width, (float)bitmap.Height);
        var swapped = origin is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom or SKEncodedOrigin.LeftBottom;
        var turned = new SKBitmap(bitmap.Info with { Width = swapped ? bitmap.Height : bitmap.Width, Height = swapped ? bitmap.Width : bitmap.Height });
        using (bitmap)
        using (var canvas = new SKCanvas(turned))
        {
            canvas.SetMatrix(origin switch
            {
                SKEncodedOrigin.TopRight => new SKMatrix(-1, 0, w, 0, 1, 0, 0, 0, 1),
                SKEncodedOrigin.BottomRight => new SKMatrix(-1, 0, w, 0, -1, h, 0, 0, 1),
                SKEncodedOrigin.BottomLeft => new SKMatrix(1, 0, 0, 0, -1, h, 0, 0, 1),
                SKEncodedOrigin.LeftTop => new SKMatrix(0, 1, 0, 1, 0, 0, 0, 0, 1),
                SKEncodedOrigin.RightTop => new SKMatrix(0, -1, h, 1, 0, 0, 0, 0, 1),
                SKEncodedOrigin.RightBottom => new SKMatrix(0, -1, h, -1, 0, w, 0, 0, 1),
                SKEncodedOrigin.LeftBottom => new SKMatrix(0, 1, 0, -1, 0, w, 0, 0, 1),
                _ => throw new InvalidOperationException($"No way to turn {origin}."),
            });
            canvas.DrawBitmap(bitmap, 0, 0, SKSamplingOptions.Default);
        }

        return turned;
    }
}
