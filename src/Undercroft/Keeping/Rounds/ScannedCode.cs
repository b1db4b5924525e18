using SkiaSharp;
using Undercroft.Keeping.Photos;
using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using ZXing;
using ZXing.Common;

namespace Undercroft.Keeping.Rounds;

/// <summary>Reads the code of a label from a picture of it. It happens here and not in the browser, so that it needs neither script nor a secure connection.</summary>
internal static class ScannedCode
{
    private static readonly int[] Sizes = [1600, 800, 2400]; // a phone's picture is larger than a reader likes, and a far label smaller

    /// <summary>The codes of packages on a picture, each once.</summary>
    /// <exception cref="Refusal">No picture, or no code on it; the message says what helps.</exception>
    internal static IReadOnlyList<string> On(byte[] picture)
    {
        using var bitmap = Picture.Decoded(picture);
        foreach (var size in Sizes)
        {
            using var scaled = Picture.Fitting(bitmap, size);
            var reader = new BarcodeReaderGeneric { AutoRotate = true, Options = new DecodingOptions { TryHarder = true, TryInverted = true, PossibleFormats = [BarcodeFormat.QR_CODE] } };
            var luminance = new RGBLuminanceSource(scaled.Bytes, scaled.Width, scaled.Height, RGBLuminanceSource.BitmapFormat.RGBA32);
            string[] found = [.. (reader.DecodeMultiple(luminance) ?? (reader.Decode(luminance) is { } one ? [one] : [])).Select(result => result.Text).Where(text => ShortId.TryParse(text, out _, out _)).Distinct()];
            if (found.Length > 0)
                return found;
        }

        throw new Refusal("No code of a label was found on this picture. Go nearer, hold still, let light fall from the side; or type the five letters beside the square.");
    }
}
