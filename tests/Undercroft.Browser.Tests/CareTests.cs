using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Undercroft.Physics.Catalogue;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Browser.Tests;

/// <summary>Every page, at both widths and in both colour schemes: axe finds nothing, nothing scrolls sideways, also at twice the size, and the keyboard reaches the content.</summary>
public sealed partial class CareTests(Chromium chromium) : IDisposable
{
    private readonly string folder = Path.Combine(Path.GetTempPath(), "undercroft-care-" + Guid.NewGuid().ToString("N"));

    public void Dispose()
    {
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void Every_page_that_is_asked_something_is_a_page() => Assert.Empty(EveryPage.Unknown);

    [Theory]
    [InlineData(360, ColorScheme.Light, 1)]
    [InlineData(360, ColorScheme.Dark, 4)]
    [InlineData(1280, ColorScheme.Light, 4)]
    [InlineData(1280, ColorScheme.Dark, 1)]
    public async Task Axe_finds_nothing_on_any_page(int width, ColorScheme scheme, int oneOf)
    {
        await using var program = await Demo();
        var page = await chromium.Open(width, 900, scheme);
        List<string> complaints = [];
        foreach (var path in (await Pages()).Where((_, n) => n % oneOf == 0))
        {
            await Worked(program.Address, path);
            var answer = await page.GotoAsync(program.Address + path);
            if (answer!.Status is not (200 or 404 or 422))
                complaints.Add($"/{path}: {answer.Status}");
            await Pictures.Look(page, $"care-{path.Replace('/', '-').Replace('?', '-')}-{width}-{scheme}");
            if (await Measures.TooWide(page) is { } tooWide)
                complaints.Add(tooWide);
            if (await Measures.Moving(page) is { } moving)
                complaints.Add(moving);
            var found = await page.RunAxe();
            complaints.AddRange(found.Violations.Select(violation => $"/{path}: {violation.Id}, {violation.Help}: {string.Join(" | ", violation.Nodes.Take(3).Select(node => node.Html))}"));
        }

        Assert.True(complaints.Count == 0, string.Join('\n', complaints));
    }

    [Fact]
    public async Task At_twice_the_size_nothing_scrolls_sideways()
    {
        await using var program = await Demo();
        var pages = await Pages();
        List<string> complaints = [];
        // Twice the size on a window of 1280 px leaves 640 px; on one of 640 px, 320.
        foreach (var width in (int[])[640, 320])
        {
            var page = await chromium.Open(width, 450);
            foreach (var path in pages)
            {
                await Worked(program.Address, path);
                await page.GotoAsync(program.Address + path);
                if (await Measures.TooWide(page) is { } tooWide)
                    complaints.Add(tooWide);
            }
        }

        Assert.True(complaints.Count == 0, string.Join('\n', complaints));
    }

    [Fact]
    public async Task The_keyboard_skips_to_the_content_and_fills_a_form()
    {
        await using var program = await Demo();
        var page = await chromium.Open(1280, 900, script: true);
        await page.GotoAsync(program.Address + "packages");
        await page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "To the content" })).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Enter");
        await page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(page.GetByLabel("Words")).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("flake");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page).ToHaveURLAsync(new Regex("Text=flake"));
    }

    [Fact]
    public async Task A_first_load_is_at_most_100_kB()
    {
        await using var program = await Demo();
        using var client = new HttpClient { BaseAddress = program.Address };
        var assets = 0;
        List<string> large = [];
        foreach (var asset in (string[])["/assets/page.css", "/assets/arch.svg"])
            assets += (await client.GetByteArrayAsync(asset, TestContext.Current.CancellationToken)).Length;
        foreach (var path in await Pages())
        {
            await Worked(program.Address, path);
            using var answer = await client.GetAsync("/" + path, TestContext.Current.CancellationToken); // some pages refuse what they are asked
            var size = assets + (await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken)).Length;
            if (size > 100_000)
                large.Add($"/{path}: {size} bytes");
        }

        Assert.True(large.Count == 0, string.Join('\n', large));
    }

    [Fact]
    public async Task With_ounces_and_Fahrenheit_wanted_no_page_shows_a_gram_a_degree_Celsius_or_a_kilopascal_of_its_own()
    {
        await using var program = await Demo();
        using var client = new HttpClient(new SocketsHttpHandler { UseCookies = false }) { BaseAddress = program.Address };
        List<string> strays = [];
        var turned = 0;
        foreach (var path in (await Pages()).Where(path => path != "you")) // where the units are chosen both are named
        {
            await Worked(program.Address, path);
            using var request = new HttpRequestMessage(HttpMethod.Get, "/" + path);
            request.Headers.Add("Cookie", $"undercroft-manners-0=units=imperial; undercroft-manners-{program.Address.Port}=units=imperial");
            using var answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
            var html = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
            if (html.Contains("<footer", StringComparison.Ordinal) && !html.Contains("keep their own units", StringComparison.Ordinal))
                strays.Add($"/{path}: the foot does not say what keeps its own units");
            var own = BothWays().Replace(Written().Replace(Refusals().Replace(html, " "), " "), " ");
            foreach (var name in ContainerKinds.All.Select(kind => kind.Name).Concat(PackKinds.All.Select(pack => pack.Name)).OrderByDescending(name => name.Length))
                own = own.Replace(WebUtility.HtmlEncode(name), " ", StringComparison.Ordinal);
            var text = Spaces().Replace(WebUtility.HtmlDecode(Tags().Replace(own, " ")), " ");
            turned += Imperial().Count(text);
            strays.AddRange(Metric().Matches(text).Select(match => $"/{path}: …{text[Math.Max(0, match.Index - 60)..Math.Min(text.Length, match.Index + 30)]}…"));
        }

        Assert.True(turned > 100, $"only {turned} amounts in the units that were asked for");
        Assert.True(strays.Count == 0, string.Join('\n', strays));
    }

    /// <summary>Waits until a page of long work shows what came of it and no longer how far it is.</summary>
    internal static async Task Worked(Uri address, string path)
    {
        using var client = new HttpClient { BaseAddress = address };
        for (var asked = 0; asked < 200; asked++)
        {
            using var answer = await client.GetAsync("/" + path, TestContext.Current.CancellationToken);
            if (!answer.Headers.Contains("Refresh"))
                return;
            await Task.Delay(200, TestContext.Current.CancellationToken);
        }

        Assert.Fail($"/{path} still works after two hundred times of asking.");
    }

    /// <summary>What stands as it was written: words of sources, files, people.</summary>
    [GeneratedRegex("<span class=\"as-written\">.*?</span>", RegexOptions.Singleline)]
    private static partial Regex Written();

    /// <summary>What was typed and cannot be is quoted as it was typed.</summary>
    [GeneratedRegex("<(?<tag>aside|div|section) class=\"note refused\".*?</\\k<tag>>", RegexOptions.Singleline)]
    private static partial Regex Refusals();

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tags();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();

    [GeneratedRegex(@"\d ?(°F|oz|lb|psi)\b")]
    private static partial Regex Imperial();

    /// <summary>Examples of typing that show both, since both are understood.</summary>
    [GeneratedRegex("<p class=\"hint\"[^>]*>[^<]*([0-9](oz|lb|F)|1 g is 1 ml)[^<]*</p>")]
    private static partial Regex BothWays();

    [GeneratedRegex(@"(?<![\w.])\d[\d.]* ?(°C|K|g|kg|kPa|hPa)(?![\w/²³·]| \(1\.76 oz\))")]
    private static partial Regex Metric();

    /// <summary>Every page of the demo, in which one package was given away.</summary>
    private async Task<IReadOnlyList<string>> Pages() =>
        EveryPage.In(JsonDocument.Parse((await BuiltProgram.Run("show", "--data", folder, "--json")).Out).RootElement, await File.ReadAllTextAsync(Gone));

    private string Gone => Path.Combine(folder, "gone.txt");

    private async Task<BuiltProgram> Demo()
    {
        if (!Directory.Exists(folder))
        {
            Assert.Equal(0, (await BuiltProgram.Run("demo", "--data", folder)).ExitCode);
            var given = JsonDocument.Parse((await BuiltProgram.Run("show", "--data", folder, "--json")).Out).RootElement.GetProperty("packages").EnumerateArray().Last().GetProperty("id").GetString()!;
            Assert.Equal(0, (await BuiltProgram.Run("remove", given, "--as", "given", "--data", folder)).ExitCode);
            await File.WriteAllTextAsync(Gone, given);
        }

        return await BuiltProgram.Serve(folder);
    }
}
