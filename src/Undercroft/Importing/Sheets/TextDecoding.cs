using System.Text;
using Undercroft.Ledger;

namespace Undercroft.Importing.Sheets;

/// <summary>Bytes of a text file become characters: a byte order mark decides, else strict UTF-8, else UTF-16 by its zeros, else the older encoding that fits best.</summary>
internal static class TextDecoding
{
    private const string Wide = "The file does not say how its letters are stored; UTF-16 fits.";

    /// <summary>The text, the name of the encoding, and what a person should know where it was guessed; null where the bytes say it.</summary>
    /// <exception cref="Refusal">The bytes are no text in any of the encodings.</exception>
    public static (string Text, string Encoding, string? Guess) Decode(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith(new byte[] { 0xEF, 0xBB, 0xBF }))
            return (Sound(Strict(new UTF8Encoding(false, true), bytes[3..]) ?? new UTF8Encoding(false).GetString(bytes[3..])), "UTF-8", null);
        if (bytes.StartsWith(new byte[] { 0xFF, 0xFE }))
            return (Sound(Encoding.Unicode.GetString(bytes[2..])), "UTF-16", null);
        if (bytes.StartsWith(new byte[] { 0xFE, 0xFF }))
            return (Sound(Encoding.BigEndianUnicode.GetString(bytes[2..])), "UTF-16", null);
        var (even, odd) = Zeros(bytes);
        if (odd > 0.3 && even < 0.05)
            return (Sound(Encoding.Unicode.GetString(bytes)), "UTF-16", Wide);
        if (even > 0.3 && odd < 0.05)
            return (Sound(Encoding.BigEndianUnicode.GetString(bytes)), "UTF-16", Wide);
        if (Strict(new UTF8Encoding(false, true), bytes) is { } utf8)
            return (Sound(utf8), "UTF-8", null);
        var (text, encoding, other) = CodePages.Decode(bytes);
        return (Sound(text), encoding, $"The file does not say how its letters are stored; {encoding} fits. Look at the accented letters."
            + (other is null ? "" : $" So does {other}: if that is right, say that it is to be read so."));
    }

    /// <summary>Names of encodings that may be said, those that are never guessed last.</summary>
    public static IReadOnlyList<string> Names { get; } = ["UTF-8", "UTF-16", "UTF-16BE", .. CodePages.Names];

    /// <summary>An encoding by its name, however its marks and letters are written; null where there is none.</summary>
    public static string? Find(string name)
    {
        static string Plain(string text) => string.Concat(text.Where(char.IsLetterOrDigit)).ToUpperInvariant();
        var wanted = Plain(name);
        return Names.FirstOrDefault(known => Plain(known) == wanted || (CodePages.NumberOf(known) is { } number && wanted == string.Create(System.Globalization.CultureInfo.InvariantCulture, $"CP{number}")))
            ?? (wanted is "LATIN1" or "ISO88591" or "ANSI" ? "Windows-1252" : null);
    }

    /// <summary>The text in an encoding that a person named.</summary>
    /// <exception cref="Refusal">The bytes are no text in it.</exception>
    public static string As(ReadOnlySpan<byte> bytes, string name)
    {
        var encoding = Find(name) ?? throw new Refusal($"No encoding is called '{name}'. Known ones: {string.Join(", ", Names)}.");
        try
        {
            return Sound(encoding switch
            {
                "UTF-8" => new UTF8Encoding(false).GetString(bytes.StartsWith(new byte[] { 0xEF, 0xBB, 0xBF }) ? bytes[3..] : bytes),
                "UTF-16" => Encoding.Unicode.GetString(bytes.StartsWith(new byte[] { 0xFF, 0xFE }) ? bytes[2..] : bytes),
                "UTF-16BE" => Encoding.BigEndianUnicode.GetString(bytes.StartsWith(new byte[] { 0xFE, 0xFF }) ? bytes[2..] : bytes),
                _ => CodePages.Text(encoding, bytes),
            });
        }
        catch (Refusal)
        {
            throw new Refusal($"The file is not text in {encoding}. Leave the encoding to be guessed, or name another one: {string.Join(", ", Names)}.");
        }
    }

    private static string? Strict(UTF8Encoding encoding, ReadOnlySpan<byte> bytes)
    {
        try
        {
            return encoding.GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            return null;
        }
    }

    private static (double Even, double Odd) Zeros(ReadOnlySpan<byte> bytes)
    {
        var sample = bytes[..(Math.Min(bytes.Length, 4096) & ~1)];
        int even = 0, odd = 0;
        for (var i = 0; i < sample.Length; i += 2)
        {
            even += sample[i] == 0 ? 1 : 0;
            odd += sample[i + 1] == 0 ? 1 : 0;
        }

        var pairs = Math.Max(1, sample.Length / 2);
        return ((double)even / pairs, (double)odd / pairs);
    }

    private static string Sound(string text)
    {
        int control = 0, broken = 0;
        foreach (var character in text)
        {
            if (character < ' ' && character is not ('\t' or '\r' or '\n' or '\f' or '\v' or '\u001F' or '\u001E' or '\u0001') || character is >= '\u007F' and < '\u00A0')
                control++;
            else if (character is '\uFFFD' or '\uFFFF')
                broken++;
        }

        if (control * 200 > text.Length || broken * 20 > text.Length)
            throw new Refusal("The file is not text that can be read, and not a workbook either: it is not a sheet. Choose a .csv or .xlsx file.");
        return text.Replace("\0", "", StringComparison.Ordinal);
    }
}
