using System.Buffers;
using System.Security.Cryptography;
using System.Text;

namespace Undercroft.Ledger.Sqlite;

/// <summary>
/// The chain that seals the order and the content of a ledger: the digest of an event is the SHA-256, in lower-case hexadecimal, of the digest before it, a line end, the
/// event's line, and a line end. The digest before the first is empty.
/// </summary>
/// <remarks>Anybody can follow it with common tools: <c>printf '%s\n%s\n' "$before" "$line" | sha256sum</c>.</remarks>
public static class LedgerDigest
{
    /// <summary>Before the first event.</summary>
    public const string Start = "";

    /// <summary>The digest after one more line.</summary>
    public static string After(string before, string line) => After(before, Encoding.UTF8.GetBytes(line));

    /// <summary>The digest after one more line in UTF-8.</summary>
    public static string After(string before, ReadOnlySpan<byte> line)
    {
        ArgumentNullException.ThrowIfNull(before);
        var sealing = ArrayPool<byte>.Shared.Rent(before.Length + line.Length + 2);
        try
        {
            var at = Encoding.ASCII.GetBytes(before, sealing);
            sealing[at++] = (byte)'\n';
            line.CopyTo(sealing.AsSpan(at));
            at += line.Length;
            sealing[at++] = (byte)'\n';
            Span<byte> digest = stackalloc byte[SHA256.HashSizeInBytes];
            SHA256.HashData(sealing.AsSpan(0, at), digest);
            return Convert.ToHexStringLower(digest);
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(sealing);
        }
    }
}
