using System.Net;
using Xunit;

namespace Undercroft.Tests.Serving;

/// <summary>Two hands on one form, one after the other or at once: nothing is doubled unasked, and each is told of the other.</summary>
public sealed class TwiceTests
{
    private static readonly (string, string)[] Jar = [("Blend-0", "Evening ribbon"), ("Container-0", "jar-473"), ("Net-0", "110g")];

    [Fact]
    public async Task The_very_same_rows_sent_again_are_asked_about_and_then_written()
    {
        await using var page = await OpenPage.Start();
        using var first = await page.Fill("/add", "rows", Jar);
        Assert.Equal(HttpStatusCode.Found, first.StatusCode);
        using var again = await page.Fill("/add", "rows", Jar);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, again.StatusCode);
        Assert.Contains("The very same was written just now", await again.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Single((await page.Cellar()).Packages);
        using var meant = await page.Fill("/add", "rows", Jar);
        Assert.Equal(HttpStatusCode.Found, meant.StatusCode);
        Assert.Equal(2, (await page.Cellar()).Packages.Count);
        using var other = await page.Fill("/add", "rows", [.. Jar, ("Sealed-0", "2024")]);
        Assert.Equal(HttpStatusCode.Found, other.StatusCode);
    }

    [Fact]
    public async Task A_form_that_was_refused_may_be_sent_again_at_once()
    {
        await using var page = await OpenPage.Start();
        for (var n = 0; n < 2; n++)
        {
            using var refused = await page.Fill("/add", "rows", [.. Jar, ("Sealed-0", "never")]);
            Assert.Contains("never", await refused.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_form_for_a_package_that_somebody_else_took_out_says_so()
    {
        await using var page = await OpenPage.Start();
        using var added = await page.Fill("/add", "rows", Jar);
        var id = (await page.Cellar()).Packages.Keys.Single();
        using var removed = await page.Fill($"/packages/{id}", "remove", ("Way", "finished"));
        Assert.Equal(HttpStatusCode.Found, removed.StatusCode);
        using var late = await page.Fill($"/packages/{id}", "take", ("Mass", "5g"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, late.StatusCode);
        var said = await late.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("It has left the cellar meanwhile", said, StringComparison.Ordinal);
        Assert.Contains("Evening ribbon", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_writes_after_another_is_shown_what_the_other_wrote()
    {
        await using var page = await OpenPage.Start();
        using var added = await page.Fill("/add", "rows", Jar);
        var cellar = await page.Cellar();
        var (id, seen) = (cellar.Packages.Keys.Single(), cellar.Version);
        Assert.Contains($"/packages/{id}?Seen={seen}#weigh", await page.Read($"/packages/{id}"), StringComparison.Ordinal);
        using var one = await page.Fill($"/packages/{id}?Seen={seen}", "weigh", ("Mass", "433.1g"));
        using var other = await page.Fill($"/packages/{id}?Seen={seen}", "weigh", ("Mass", "399.1g"));
        Assert.DoesNotContain("Seen", one.Headers.Location!.OriginalString, StringComparison.Ordinal);
        var shown = await page.Read(other.Headers.Location!.OriginalString);
        Assert.Contains("Written meanwhile", shown, StringComparison.Ordinal);
        Assert.Contains("433.1 g", shown, StringComparison.Ordinal);
        Assert.Contains("Odd, and kept all the same", shown, StringComparison.Ordinal); // 34 g in a day, closed
    }
}
