using Microsoft.Playwright;

namespace Undercroft.Browser.Tests;

/// <summary>A browser of its own with a profile that stays, as a phone has it: what a window for guests forbids, such as installing a page, it allows.</summary>
internal sealed class Phone : IAsyncDisposable
{
    private readonly IPlaywright playwright;
    private readonly IBrowserContext context;

    private Phone(IPlaywright playwright, IBrowserContext context)
    {
        this.playwright = playwright;
        this.context = context;
    }

    /// <summary>Its first page.</summary>
    internal IPage Page => context.Pages[0];

    /// <summary>Starts it.</summary>
    /// <param name="folder">The profile is made in it.</param>
    /// <param name="more">What this browser is told beside the usual.</param>
    internal static async Task<Phone> Open(string folder, params string[] more)
    {
        var playwright = await Playwright.CreateAsync();
        var context = await playwright.Chromium.LaunchPersistentContextAsync(Path.Combine(folder, "profile"), new()
        {
            ExecutablePath = Chromium.Program,
            Args = [.. Chromium.Quiet, .. more],
            ViewportSize = new() { Width = 360, Height = 740 },
            IgnoreHTTPSErrors = !more.Any(word => word.StartsWith("--ignore-certificate", StringComparison.Ordinal)),
            Permissions = ["camera"],
            Locale = "en-GB",
        });
        context.SetDefaultTimeout(Chromium.Patience);
        Assertions.SetDefaultExpectTimeout(Chromium.Patience);
        return new(playwright, context);
    }

    public async ValueTask DisposeAsync()
    {
        await context.CloseAsync();
        playwright.Dispose();
    }
}
