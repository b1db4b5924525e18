using Undercroft.Ledger;

namespace Undercroft.Shell;

/// <summary>A file that a person asked for by name. It is whole or not there, and it never takes the place of a file of another kind.</summary>
public static class OutFile
{
    /// <summary>Writes it.</summary>
    /// <param name="path">Full path.</param>
    /// <param name="content">All of it; its first bytes tell its kind.</param>
    /// <param name="sign">How a file of this kind begins, such as <c>%PDF-</c>.</param>
    /// <exception cref="Refusal">The folder does not exist, or a file of another kind is there.</exception>
    public static void Write(string path, byte[] content, ReadOnlySpan<byte> sign)
    {
        ArgumentNullException.ThrowIfNull(content);
        var folder = Path.GetDirectoryName(path) ?? path;
        if (Directory.Exists(path))
            throw new Refusal($"{path} is a folder. Name a file.");
        if (!Directory.Exists(folder))
            throw new Refusal($"There is no folder {folder}. Make it first, or name another.");
        if (File.Exists(path) && !BeginsWith(path, sign))
            throw new Refusal($"{path} is there and is not a file of this kind, so it was left as it was. Name another.");
        var next = path + ".new";
        File.WriteAllBytes(next, content);
        File.Move(next, path, overwrite: true);
    }

    private static bool BeginsWith(string path, ReadOnlySpan<byte> sign)
    {
        using var file = File.OpenRead(path);
        Span<byte> first = stackalloc byte[sign.Length];
        return file.Length == 0 || (file.ReadAtLeast(first, sign.Length, throwOnEndOfStream: false) == sign.Length && first.SequenceEqual(sign));
    }
}
