using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Browser.Tests;

/// <summary>Water by weight with a phone of 360 by 740 beside the scale, without script: plan, add, weigh, write down, and what it comes to.</summary>
public sealed partial class WaterVisitTests(Chromium chromium) : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("undercroft-water").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Dry_leaf_is_brought_up_by_weight_and_ends_in_a_measured_state()
    {
        var added = await BuiltProgram.Run("add", "--data", folder, "--blend", "Evening ribbon", "--leaf", "burley", "--net", "50g", "--gross", "350g", "--container", "jar-237", "--sealed", "2026-01-05", "--json", "--today", "2026-05-16");
        Assert.True(added.ExitCode == 0, added.Error);
        var id = JsonDocument.Parse(added.Out).RootElement.GetProperty("ids")[0].GetString()!;
        await using var program = await BuiltProgram.Serve(folder, "--today", "2026-05-16");
        var page = await chromium.Open(360, 740, script: false);
        await page.GotoAsync($"{program.Address}packages/{id}/water");
        await page.GetByLabel("Moisture now").FillAsync("10%");
        await page.GetByLabel("Wanted moisture").FillAsync("14%");
        await page.GetByRole(AriaRole.Button, new() { Name = "Plan again" }).ClickAsync();

        // 50 g from 10 to 14 %: 50·0.04/0.86 = 2.3 g; half of it first, which cannot overshoot.
        await Assertions.Expect(page.Locator(".verdict")).ToContainTextAsync("2.3 g");
        await Assertions.Expect(page.Locator(".verdict")).ToContainTextAsync("give 1.2 g first");
        foreach (var heading in new[] { "How", "Stop when, whichever comes first,", "Weigh again" })
            await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = heading })).ToBeVisibleAsync();
        Assert.True(await page.Locator(".note.caution").CountAsync() > 0);
        await Pictures.Look(page, "phone-water-plan");
        await Measures.NoSidewaysScroll(page);
        await Measures.GenerousTargets(page);

        await page.GetByLabel("The scale showed before").FillAsync("350g");
        await page.GetByLabel("and afterwards").FillAsync("351.2g");
        await page.GetByLabel("Humidity inside, afterwards").FillAsync("58%");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write down the step" }).ClickAsync();
        await Assertions.Expect(page.Locator(".note.done")).ToBeVisibleAsync();
        await Pictures.Look(page, "phone-water-done");
        await Measures.NoSidewaysScroll(page);
        var history = (await BuiltProgram.Run("history", id, "--data", folder, "--json")).Out;
        Assert.Contains("351.2 g", history, StringComparison.Ordinal);
        Assert.Contains("58", history, StringComparison.Ordinal);

        // From the measured state the next step starts, and says what the scale will show at its end: between what it shows now and 51.2·0.02/0.86 = 1.2 g more.
        await page.GotoAsync($"{program.Address}packages/{id}/water?From=12%25&To=14%25");
        var stop = EndsAt().Match(await page.Locator("h2:has-text('How') + ol").InnerTextAsync());
        Assert.True(stop.Success);
        Assert.InRange(double.Parse(stop.Groups[1].Value, CultureInfo.InvariantCulture), 351.3, 352.4);
        await Pictures.Look(page, "phone-water-next");
    }

    [GeneratedRegex(@"If it shows 351\.2 g as last time, this step ends at ([0-9]+\.[0-9]) g")]
    private static partial Regex EndsAt();
}
