using Microsoft.Playwright;
using Xunit;

[assembly: AssemblyFixture(typeof(Undercroft.Browser.Tests.Chromium))]

namespace Undercroft.Browser.Tests;

/// <summary>The system's own Chromium, started once for all tests. Nothing is downloaded.</summary>
public sealed class Chromium : IAsyncLifetime
{
    /// <summary>Names the browser where it is not in a usual place.</summary>
    private const string Variable = "UNDERCROFT_CHROMIUM";

    private static readonly string[] UsualPlaces = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

    // Not a limit on the program's speed, only an end to waiting for what never comes.
    internal const float Patience = 120_000;

    /// <summary>It asks nobody for anything.</summary>
    internal static readonly string[] Quiet =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ];

    private IPlaywright? playwright;
    private IBrowser? browser;

    /// <summary>Where it stands.</summary>
    internal static string Program => Environment.GetEnvironmentVariable(Variable) ?? UsualPlaces.FirstOrDefault(File.Exists)
        ?? throw new InvalidOperationException($"These tests need Chromium: install the package 'chromium', or name the program in {Variable}.");

    public async ValueTask InitializeAsync()
    {
        playwright = await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchAsync(new() { ExecutablePath = Program, Args = Quiet });
    }

    /// <summary>A page of its own, with its own cookies.</summary>
    public async Task<IPage> Open(int width, int height = 800, ColorScheme scheme = ColorScheme.Light, bool script = true)
    {
        var context = await browser!.NewContextAsync(new()
        {
            ViewportSize = new() { Width = width, Height = height },
            ColorScheme = scheme,
            JavaScriptEnabled = script,
            Locale = "en-GB",
        });
        context.SetDefaultTimeout(Patience);
        Assertions.SetDefaultExpectTimeout(Patience);
        return await context.NewPageAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null)
            await browser.DisposeAsync();
        playwright?.Dispose();
    }
}
