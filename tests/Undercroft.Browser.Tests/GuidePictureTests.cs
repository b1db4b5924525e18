using System.Diagnostics;
using System.Text.Json;
using Microsoft.Playwright;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Browser.Tests;

/// <summary>The pictures of the guide are of the program as it is, and light. They are written only when asked for (<c>UNDERCROFT_PICTURES=1</c>); that each can be made, and how large it is, is looked at always.</summary>
public sealed class GuidePictureTests(Chromium chromium) : IDisposable
{
    private const int Most = 100_000;
    private readonly string folder = Path.Combine(Path.GetTempPath(), "undercroft-guide-" + Guid.NewGuid().ToString("N"));

    public void Dispose()
    {
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("labels", 40)]
    [InlineData("round", 45)]
    [InlineData("packing", 45)]
    [InlineData("handover", 45)]
    [InlineData("claim", 45)]
    [InlineData("provenance", 45)]
    public async Task A_paper_is_drawn_in_little_room(string paper, int dotsPerInch)
    {
        var file = Path.Combine(folder, paper);
        await Demo();
        string[] more = paper == "provenance" ? [await Jar()] : [];
        var printed = await BuiltProgram.Run(["print", paper, .. more, "--data", folder, "--out", file + ".pdf"]);
        Assert.True(printed.ExitCode == 0, printed.Error);
        using var drawing = Process.Start(new ProcessStartInfo("pdftoppm", ["-r", dotsPerInch.ToString(System.Globalization.CultureInfo.InvariantCulture), "-gray", "-png", "-singlefile", file + ".pdf", file]))!;
        await drawing.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(0, drawing.ExitCode);
        await Kept(await File.ReadAllBytesAsync(file + ".png", TestContext.Current.CancellationToken), "guide", paper + ".png");
    }

    [Theory]
    [InlineData("due", "", 640, 620, "What needs a look")]
    [InlineData("package", "packages/{jar}", 600, 700, null)]
    [InlineData("what-if", "packages/{jar}?IfIn=bag-zip#what-if", 760, 520, null)]
    [InlineData("map", "map", 640, 560, "What stands where")]
    [InlineData("phone-round", "round", 360, 640, "Round")]
    public async Task A_page_is_drawn_in_little_room(string name, string path, int width, int height, string? heading)
    {
        await Demo();
        var jar = await Jar();
        await using var program = await BuiltProgram.Serve(folder);
        var page = await chromium.Open(width, height, script: false);
        var address = path.Replace("{jar}", jar, StringComparison.Ordinal);
        await CareTests.Worked(program.Address, address.Split('#')[0]);
        await page.GotoAsync(program.Address + address);
        if (heading is not null)
            await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync(heading);
        var top = (await page.Locator(name is "what-if" ? "#what-if" : "main").BoundingBoxAsync())!.Y + await page.EvaluateAsync<float>("scrollY");
        await Kept(await page.ScreenshotAsync(new() { FullPage = true, Clip = new() { X = 0, Y = top, Width = width, Height = height } }), "pictures", name + ".png");
    }

    private static async Task Kept(byte[] picture, string place, string name)
    {
        Assert.InRange(picture.Length, 1000, Most);
        await Pictures.Keep(picture, place, name);
    }

    private async Task Demo()
    {
        if (!Directory.Exists(folder))
            Assert.Equal(0, (await BuiltProgram.Run("demo", "--data", folder)).ExitCode);
    }

    /// <summary>A jar with a history.</summary>
    private async Task<string> Jar() => JsonDocument.Parse((await BuiltProgram.Run("show", "--data", folder, "--json")).Out).RootElement.GetProperty("packages").EnumerateArray().First().GetProperty("id").GetString()!;
}
