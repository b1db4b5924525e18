using System.Text.Json;
using Microsoft.Playwright;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Browser.Tests;

/// <summary>An evening at the desk: what if, the map, and names that would do harm, in a real browser without script.</summary>
public sealed class DeskVisitTests(Chromium chromium) : IDisposable
{
    private const string Hostile = "<img src=x onerror=document.title='owned'>\"'></option><script>document.title='owned'</script>";
    private readonly string folder = Path.Combine(Path.GetTempPath(), "undercroft-desk-" + Guid.NewGuid().ToString("N"));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData(360)]
    [InlineData(1280)]
    public async Task What_if_is_answered_beside_what_is_and_the_map_leads_to_the_jar(int width)
    {
        await Added("Evening ribbon", "closet");
        await using var program = await BuiltProgram.Serve(folder);
        var page = await chromium.Open(width, 900, script: false);
        await page.GotoAsync(program.Address + "map");
        await Measured(page, $"map-{width}");
        await page.Locator("main a[href^='/packages/']").First.ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync("Evening ribbon");
        await page.GetByLabel("Packed today into").SelectOptionAsync("bag-zip");
        await page.GetByLabel("From today on").SelectOptionAsync("monthly");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show what then" }).ClickAsync();
        await Assertions.Expect(page.Locator("#what-if .verdict")).Not.ToBeEmptyAsync();
        await Assertions.Expect(page.Locator("#what-if table.stack")).ToContainTextAsync("opened for a moment once a month");
        await Assertions.Expect(page.GetByLabel("From today on")).ToHaveValueAsync("monthly");
        await Measured(page, $"what-if-{width}");
        await page.GoBackAsync();
        await Assertions.Expect(page.Locator("#what-if .verdict")).ToHaveCountAsync(0);
    }

    /// <summary>With script allowed, so that a hole would show: every page is opened in a cellar whose names are markup.</summary>
    [Theory]
    [InlineData(360)]
    [InlineData(1280)]
    public async Task Names_that_are_markup_stay_names_on_every_page(int width)
    {
        await Added(Hostile, Hostile.Replace("/", "", StringComparison.Ordinal).Replace(">", "", StringComparison.Ordinal));
        await Added(Hostile, "closet");
        var shown = JsonDocument.Parse((await BuiltProgram.Run("show", "--data", folder, "--json")).Out).RootElement;
        await using var program = await BuiltProgram.Serve(folder);
        var page = await chromium.Open(width, 900, script: true);
        List<string> complaints = [];
        page.Console += (_, message) => complaints.Add($"{page.Url}: {message.Text}");
        foreach (var path in EveryPage.In(shown, shown.GetProperty("packages")[0].GetProperty("id").GetString()!).Where((_, n) => width < 1000 || n % 4 == 0))
        {
            await page.GotoAsync(program.Address + path);
            Assert.NotEqual("owned", await page.TitleAsync()); // what the markup would set; the name itself may stand in a title
            Assert.Equal(0, await page.Locator("main img[src='x'], main script:not([src])").CountAsync());
            if (await Measures.TooWide(page) is { } tooWide)
                complaints.Add(tooWide);
        }

        Assert.All(complaints, complaint => Assert.Matches("status of (404|422)", complaint));
    }

    private async Task Added(string blend, string place)
    {
        var added = await BuiltProgram.Run("add", "--data", folder, "--blend=" + blend, "--container", "jar-237", "--net", "50g", "--sealed", "2023", "--place=" + place);
        Assert.True(added.ExitCode == 0, added.Error);
    }

    private static async Task Measured(IPage page, string name)
    {
        await Pictures.Look(page, name);
        await Measures.NoSidewaysScroll(page);
        await Measures.GenerousTargets(page);
    }
}
