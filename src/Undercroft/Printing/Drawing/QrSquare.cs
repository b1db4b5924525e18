using QRCoder;

namespace Undercroft.Printing.Drawing;

/// <summary>A QR code as rows of dark and light modules, with its quiet zone.</summary>
internal static class QrSquare
{
    /// <summary>The code of a text. It holds the text and nothing else: no address that may die, no content that a stranger could read off a jar.</summary>
    /// <remarks>Error correction H: about 30 % of the modules may be torn or stained (ISO/IEC 18004).</remarks>
    internal static bool[][] Of(string content)
    {
        using var coder = new QRCodeGenerator();
        using var code = coder.CreateQrCode(content, QRCodeGenerator.ECCLevel.H, forceUtf8: false, utf8BOM: false);
        return [.. code.ModuleMatrix.Select(row => row.Cast<bool>().ToArray())];
    }
}
