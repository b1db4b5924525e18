namespace Undercroft.Physics.Tests.House;

/// <summary>Where the sources lie, seen from the built tests.</summary>
internal static class Repository
{
    public static string Root { get; } = Found();

    public static string Read(params string[] parts) => File.ReadAllText(Path.Combine([Root, .. parts]));

    private static string Found()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Undercroft.slnx")))
                return folder.FullName;
        }

        throw new InvalidOperationException($"No Undercroft.slnx above {AppContext.BaseDirectory}: run the tests from a build inside the repository.");
    }
}
