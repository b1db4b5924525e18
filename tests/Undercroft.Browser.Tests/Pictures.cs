using Microsoft.Playwright;

namespace Undercroft.Browser.Tests;

/// <summary>Pictures of pages: those of the documentation, and every page for whoever wants to look. Both only when asked for, so that a test run changes nothing.</summary>
internal static class Pictures
{
    /// <summary>Set to 1 to write the pictures of the documentation anew.</summary>
    private const string ForDocs = "UNDERCROFT_PICTURES";

    /// <summary>Set to a folder to see every page that the tests see.</summary>
    private const string ForEyes = "UNDERCROFT_LOOK";

    internal static async Task Take(IPage page, int width, string name)
    {
        if (width < 1000 || Environment.GetEnvironmentVariable(ForDocs) != "1")
            return;
        await page.SetViewportSizeAsync(760, 520);
        await Keep(await page.ScreenshotAsync(), "pictures", name);
        await page.SetViewportSizeAsync(width, 900);
    }

    /// <summary>Puts a picture among those of the documentation.</summary>
    internal static async Task Keep(byte[] picture, string place, string name)
    {
        if (Environment.GetEnvironmentVariable(ForDocs) == "1")
            await File.WriteAllBytesAsync(Path.Combine(Repository(), "docs", place, name), picture);
    }

    internal static async Task Look(IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable(ForEyes) is { Length: > 0 } folder)
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true });
    }

    private static string Repository()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Undercroft.slnx")))
            folder = folder.Parent ?? throw new InvalidOperationException("The repository was not found above the tests.");
        return folder.FullName;
    }
}
