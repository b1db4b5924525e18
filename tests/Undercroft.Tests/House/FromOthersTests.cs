using System.Security.Cryptography;
using Xunit;

namespace Undercroft.Tests.House;

/// <summary>Fonts and scripts of others stand as they came, with their licence and checksums beside them.</summary>
public sealed class FromOthersTests
{
    public static TheoryData<string> Folders =>
        [.. Directory.GetFiles(Path.Combine(Repository.Root, "src"), "SHA256SUMS", SearchOption.AllDirectories).Where(file => !file.Contains("/obj/", StringComparison.Ordinal)).Select(file => Path.GetRelativePath(Repository.Root, Path.GetDirectoryName(file)!))];

    [Theory]
    [MemberData(nameof(Folders))]
    public void Files_are_those_whose_checksums_stand_beside_them(string folder)
    {
        var full = Path.Combine(Repository.Root, folder);
        Assert.Matches("SIL OPEN FONT LICENSE Version 1.1|The MIT License", File.ReadAllText(Path.Combine(full, "LICENSE.txt")));
        string[] found =
        [
            .. Directory.GetFiles(full).Where(file => Path.GetFileName(file) is not ("LICENSE.txt" or "SHA256SUMS")).Order(StringComparer.Ordinal)
                .Select(file => $"{Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(file)))}  {Path.GetFileName(file)}"),
        ];
        Assert.NotEmpty(found);
        Assert.Equal(File.ReadAllLines(Path.Combine(full, "SHA256SUMS")), found);
    }

    [Fact]
    public void The_fonts_of_paper_and_the_reader_of_codes_are_among_them()
    {
        var folders = Folders.Select(row => row.Data).ToArray();
        Assert.Contains("src/Undercroft/Printing/Fonts", folders);
        Assert.Contains("src/Undercroft/wwwroot/qr", folders);
    }
}
