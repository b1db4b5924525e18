using System.Net;
using Microsoft.Extensions.DependencyInjection;
using Undercroft.Forecasts.Due;
using Undercroft.Ledger;
using Undercroft.Shell.Web;
using Xunit;

namespace Undercroft.Tests.Serving;

/// <summary>What takes longer than a person waits tells how far it is, and its answer is not lost.</summary>
public sealed class LongWorkTests
{
    private static readonly DueAnswer Answer = new("One package wants a look.", "grams", [], 0, 1, 15);

    [Fact]
    public async Task The_first_page_tells_how_far_it_is_asks_again_without_script_and_then_shows_the_answer()
    {
        await using var page = await OpenPage.Start();
        using (await page.Fill("/add", "rows", ("Blend-0", "Evening ribbon"), ("Container-0", "jar-473")))
        {
        }

        var gate = new TaskCompletionSource<DueAnswer>();
        var recent = page.Services.GetRequiredService<RecentAnswers>();
        var (none, work) = await recent.Soon(await page.Cellar(), OpenPage.Today, "due 15", () => new LongWork<DueAnswer>("Forecasts of what stands here", 2000, _ => gate.Task), TimeSpan.Zero);
        Assert.Null(none);
        work.Reached(1412);
        using (var waiting = await page.Send(HttpMethod.Get, "/"))
        {
            var text = WebUtility.HtmlDecode(await waiting.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
            Assert.Equal("2; url=/", Assert.Single(waiting.Headers.GetValues("Refresh")));
            Assert.Contains("Forecasts of what stands here: 1\u00a0412 of 2\u00a0000 done", text, StringComparison.Ordinal);
            Assert.Contains("<progress max=\"2000\" value=\"1412\"", text, StringComparison.Ordinal);
            Assert.Contains("href=\"/?Still=1\"", text, StringComparison.Ordinal);
            Assert.DoesNotContain("<script", text, StringComparison.Ordinal);
        }

        using (var asked = await page.Send(HttpMethod.Get, "/?from=1&Minutes=15"))
            Assert.Equal("2; url=/?from=1&Minutes=15", Assert.Single(asked.Headers.GetValues("Refresh"))); // whatever fragment the browser shows behind it

        using (var still = await page.Send(HttpMethod.Get, "/?Still=1"))
        {
            Assert.False(still.Headers.Contains("Refresh"));
            Assert.Contains("href=\"/\">Look again", await still.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }

        gate.SetResult(Answer);
        using var there = await page.Send(HttpMethod.Get, "/");
        Assert.False(there.Headers.Contains("Refresh"));
        Assert.Contains(Answer.Verdict, await there.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Work_is_begun_once_and_a_failure_is_told_once_and_then_forgotten()
    {
        var recent = new RecentAnswers();
        var begun = 0;
        LongWork<DueAnswer> Begin()
        {
            begun++;
            return new("It", 1, _ => begun == 1 ? throw new Refusal("No.") : Task.FromResult(Answer));
        }

        await Assert.ThrowsAsync<Refusal>(() => recent.Soon(Cellar.Empty, OpenPage.Today, "it", Begin, Timeout.InfiniteTimeSpan));
        Assert.Same(Answer, (await recent.Soon(Cellar.Empty, OpenPage.Today, "it", Begin, Timeout.InfiniteTimeSpan)).Answer);
        Assert.Same(Answer, (await recent.Soon(Cellar.Empty, OpenPage.Today, "it", Begin, Timeout.InfiniteTimeSpan)).Answer);
        Assert.Equal(2, begun);
    }

    [Fact]
    public async Task The_due_list_counts_every_package_that_stands_here()
    {
        await using var page = await OpenPage.Start();
        using (await page.Fill("/add", "rows", ("Blend-0", "Evening ribbon"), ("Container-0", "jar-473"), ("Count-0", "3")))
        {
        }

        var (answer, work) = await page.Services.GetRequiredService<RecentAnswers>().Due(await page.Cellar(), OpenPage.Today, 30, Timeout.InfiniteTimeSpan);
        Assert.NotNull(answer);
        Assert.Equal((3, 3), (work.Done, work.Of));
    }

    [Fact]
    public async Task An_import_goes_on_beside_the_page_and_is_shown_when_it_is_in()
    {
        await using var page = await OpenPage.Start();
        using var handed = await page.Upload("stock.csv", "blend,grams\nPlain flake,50\nDark twist,100\n"u8.ToArray());
        var address = handed.Headers.Location!.OriginalString;
        address = address[address.IndexOf("/import", StringComparison.Ordinal)..];
        using var kept = await page.Fill(address, "keep");
        Assert.Equal(HttpStatusCode.Redirect, kept.StatusCode);
        for (var look = 0; look < 600 && (await page.Cellar()).Packages.Count == 0; look++)
            await Task.Delay(100, TestContext.Current.CancellationToken);
        Assert.Contains("2 rows in", await page.Read(address), StringComparison.Ordinal);
        Assert.Equal(2, (await page.Cellar()).Packages.Count);
    }
}
