using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Playwright;
using Undercroft.Serving;
using Undercroft.Shell.Web;
using Xunit;

namespace Undercroft.Browser.Tests;

public class ChartTests(Chromium chromium)
{
    [Theory]
    [InlineData(360, "narrow")]
    [InlineData(1280, "wide")]
    public async Task Lettering_stays_readable_and_nothing_overlaps(int width, string shown)
    {
        var page = await Draw(Jar(), width);
        var drawing = page.Locator($"svg.{shown}");
        Assert.True(await drawing.IsVisibleAsync());
        await Measures.NoSidewaysScroll(page);

        var heights = await drawing.EvaluateAsync<double[]>(
            "s => [...s.querySelectorAll('text')].map(t => parseFloat(getComputedStyle(t).fontSize) * s.getBoundingClientRect().width / s.viewBox.baseVal.width)");
        Assert.NotEmpty(heights);
        Assert.All(heights, height => Assert.True(height >= 11, $"{height} px"));

        var overlaps = await drawing.EvaluateAsync<string[]>(
            """
            s => {
              const all = [...s.querySelectorAll('text')].map(t => [t.textContent, t.getBoundingClientRect()]), frame = s.getBoundingClientRect();
              const hit = (a, b) => a.left < b.right && b.left < a.right && a.top + 2 < b.bottom - 2 && b.top + 2 < a.bottom - 2;
              return [
                ...all.flatMap(([t, r], i) => all.slice(i + 1).filter(([, q]) => hit(r, q)).map(([u]) => t + ' / ' + u)),
                ...all.filter(([, r]) => r.left < frame.left || r.right > frame.right || r.top < frame.top || r.bottom > frame.bottom).map(([t]) => t + ' leaves the drawing')];
            }
            """);
        Assert.Empty(overlaps);
    }

    [Fact]
    public async Task A_chart_has_a_name_words_and_a_table_and_no_inline_style()
    {
        var page = await Draw(Jar(), 1280);
        var drawing = page.GetByRole(AriaRole.Img, new() { Name = "Moisture of the leaf" });
        await Assertions.Expect(drawing).ToHaveCountAsync(1);
        await page.Locator("summary").ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Row)).ToHaveCountAsync(13);
        Assert.Equal(0, await page.Locator("figure [style], figure style, figure script").CountAsync());
        var ids = await page.Locator("figure [id]").EvaluateAllAsync<string[]>("all => all.map(e => e.id)");
        Assert.Equal(ids.Distinct(), ids);
    }

    private static BandSeries Jar()
    {
        double[] days = [.. Enumerable.Range(0, 121).Select(i => i * 30.4375)];
        double?[] Falling(double start, double perYear) => [.. days.Select(day => (double?)(start - (perYear * day / 365.25)))];
        return new("Moisture of the leaf", "% of its weight", new(2026, 11, 24), days, Falling(15.2, 0.62), Falling(17, 0.21), Falling(18.6, 0.02),
            [new(-900, 18.1, "weighed"), new(-420, 17.6, "weighed"), new(-14, 17.1, "weighed")],
            [new(13, "dry to smoke below 13 %"), new(12, "called dry below 12 %")]);
    }

    private async Task<IPage> Draw(BandSeries series, int width)
    {
        await using var services = new ServiceCollection().AddLogging().AddScoped<Visit>().BuildServiceProvider();
        await using var renderer = new HtmlRenderer(services, services.GetRequiredService<ILoggerFactory>());
        var figure = await renderer.Dispatcher.InvokeAsync(async () =>
            (await renderer.RenderComponentAsync<BandChart>(ParameterView.FromDictionary(new Dictionary<string, object?> { ["Series"] = series }))).ToHtmlString());
        await using var css = typeof(Assets).Assembly.GetManifestResourceStream("wwwroot/page.css")!;
        using var reader = new StreamReader(css);
        var page = await chromium.Open(width, 520);
        await page.SetContentAsync($"<!DOCTYPE html><meta name=viewport content='width=device-width'><style>{await reader.ReadToEndAsync(TestContext.Current.CancellationToken)}</style><main>{figure}</main>");
        await Pictures.Look(page, $"chart-{width}");
        return page;
    }
}
