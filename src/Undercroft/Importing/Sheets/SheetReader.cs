using System.Text;
using System.Xml;
using Undercroft.Ledger;

namespace Undercroft.Importing.Sheets;

/// <summary>Bytes of a file become sheets of rows of cells. What a file is, is judged by its content, never by its name.</summary>
public static class SheetReader
{
    private const string WhatToDo = "Save it as a workbook (.xlsx) or as text separated by commas or semicolons (.csv) and try again.";

    /// <summary>Reads a text file with separators or a workbook.</summary>
    /// <param name="bytes">The whole file.</param>
    /// <param name="limits">Bounds; the standard ones where none are given.</param>
    /// <param name="encoding">How a text file stores its letters, where a person said so; else it is guessed.</param>
    /// <param name="clocks">True to keep the time of day of a date and to show a stored time of day as one.</param>
    /// <exception cref="Refusal">The file is no sheet, is damaged, is locked by a password or goes over a limit. Nothing else is thrown, whatever the bytes.</exception>
    public static SheetFile Read(ReadOnlyMemory<byte> bytes, SheetLimits? limits = null, bool clocks = false, string? encoding = null)
    {
        var bounds = limits ?? SheetLimits.Standard;
        if (bytes.Length > bounds.Bytes)
            throw new Refusal($"The file has {bytes.Length >> 20} MB and at most {bounds.Bytes >> 20} MB are read. Split it into several files.");
        var span = bytes.Span;
        if (span.IndexOfAnyExcept((byte)0, (byte)' ', (byte)'\n') < 0)
            throw new Refusal("The file is empty: there is nothing to import. Check that the right file was chosen.");
        RefuseForeign(span);
        try
        {
            return StartsWith(span, "PK\u0003\u0004"u8) || StartsWith(span, "PK\u0005\u0006"u8)
                ? WorkbookReader.Read(bytes, bounds, clocks)
                : TextSheetReader.Read(bytes, bounds, encoding);
        }
        catch (Exception error) when (error is InvalidDataException or XmlException or IOException or FormatException or ArgumentException
            or NotSupportedException or OverflowException or IndexOutOfRangeException)
        {
            throw new Refusal($"The workbook is damaged or cut short and cannot be read to its end. Nothing was imported. Open it in a spreadsheet program, save it again and try once more.");
        }
    }

    private static void RefuseForeign(ReadOnlySpan<byte> span)
    {
        if (StartsWith(span, [0xD0, 0xCF, 0x11, 0xE0]))
        {
            var locked = span.IndexOf(Encoding.Unicode.GetBytes("EncryptedPackage")) >= 0 || span.IndexOf(Encoding.Unicode.GetBytes("EncryptionInfo")) >= 0;
            throw new Refusal(locked
                ? "The workbook is locked with a password and cannot be read. Open it in a spreadsheet program, take the password off, save a copy and import the copy."
                : $"This is an old workbook (.xls), which is not read. {WhatToDo}");
        }

        var what = Foreign(span);
        if (what is not null)
            throw new Refusal($"The file is {what} and not a sheet. {WhatToDo}");
    }

    private static string? Foreign(ReadOnlySpan<byte> span)
    {
        if (StartsWith(span, "%PDF"u8))
            return "a PDF document";
        if (StartsWith(span, [0x89, 0x50, 0x4E, 0x47]) || StartsWith(span, [0xFF, 0xD8, 0xFF]) || StartsWith(span, "GIF8"u8)
            || StartsWith(span, "RIFF"u8) || StartsWith(span, "II*\0"u8) || StartsWith(span, "MM\0*"u8) || StartsWith(span, "BM6"u8))
            return "a picture or recording";
        if (StartsWith(span, "SQLite format 3\0"u8))
            return "a database";
        if (StartsWith(span, [0x1F, 0x8B]) || StartsWith(span, "Rar!"u8) || StartsWith(span, [0x37, 0x7A, 0xBC, 0xAF]) || StartsWith(span, [0xFD, 0x37, 0x7A, 0x58]))
            return "a packed archive";
        if (StartsWith(span, [0x7F, 0x45, 0x4C, 0x46]) || (StartsWith(span, "MZ"u8) && span.IndexOf((byte)0) >= 0))
            return "a program";
        if (StartsWith(span, @"{\rtf"u8))
            return "a text document";
        var head = Encoding.Latin1.GetString(span[..Math.Min(span.Length, 512)]).TrimStart('\u00EF', '\u00BB', '\u00BF', ' ', '\t', '\r', '\n');
        if (head.StartsWith("<!doctype", StringComparison.OrdinalIgnoreCase) || head.StartsWith("<html", StringComparison.OrdinalIgnoreCase)
            || head.StartsWith("<table", StringComparison.OrdinalIgnoreCase) || head.StartsWith("<?xml", StringComparison.OrdinalIgnoreCase))
            return "a web page or another marked-up document";
        return null;
    }

    private static bool StartsWith(ReadOnlySpan<byte> span, ReadOnlySpan<byte> mark) => span.StartsWith(mark);
}
