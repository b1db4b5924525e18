using Microsoft.Playwright;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Browser.Tests;

/// <summary>A first visit, in a real browser without script, to the program as it was built, started from a foreign directory.</summary>
public sealed class FirstVisitTests(Chromium chromium) : IDisposable
{
    private readonly string folder = Path.Combine(Path.GetTempPath(), "undercroft-visit-" + Guid.NewGuid().ToString("N"));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData(360)]
    [InlineData(1280)]
    public async Task A_question_five_rows_a_due_list_a_weight_and_an_undo(int width)
    {
        await using var program = await BuiltProgram.Serve(folder, "--today", "2026-11-24");
        var page = await chromium.Open(width, 900, script: false);
        List<string> complaints = [];
        page.Console += (_, message) => complaints.Add(message.Text);

        await page.GotoAsync(program.Address.ToString());
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "What stands on the shelf?" })).ToBeVisibleAsync();
        await Measured(page, $"begin-{width}");
        await Pictures.Take(page, width, "first-visit.png");

        await page.GetByLabel("in that").SelectOptionAsync("jar-473");
        await page.GetByLabel("How much").Last.FillAsync("100g");
        await page.GetByRole(AriaRole.Button, new() { Name = "When is it too dry?" }).ClickAsync();
        await Assertions.Expect(page.Locator(".verdict")).Not.ToBeEmptyAsync();
        await Assertions.Expect(page.Locator("figure.chart svg.narrow, figure.chart svg.wide").First).ToBeAttachedAsync();
        await Measured(page, $"ask-{width}");

        await page.GotoAsync(program.Address + "add");
        var rows = page.Locator("fieldset.line");
        await Assertions.Expect(rows).ToHaveCountAsync(5);
        await Row(rows.Nth(0), ("What you call it", "Evening ribbon"), ("Leaf in each", "110g"), ("Closed when", "2024-03"), ("Where", "closet / top shelf"));
        await rows.Nth(0).GetByLabel("In what").SelectOptionAsync("jar-473");
        await Row(rows.Nth(1), ("What you call it", "Plain burley"), ("How many", "3"));
        await rows.Nth(1).GetByLabel("In what").SelectOptionAsync("jar-237");
        await Row(rows.Nth(2), ("Leaf in each", "~50g"), ("Closed when", "2015~"));
        await rows.Nth(2).GetByLabel("In what").SelectOptionAsync("tin-unlined");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write these down" }).ClickAsync();

        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "What needs a look" })).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator(".note.done")).ToContainTextAsync("5 packages");
        await Assertions.Expect(page.Locator("ol.due li").First).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator(".note.done").GetByRole(AriaRole.Button, new() { Name = "Take it back" })).ToHaveCountAsync(3);
        await Measured(page, $"due-{width}");

        await page.GetByRole(AriaRole.Link, new() { Name = "Cellar", Exact = true }).ClickAsync();
        await Measured(page, $"packages-{width}");
        await page.GetByRole(AriaRole.Link, new() { Name = "Evening ribbon" }).ClickAsync();
        await Assertions.Expect(page.Locator(".verdict")).Not.ToBeEmptyAsync();
        await Measured(page, $"package-{width}");
        await page.GetByLabel("The scale shows").FillAsync("rather heavy");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write down the weight" }).ClickAsync();
        await Assertions.Expect(page.Locator(".note.refused")).ToContainTextAsync("rather heavy");
        await Assertions.Expect(page.GetByLabel("The scale shows")).ToHaveValueAsync("rather heavy");
        await Measured(page, $"refused-{width}");
        await page.GetByLabel("The scale shows").FillAsync("612.3g");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write down the weight" }).ClickAsync();
        await Assertions.Expect(page.Locator(".note.done")).ToContainTextAsync("Written down");
        await Assertions.Expect(page.Locator("#history")).ToContainTextAsync("612.3 g");
        await page.Locator(".note.done").GetByRole(AriaRole.Button, new() { Name = "Take it back" }).ClickAsync();
        await Assertions.Expect(page.Locator("#history")).ToContainTextAsync("taken back");
        await Measured(page, $"undone-{width}");

        foreach (var path in (string[])["places", "doubts", "history", "import", "undo", "ask"])
        {
            await page.GotoAsync(program.Address + path);
            await Measured(page, $"page-{path}-{width}");
        }

        await page.GotoAsync(program.Address + "import");
        await page.GetByLabel("A sheet").SetInputFilesAsync(new FilePayload { Name = "shelf.csv", MimeType = "text/csv", Buffer = "name,amount,container,where\nOld ribbon,50g,jar,closet\n??,2x2oz,tin,\nsomething,,,\n"u8.ToArray() });
        await page.GetByRole(AriaRole.Button, new() { Name = "Show what it says" }).ClickAsync();
        await Assertions.Expect(page.Locator(".verdict")).ToContainTextAsync("3 rows in");
        await Measured(page, $"sheet-{width}");
        await page.GetByRole(AriaRole.Button, new() { Name = "Bring it in" }).ClickAsync();
        await Assertions.Expect(page.Locator(".note.done")).ToContainTextAsync("packages added");
        await Measured(page, $"sheet-kept-{width}");

        Assert.All(complaints, complaint => Assert.Contains("status of 422", complaint, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Who_leaves_a_half_filled_form_or_is_refused_finds_it_filled_on_coming_back(bool script)
    {
        await using var program = await BuiltProgram.Serve(folder);
        var page = await chromium.Open(360, 900, script: script);
        await page.GotoAsync(program.Address + "add");
        var row = page.Locator("fieldset.line").First;
        await Row(row, ("What you call it", "Evening ribbon"), ("Leaf in each", "much"), ("Where", "closet"));
        await row.GetByLabel("In what").SelectOptionAsync("jar-473");
        await page.GetByRole(AriaRole.Link, new() { Name = "Ask", Exact = true }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).Not.ToContainTextAsync("shelf");
        await page.GoBackAsync();
        await Stands();
        await page.GetByRole(AriaRole.Button, new() { Name = "Write these down" }).ClickAsync();
        await Assertions.Expect(page.Locator(".note.refused")).ToContainTextAsync("'much' is not a mass");
        await Stands();
        await page.GoBackAsync();
        await Assertions.Expect(page.Locator(".note.refused")).ToHaveCountAsync(0);
        await Stands();

        async Task Stands()
        {
            await Assertions.Expect(row.GetByLabel("What you call it")).ToHaveValueAsync("Evening ribbon");
            await Assertions.Expect(row.GetByLabel("Leaf in each")).ToHaveValueAsync("much");
            await Assertions.Expect(row.GetByLabel("Where")).ToHaveValueAsync("closet");
            await Assertions.Expect(row.GetByLabel("In what")).ToHaveValueAsync("jar-473");
        }
    }

    private static async Task Row(ILocator row, params (string Label, string Text)[] fields)
    {
        foreach (var (label, text) in fields)
            await row.GetByLabel(label).FillAsync(text);
    }

    private static async Task Measured(IPage page, string name)
    {
        await Pictures.Look(page, name);
        await Measures.NoSidewaysScroll(page);
        await Measures.GenerousTargets(page);
    }
}
