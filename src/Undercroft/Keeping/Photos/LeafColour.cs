using SkiaSharp;
using Undercroft.Ledger.Events;

namespace Undercroft.Keeping.Photos;

/// <summary>A colour as CIE 1976 L*a*b* under D65.</summary>
/// <param name="L">Lightness: 0 black, 100 white. Leaf that darkens loses it.</param>
/// <param name="A">Green (−) to red (+).</param>
/// <param name="B">Blue (−) to yellow (+).</param>
public readonly record struct CieLab(double L, double A, double B);

/// <summary>The mean colour of leaf on a picture, told against a grey card on the same picture.</summary>
/// <remarks>
/// <para><b>Equation</b> sRGB to linear light (IEC 61966-2-1); each channel times 0.18 over the card's mean in that channel; linear sRGB to XYZ; XYZ over the white of D65 to L*a*b* (CIE 15).</para>
/// <para><b>Source</b> IEC 61966-2-1:1999 and CIE 15:2004 for the formulas and constants (from memory; checked against the published colours of the sRGB primaries).</para>
/// <para><b>Valid</b> where card and leaf lie in the same light and neither is burnt out or black.</para>
/// <para><b>Error</b> a phone's own brightening is taken away by the card only as far as it is alike over the picture: compare to a few units of L*, not closer (assumption).</para>
/// <para><b>Departs</b> a card of 18 % reflectance is assumed; with another grey all values of a series shift together.</para>
/// </remarks>
public static class LeafColour
{
    private const double CardReflectance = 0.18;

    /// <summary>The colour, or null where card or leaf are burnt out or black.</summary>
    /// <param name="jpeg">A kept picture.</param>
    /// <param name="leaf">Where leaf shows.</param>
    /// <param name="card">Where the grey card shows.</param>
    public static CieLab? Of(byte[] jpeg, PhotoPatch leaf, PhotoPatch card)
    {
        ArgumentNullException.ThrowIfNull(jpeg);
        ArgumentNullException.ThrowIfNull(leaf);
        ArgumentNullException.ThrowIfNull(card);
        using var bitmap = Picture.Decoded(jpeg);
        if (Mean(bitmap, leaf) is not { } shown || Mean(bitmap, card) is not { } grey)
            return null;
        return Lab(CardReflectance * shown.R / grey.R, CardReflectance * shown.G / grey.G, CardReflectance * shown.B / grey.B);
    }

    /// <summary>A colour from linear sRGB, 1 for white.</summary>
    internal static CieLab Lab(double r, double g, double b)
    {
        var x = ((0.4124 * r) + (0.3576 * g) + (0.1805 * b)) / 0.9505;
        var y = (0.2126 * r) + (0.7152 * g) + (0.0722 * b);
        var z = ((0.0193 * r) + (0.1192 * g) + (0.9505 * b)) / 1.0890;
        var (fx, fy, fz) = (Root(x), Root(y), Root(z));
        return new((116 * fy) - 16, 500 * (fx - fy), 200 * (fy - fz));

        static double Root(double t) => t > 216.0 / 24389 ? Math.Cbrt(t) : ((24389.0 / 27 * t) + 16) / 116;
    }

    /// <summary>Linear light of an sRGB value from 0 to 1.</summary>
    internal static double Linear(double value) => value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);

    /// <summary>Mean linear light of a patch; null where more than one pixel in twenty is burnt out or black.</summary>
    private static (double R, double G, double B)? Mean(SKBitmap bitmap, PhotoPatch patch)
    {
        var (left, top) = ((int)(patch.X * bitmap.Width), (int)(patch.Y * bitmap.Height));
        var (right, bottom) = (Math.Min(bitmap.Width, Math.Max(left + 1, (int)((patch.X + patch.Width) * bitmap.Width))), Math.Min(bitmap.Height, Math.Max(top + 1, (int)((patch.Y + patch.Height) * bitmap.Height))));
        var (r, g, b, bad, count) = (0.0, 0.0, 0.0, 0, 0);
        var pixels = bitmap.GetPixelSpan();
        for (var row = top; row < bottom; row++)
        {
            for (var column = left; column < right; column++)
            {
                var at = (row * bitmap.RowBytes) + (4 * column);
                var (red, green, blue) = (pixels[at], pixels[at + 1], pixels[at + 2]);
                if (Math.Max(red, Math.Max(green, blue)) >= 254 || Math.Max(red, Math.Max(green, blue)) <= 1)
                    bad++;
                (r, g, b, count) = (r + Linear(red / 255.0), g + Linear(green / 255.0), b + Linear(blue / 255.0), count + 1);
            }
        }

        return count == 0 || bad * 20 > count || r <= 0 || g <= 0 || b <= 0 ? null : (r / count, g / count, b / count);
    }
}
