using System.Security.Cryptography;
using System.Text;

namespace Undercroft.Access;

/// <summary>Secrets that programs and browsers carry: long, random, and kept here as digests only.</summary>
internal static class Secrets
{
    private const string Letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"; // Crockford's base 32: nothing that is misread
    private const int TokenLetters = 32; // 160 bits
    private const int CodeLetters = 8; // 40 bits, typed by hand; good for ten minutes and once

    /// <summary>A secret of 160 random bits.</summary>
    internal static string Token() => "uc_" + RandomNumberGenerator.GetString(Letters, TokenLetters).ToLowerInvariant();

    /// <summary>A code of 40 random bits for typing, such as <c>7K2M-QW9D</c>.</summary>
    internal static string Code() => RandomNumberGenerator.GetString(Letters, CodeLetters).Insert(CodeLetters / 2, "-");

    /// <summary>A code as typed: case, gaps and letters that look alike do not matter.</summary>
    internal static string Read(string typed) => new([.. typed.ToUpperInvariant().Where(char.IsAsciiLetterOrDigit).Select(letter => letter switch
    {
        'O' => '0',
        'I' or 'L' => '1',
        _ => letter,
    })]);

    /// <summary>What is kept of a secret: of 160 random bits a plain digest gives nothing away.</summary>
    internal static string Digest(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));

    /// <summary>A short name for a row, to revoke it by.</summary>
    internal static string Id() => RandomNumberGenerator.GetString(Letters, 6);
}
