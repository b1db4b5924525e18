using System.Net;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Comparing;

/// <summary>The comparison as a page: a form with an address of its own, no script.</summary>
public class ComparePageTests
{
    [Fact]
    public async Task The_form_leads_to_verdict_table_sentences_and_picture()
    {
        await using var page = await OpenPage.Start();
        Assert.Contains("Put them side by side", await page.Read("/compare"), StringComparison.Ordinal);
        var text = WebUtility.HtmlDecode(await page.Read("/compare?Leaf=burley&Place=cupboard&Mass=60g&Years=1&Kind=jar-237&Kind=bag-zip"));
        Assert.Contains("For 60 g over 1 year, best: glass jar", text, StringComparison.Ordinal);
        Assert.Equal(2, text.Split("ml per g and year").Length - 1);
        Assert.Contains("Why a single transmission number misleads", text, StringComparison.Ordinal);
        Assert.Contains("<svg class=\"two\"", text, StringComparison.Ordinal);
        Assert.Contains("value=\"60g\"", text, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Mass=60&Years=1", "has no unit")]
    [InlineData("Mass=60g&Years=ten", "no number of years")]
    [InlineData("Mass=60g&Years=1&Kind=jar-23", "jar-237")]
    [InlineData("Mass=60g&Years=1&Place=nowhere-at-all", "No place and no kind of room")]
    public async Task What_cannot_be_is_refused_beside_the_form(string query, string why)
    {
        await using var page = await OpenPage.Start();
        using var answer = await page.Send(HttpMethod.Get, "/compare?" + query);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains(why, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)), StringComparison.Ordinal);
    }
}
