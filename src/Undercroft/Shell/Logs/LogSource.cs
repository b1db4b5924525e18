using System.Security.Cryptography;
using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>A logger's file, opened as often as it takes: it is never held in memory whole.</summary>
/// <param name="name">Of the file, without any folder.</param>
/// <param name="length">In bytes.</param>
/// <param name="open">Opens it from the beginning.</param>
public sealed class LogSource(string name, long length, Func<Stream> open)
{
    /// <summary>Bytes beyond which a file is not read: ten million rows of some length.</summary>
    public const long LargestFile = 1L << 30;

    /// <summary>Of the file, without any folder.</summary>
    public string Name => name;

    /// <summary>In bytes.</summary>
    public long Length => length;

    /// <summary>From the beginning.</summary>
    public Stream Open() => open();

    /// <summary>Bytes in memory.</summary>
    public static LogSource Of(string name, byte[] bytes)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        return new(name, bytes.Length, () => new MemoryStream(bytes, writable: false));
    }

    /// <summary>A file on the disk.</summary>
    /// <exception cref="Refusal">No such file, or too large a one.</exception>
    public static LogSource File(string path)
    {
        var file = new FileInfo(path);
        if (!file.Exists)
            throw new Refusal($"There is no file {path}. Name a file that exists.");
        if (file.Length > LargestFile)
            throw new Refusal($"{file.Name} is not read: it is larger than {LargestFile >> 20} MB. Split it by year.");
        return new(file.Name, file.Length, () => new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, 1, FileOptions.SequentialScan));
    }

    /// <summary>SHA-256 of the bytes, lower-case hexadecimal.</summary>
    public string Sha256()
    {
        using var stream = Open();
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }
}
