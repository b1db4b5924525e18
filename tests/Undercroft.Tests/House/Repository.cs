using System.Runtime.CompilerServices;

namespace Undercroft.Tests.House;

/// <summary>Where the sources stand, for tests that read them.</summary>
internal static class Repository
{
    /// <summary>The folder that holds <c>Undercroft.slnx</c>.</summary>
    public static string Root { get; } = Find();

    /// <summary>Every C#, Razor, script and style file of our own below a folder of the repository: not what stands beside its checksums, as it came from others.</summary>
    public static IEnumerable<string> Sources(string folder) =>
        Directory.EnumerateFiles(Path.Combine(Root, folder), "*", SearchOption.AllDirectories)
            .Where(file => Path.GetExtension(file) is ".cs" or ".razor" or ".css" or ".js" && !File.Exists(Path.Combine(Path.GetDirectoryName(file)!, "SHA256SUMS")));

    private static string Find([CallerFilePath] string here = "")
    {
        foreach (var start in new[] { AppContext.BaseDirectory, Path.GetDirectoryName(here)! })
        {
            for (var folder = new DirectoryInfo(start); folder is not null; folder = folder.Parent)
            {
                if (File.Exists(Path.Combine(folder.FullName, "Undercroft.slnx")))
                    return folder.FullName;
            }
        }

        throw new InvalidOperationException("Undercroft.slnx was not found above the tests.");
    }
}
