using System.Text.Json;
using Microsoft.Playwright;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Browser.Tests;

/// <summary>Before the shelf with a phone of 360 by 740, in a real browser, against the program as it was built.</summary>
public sealed class RoundVisitTests(Chromium chromium) : IDisposable
{
    private readonly string folder = Path.Combine(Path.GetTempPath(), "undercroft-round-" + Guid.NewGuid().ToString("N"));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_round_without_script_with_a_weight_a_picture_an_undo_and_an_exception()
    {
        await using var program = await Cellar();
        var page = await chromium.Open(360, 740, script: false);
        List<string> complaints = [];
        page.Console += (_, message) => complaints.Add(message.Text);

        await page.GotoAsync(program.Address + "round");
        await Measured(page, "round");
        await page.GetByRole(AriaRole.Link, new() { Name = "Begin the round" }).ClickAsync();
        await Measured(page, "round-stop");
        await Assertions.Expect(page.GetByText("1 of 3")).ToBeVisibleAsync();
        // The button for the thumb is on the first screen.
        var well = await page.GetByRole(AriaRole.Button, new() { Name = "All is well, next" }).BoundingBoxAsync();
        Assert.True(well!.Y + well.Height < 740 && well.Width > 300, $"{well.Y} {well.Width}");
        await page.GetByLabel("Whole, g").FillAsync("301,5");
        await page.GetByLabel("rust", new() { Exact = true }).CheckAsync();
        await page.GetByLabel("Whole, g").PressAsync("Enter"); // must not say that all is well
        await Assertions.Expect(page.Locator(".note.done")).ToContainTextAsync("301.5 g");
        await Assertions.Expect(page.GetByText("2 of 3")).ToBeVisibleAsync();
        await Measured(page, "round-next");
        await page.Locator(".note.done").GetByRole(AriaRole.Button, new() { Name = "Take it back" }).ClickAsync();

        await page.GotoAsync(program.Address + "round");
        await page.GetByRole(AriaRole.Link, new() { Name = "Begin the round" }).ClickAsync();
        await page.GetByLabel("A picture").SetInputFilesAsync(new FilePayload { Name = "jar.jpg", MimeType = "image/jpeg", Buffer = await page.ScreenshotAsync(new() { Type = ScreenshotType.Jpeg }) });
        await page.GetByRole(AriaRole.Button, new() { Name = "All is well, next" }).ClickAsync();
        await Assertions.Expect(page.Locator(".note.done")).ToContainTextAsync("all well");

        await page.GotoAsync(program.Address + "round");
        await page.GetByText("All fine on this shelf").First.ClickAsync();
        await Measured(page, "round-shelf");
        await page.GetByLabel("all but").First.CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "All others are fine" }).ClickAsync();
        await Assertions.Expect(page.Locator(".note.done, .note.refused").First).ToBeVisibleAsync();

        var shown = JsonDocument.Parse((await BuiltProgram.Run("show", "--data", folder, "--json")).Out).RootElement.GetProperty("packages");
        var id = shown[0].GetProperty("id").GetString()!;
        await page.GotoAsync(program.Address + "round/find");
        await page.GetByLabel("Its code").FillAsync(id.ToLowerInvariant());
        await page.GetByRole(AriaRole.Button, new() { Name = "Find it" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading)).ToContainTextAsync(id);
        foreach (var path in (string[])["round/find", "round/paper", "trouble", "trouble/mould", "trouble/mould?A=yes", "trouble/unknown", "trouble/unknown?Container=jar-237", "calendar", "print", $"packages/{id}/water", $"packages/{id}/photos"])
        {
            await page.GotoAsync(program.Address + path);
            await Measured(page, path.Split('?')[0].Replace('/', '-') + (path.Contains('?', StringComparison.Ordinal) ? "-answer" : ""));
        }

        Assert.All(complaints, complaint => Assert.Contains("status of 422", complaint, StringComparison.Ordinal));
    }

    /// <summary>A label, printed and shown to the browser as a picture, is found by the server: neither script nor a secure connection is needed.</summary>
    [Fact]
    public async Task A_label_is_found_by_a_picture_of_it()
    {
        await using var program = await Cellar();
        var page = await chromium.Open(360, 740, script: false);
        var file = Path.Combine(folder, "..", Path.GetFileName(folder) + ".pdf");
        try
        {
            var printed = await BuiltProgram.Run("print", "labels", "--parts", "body", "--data", folder, "--out", file);
            Assert.True(printed.ExitCode == 0, printed.Error);
            var picture = await Drawn(file);
            await page.GotoAsync(program.Address + "round/find");
            await page.GetByLabel("or a picture of its square").SetInputFilesAsync(new FilePayload { Name = "label.png", MimeType = "image/png", Buffer = picture });
            await page.GetByRole(AriaRole.Button, new() { Name = "Find it" }).ClickAsync();
            await Assertions.Expect(page.GetByText("1 of 3")).ToBeVisibleAsync(); // all three labels are on the picture
        }
        finally
        {
            File.Delete(file);
        }
    }

    /// <summary>The server is stopped in mid-round; the page is opened anew without it, written on, and sends when it is back, once.</summary>
    [Fact]
    public async Task The_round_goes_on_without_signal_and_is_sent_once()
    {
        var program = await Cellar();
        var address = program.Address;
        var page = await chromium.Open(360, 740);
        List<string> faults = [];
        page.PageError += (_, fault) => faults.Add(fault);
        await page.GotoAsync(address + "round/away?Minutes=60");
        await page.Locator("#away[data-ready=yes]").WaitForAsync();
        await Assertions.Expect(page.Locator("#kept")).ToContainTextAsync("opens without signal");
        await Measured(page, "away");
        await page.Locator("#gross").FillAsync("300");
        await page.RunAndWaitForResponseAsync(() => page.Locator("#well").ClickAsync(), answer => answer.Url.EndsWith("/round/entries", StringComparison.Ordinal));
        await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("Everything is sent.");

        await program.DisposeAsync();
        await page.ReloadAsync();
        await page.Locator("#away[data-ready=yes]").WaitForAsync();
        await Assertions.Expect(page.Locator("#signal")).ToContainTextAsync("No signal");
        await page.Locator("#skip").ClickAsync();
        await page.GetByLabel("rust", new() { Exact = true }).CheckAsync();
        await page.Locator("#gross").FillAsync("310.5");
        await page.Locator("#gross").PressAsync("Enter");
        await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("1 not yet sent.");
        await page.Locator("#well").ClickAsync();
        await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("2 not yet sent.");
        await page.Locator("#back").ClickAsync();
        await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("1 not yet sent.");
        await page.Locator("#well").ClickAsync();
        await Assertions.Expect(page.Locator("#finished")).ToBeVisibleAsync();
        await Measured(page, "away-done");
        await page.ReloadAsync(); // what waits outlives the page
        await page.Locator("#away[data-ready=yes]").WaitForAsync();
        await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("2 not yet sent.");

        await using var again = await BuiltProgram.ServeAt(folder, address.GetLeftPart(UriPartial.Authority));
        await page.Locator("#send").ClickAsync();
        await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("Everything is sent.");
        await page.Locator("#send").ClickAsync();
        var history = (await BuiltProgram.Run("history", "--data", folder, "--json")).Out;
        Assert.Equal(2, history.Split("weighed: ").Length - 1);
        Assert.Equal(3, history.Split("package-looked/1").Length - 1);
        Assert.Contains("310.5 g", history, StringComparison.Ordinal);
        Assert.Contains("rust", history, StringComparison.Ordinal);
        Assert.Empty(faults);
    }

    /// <summary>Two pictures lie over each other under a slider where script runs, and side by side where it does not.</summary>
    [Fact]
    public async Task Two_pictures_are_compared_with_a_slider()
    {
        await using var program = await Cellar();
        var id = JsonDocument.Parse((await BuiltProgram.Run("show", "--data", folder, "--json")).Out).RootElement.GetProperty("packages")[0].GetProperty("id").GetString()!;
        var page = await chromium.Open(360, 740);
        foreach (var (day, background) in new[] { ("2024-05-01", "#a87"), ("2026-05-01", "#432") })
        {
            var blank = await chromium.Open(400, 300);
            await blank.SetContentAsync($"<style>body{{background:{background}}}</style>");
            await page.GotoAsync($"{program.Address}packages/{id}/photos");
            await page.GetByLabel("Picture").SetInputFilesAsync(new FilePayload { Name = "leaf.jpg", MimeType = "image/jpeg", Buffer = await blank.ScreenshotAsync(new() { Type = ScreenshotType.Jpeg }) });
            await page.GetByLabel("Taken on").FillAsync(day);
            await page.GetByRole(AriaRole.Button, new() { Name = "Keep the picture" }).ClickAsync();
            await page.WaitForURLAsync("**/photos");
        }

        await Measured(page, "compare");
        var over = page.Locator(".compare img").Nth(1);
        var before = await over.EvaluateAsync<string>("image => getComputedStyle(image).clipPath");
        await page.Locator(".slide input").FillAsync("20");
        Assert.NotEqual(before, await over.EvaluateAsync<string>("image => getComputedStyle(image).clipPath"));
        var (one, other) = (await page.Locator(".compare img").First.BoundingBoxAsync(), await over.BoundingBoxAsync());
        Assert.Equal(one!.X, other!.X, 1.0);
        Assert.Equal(one.Y, other.Y, 1.0);

        // By the keyboard too.
        await page.GetByLabel("Slide from the one to the other").FocusAsync();
        var slid = await over.EvaluateAsync<string>("image => getComputedStyle(image).clipPath");
        for (var n = 0; n < 10; n++)
            await page.Keyboard.PressAsync("ArrowRight");
        Assert.NotEqual(slid, await over.EvaluateAsync<string>("image => getComputedStyle(image).clipPath"));
        await Assertions.Expect(page.GetByLabel("Slide from the one to the other")).ToHaveValueAsync("30");

        // Without script both are whole, one beside or under the other, and nothing pretends to slide.
        var plain = await chromium.Open(360, 740, script: false);
        await plain.GotoAsync($"{program.Address}packages/{id}/photos");
        await Assertions.Expect(plain.Locator(".slide")).ToBeHiddenAsync();
        var (first, second) = (await plain.Locator(".compare img").First.BoundingBoxAsync(), await plain.Locator(".compare img").Nth(1).BoundingBoxAsync());
        Assert.True(first!.X + first.Width <= second!.X + 1 || first.Y + first.Height <= second.Y + 1, $"{first.X} {first.Y} {second.X} {second.Y}");
        await Measured(plain, "compare-plain");
    }

    private async Task<BuiltProgram> Cellar()
    {
        foreach (var (blend, place) in new[] { ("Evening ribbon", "closet"), ("Plain burley", "closet"), ("Long Acre Coins, of a name that is rather long", "closet / top shelf") })
        {
            var added = await BuiltProgram.Run("add", "--data", folder, "--blend", blend, "--container", "jar-237", "--net", "50g", "--sealed", "2023", "--place", place);
            Assert.True(added.ExitCode == 0, added.Error);
        }

        return await BuiltProgram.Serve(folder);
    }

    internal static async Task<byte[]> Drawn(string pdf)
    {
        using var process = System.Diagnostics.Process.Start(new System.Diagnostics.ProcessStartInfo("pdftoppm", ["-r", "200", "-png", "-singlefile", pdf]) { RedirectStandardOutput = true })!;
        using var picture = new MemoryStream();
        await process.StandardOutput.BaseStream.CopyToAsync(picture);
        await process.WaitForExitAsync();
        return picture.ToArray();
    }

    private static async Task Measured(IPage page, string name)
    {
        await Pictures.Look(page, "phone-" + name);
        await Measures.NoSidewaysScroll(page);
        await Measures.GenerousTargets(page);
    }
}
