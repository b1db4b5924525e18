using System.Text;
using System.Text.Unicode;
using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>How the bytes of a log are letters, and the log as UTF-8.</summary>
/// <param name="Source">The file.</param>
/// <param name="Encoding">Of the bytes.</param>
/// <param name="Word">For people.</param>
/// <param name="Mark">Bytes of the byte order mark.</param>
internal sealed record LogText(LogSource Source, Encoding Encoding, string Word, int Mark)
{
    private const int HeadLength = 1 << 16;

    /// <summary>A byte order mark decides, then the zeros of UTF-16, then whether all of it is sound UTF-8, else Windows-1252.</summary>
    /// <exception cref="Refusal">Empty, or no text at all.</exception>
    public static LogText Of(LogSource source)
    {
        var head = new byte[HeadLength];
        using var stream = source.Open();
        var span = head.AsSpan(0, stream.ReadAtLeast(head, HeadLength, throwOnEndOfStream: false));
        if (span.IndexOfAnyExcept((byte)0, (byte)' ', (byte)'\n') < 0 && source.Length <= HeadLength)
            throw new Refusal($"{source.Name} is empty: there is nothing to import. Export the log again.");
        if (span.StartsWith<byte>([0xEF, 0xBB, 0xBF]))
            return new(source, Encoding.UTF8, "UTF-8", 3);
        if (span.StartsWith<byte>([0xFF, 0xFE]))
            return new(source, Encoding.Unicode, "UTF-16", 2);
        if (span.StartsWith<byte>([0xFE, 0xFF]))
            return new(source, Encoding.BigEndianUnicode, "UTF-16", 2);
        RefuseForeign(span, source.Name);
        int even = 0, odd = 0;
        for (var i = 0; i + 1 < span.Length; i += 2)
        {
            even += span[i] == 0 ? 1 : 0;
            odd += span[i + 1] == 0 ? 1 : 0;
        }

        var pairs = Math.Max(1, span.Length / 2);
        if (odd > 0.4 * pairs && even < 0.1 * pairs)
            return new(source, Encoding.Unicode, "UTF-16", 0);
        if (even > 0.4 * pairs && odd < 0.1 * pairs)
            return new(source, Encoding.BigEndianUnicode, "UTF-16", 0);
        return IsUtf8(source) ? new(source, Encoding.UTF8, "UTF-8", 0) : new(source, CodePagesEncodingProvider.Instance.GetEncoding(1252)!, "Windows-1252", 0);
    }

    /// <summary>The text as UTF-8, from the beginning.</summary>
    public LineReader Lines()
    {
        var stream = Source.Open();
        stream.ReadExactly(new byte[Mark]);
        return new(ReferenceEquals(Encoding, Encoding.UTF8) ? stream : Encoding.CreateTranscodingStream(stream, Encoding, Encoding.UTF8), Source.Name);
    }

    private static bool IsUtf8(LogSource source)
    {
        using var stream = source.Open();
        var buffer = new byte[1 << 18];
        var kept = 0;
        while (true)
        {
            var read = stream.ReadAtLeast(buffer.AsSpan(kept), buffer.Length - kept, throwOnEndOfStream: false);
            var filled = kept + read;
            var whole = filled < buffer.Length ? filled : Boundary(buffer.AsSpan(0, filled));
            if (!Utf8.IsValid(buffer.AsSpan(0, whole)))
                return false;
            if (filled < buffer.Length)
                return true;
            buffer.AsSpan(whole, filled - whole).CopyTo(buffer);
            kept = filled - whole;
        }
    }

    // Where the last letter begins, since it may be cut in two.
    private static int Boundary(ReadOnlySpan<byte> span)
    {
        for (var back = 1; back <= 4; back++)
        {
            if ((span[^back] & 0xC0) != 0x80)
                return span.Length - back;
        }

        return span.Length;
    }

    private static void RefuseForeign(ReadOnlySpan<byte> span, string name)
    {
        var what = span.StartsWith("%PDF"u8) ? "a PDF document"
            : span.StartsWith<byte>([0xD0, 0xCF, 0x11, 0xE0]) ? "an old workbook (.xls)"
            : span.StartsWith<byte>([0x89, 0x50, 0x4E, 0x47]) || span.StartsWith<byte>([0xFF, 0xD8, 0xFF]) || span.StartsWith("GIF8"u8) ? "a picture"
            : span.StartsWith("SQLite format 3\0"u8) ? "a database"
            : span.StartsWith<byte>([0x1F, 0x8B]) || span.StartsWith("PK\u0003\u0004"u8) ? "a packed archive"
            : LooksMarkedUp(span) ? "a web page or another marked-up document" : null;
        if (what is not null)
            throw new Refusal($"{name} is {what} and not a log that can be read. Export the log as text (.csv) or as a workbook (.xlsx).");
    }

    private static bool LooksMarkedUp(ReadOnlySpan<byte> span)
    {
        var text = span.TrimStart(" \t\r\n"u8);
        return text.Length > 1 && text[0] == '<' && (char.IsAsciiLetter((char)text[1]) || text[1] is (byte)'!' or (byte)'?');
    }
}

/// <summary>Lines of UTF-8 text, one at a time, ended by line feed, carriage return or both.</summary>
internal sealed class LineReader(Stream stream, string name) : IDisposable
{
    private const int LongestLine = 1 << 20;
    private byte[] buffer = new byte[1 << 18];
    private int start;
    private int end;
    private bool ended;
    private bool afterReturn;

    /// <summary>The next line; it is gone with the next call.</summary>
    public bool Next(out ReadOnlySpan<byte> line)
    {
        while (true)
        {
            var rest = buffer.AsSpan(start, end - start);
            if (afterReturn && rest.Length > 0)
            {
                afterReturn = false;
                if (rest[0] == '\n')
                {
                    start++;
                    continue;
                }
            }

            var at = rest.IndexOfAny((byte)'\n', (byte)'\r');
            if (at >= 0)
            {
                afterReturn = rest[at] == '\r';
                start += at + 1;
                line = rest[..at];
                return true;
            }

            if (ended)
            {
                line = rest;
                start = end;
                return rest.Length > 0;
            }

            Fill();
        }
    }

    /// <summary>Closes the file.</summary>
    public void Dispose() => stream.Dispose();

    private void Fill()
    {
        if (start > 0)
        {
            buffer.AsSpan(start, end - start).CopyTo(buffer);
            end -= start;
            start = 0;
        }

        if (end > LongestLine)
            throw new Refusal($"{name} has a line of more than {LongestLine >> 20} MB: no logger writes that. Export the log as text with one reading a row.");
        if (end == buffer.Length)
            Array.Resize(ref buffer, 2 * buffer.Length);
        var read = stream.Read(buffer, end, buffer.Length - end);
        ended = read == 0;
        end += read;
    }
}
