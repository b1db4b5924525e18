using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.House;

public sealed class LayoutTests
{
    private const int LongestFile = 400;

    [Fact]
    public void Physics_references_only_the_base_class_library() => Assert.All(
        typeof(Temperature).Assembly.GetReferencedAssemblies(),
        reference => Assert.StartsWith("System.", reference.Name, StringComparison.Ordinal));

    [Theory]
    [InlineData("src")]
    [InlineData("tests")]
    public void No_source_file_is_longer_than_400_lines(string folder)
    {
        var files = Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*", SearchOption.AllDirectories)
            .Where(file => Path.GetExtension(file) is ".cs" or ".razor" && !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
            .ToList();
        Assert.NotEmpty(files);
        Assert.All(files, file => Assert.True(
            File.ReadLines(file).Count() <= LongestFile, $"{Path.GetRelativePath(Repository.Root, file)} is longer than {LongestFile} lines."));
    }
}
