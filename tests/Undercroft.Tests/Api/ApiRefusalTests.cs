using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using Undercroft.Api;
using Undercroft.Tests.Access;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Api;

/// <summary>What the HTTP API does not do is told as a problem, and nothing is done.</summary>
public sealed class ApiRefusalTests
{
    [Theory]
    [InlineData("POST", "/api/packages/{id}/weighings", "{\"mass\":\"612.3\"}", 422, "no unit")]
    [InlineData("POST", "/api/packages/{id}/weighings", "{\"mass\":[\"1g\",\"2g\"]}", 400, "more than once")]
    [InlineData("POST", "/api/packages/{id}/weighings", "{\"weight\":\"1g\"}", 400, "What can: ")]
    [InlineData("POST", "/api/packages/{id}/weighings", "{\"mass\":{\"g\":1}}", 400, "nothing was done")]
    [InlineData("POST", "/api/packages/{id}/weighings", "{\"mass\":", 400, "nothing was done")]
    [InlineData("POST", "/api/packages/{id}/weighings", "[]", 400, "nothing was done")]
    [InlineData("POST", "/api/packages/{id}/weighings", "{\"id\":\"AAAAA\",\"mass\":\"1g\"}", 400, "more than once")]
    [InlineData("POST", "/api/packages/{id}/weighings", "{}", 400, "")]
    [InlineData("POST", "/api/packages/ZZZZZ/weighings", "{\"mass\":\"1g\"}", 404, "")]
    [InlineData("POST", "/api/packages/{id}/moves", "{\"place\":\"Nowhere\"}", 422, "Nowhere")]
    [InlineData("GET", "/api/packages/ZZZZZ", "", 404, "ZZZZZ")]
    [InlineData("GET", "/api/places/Nowhere", "", 404, "Nowhere")]
    [InlineData("GET", "/api/value?id={id}&replace=60EUR", "", 400, "What can: ")]
    [InlineData("GET", "/api/troubles/mould?package={id}&keep=true&answers=no", "", 400, "What can: ")]
    [InlineData("POST", "/api/places", "{\"name\":\"Closet\"}", 409, "already")]
    [InlineData("POST", "/api/undoings", "{\"event\":\"1\"}", 409, "rest on it")]
    [InlineData("POST", "/api/packages/{id}/weighings", "{\"mass\":\"1g\",\"data\":\"/tmp\"}", 400, "What can: ")]
    [InlineData("POST", "/api/packages/{id}/weighings", "{\"mass\":\"1g\",\"net\":\"perhaps\"}", 400, "true or false")]
    [InlineData("GET", "/api/packages?asOf=yesterday", "", 422, "YYYY-MM-DD")]
    [InlineData("GET", "/api/due?minutes=many", "", 400, "")]
    [InlineData("GET", "/api/due?data=/tmp", "", 400, "What can: ")]
    [InlineData("GET", "/api/calc/mkt?file=/etc/hostname", "", 400, "What can: ")]
    [InlineData("GET", "/api/nothing", "", 404, "openapi.json")]
    [InlineData("GET", "/api/backup", "", 404, "openapi.json")]
    [InlineData("GET", "/api/solve", "", 404, "openapi.json")]
    public async Task What_is_not_done_is_told_as_a_problem(string method, string address, string body, int status, string said)
    {
        await using var page = await OpenPage.Start();
        var id = await ApiCase.Jar(page);
        var before = (await page.Cellar()).Version;
        using var answer = await page.Send(new(method), address.Replace("{id}", id, StringComparison.Ordinal), body.Length > 0 ? new StringContent(body, Encoding.UTF8, "application/json") : null);
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        using var problem = JsonDocument.Parse(await answer.Text());
        Assert.Equal(status, problem.RootElement.GetProperty("status").GetInt32());
        Assert.NotEqual("", problem.RootElement.GetProperty("title").GetString());
        Assert.Contains(said, problem.RootElement.GetProperty("detail").GetString(), StringComparison.Ordinal);
        Assert.NotEqual("", problem.RootElement.GetProperty("detail").GetString());
        Assert.Equal(before, (await page.Cellar()).Version);
    }

    [Fact]
    public async Task A_form_of_another_site_is_no_way_in()
    {
        await using var page = await OpenPage.Start();
        var id = await ApiCase.Jar(page);
        foreach (var kind in (string[])["text/plain", "application/x-www-form-urlencoded", "multipart/form-data"])
        {
            using var answer = await page.Send(HttpMethod.Post, $"/api/packages/{id}/weighings", new StringContent("{\"mass\":\"1g\"}", Encoding.UTF8, kind));
            Assert.Equal(HttpStatusCode.UnsupportedMediaType, answer.StatusCode);
        }

        using var large = await page.Send(HttpMethod.Post, $"/api/packages/{id}/weighings", new StringContent(new string(' ', 70_000), Encoding.UTF8, "application/json"));
        Assert.Equal((HttpStatusCode.RequestEntityTooLarge, "application/problem+json"), (large.StatusCode, large.Content.Headers.ContentType!.MediaType));

        using var cross = await page.Send(HttpMethod.Post, $"/api/packages/{id}/weighings", JsonContent.Create(new { mass = "1g" }), ("Sec-Fetch-Site", "cross-site"));
        Assert.Equal(HttpStatusCode.Forbidden, cross.StatusCode);
        Assert.Empty((await page.Cellar()).Packages.Values.Single().Weighings);
        using var read = await page.Send(HttpMethod.Get, "/api/packages", null, ("Origin", "https://evil.example"));
        Assert.False(read.Headers.Contains("Access-Control-Allow-Origin"));
    }

    [Theory]
    [InlineData(typeof(IOException), 500)]
    [InlineData(typeof(UnauthorizedAccessException), 500)]
    [InlineData(typeof(InvalidOperationException), 500)]
    [InlineData(null, 422)]
    public void A_failure_is_not_told_as_a_refusal(Type? ended, int status) => Assert.Equal(status, ApiCall.StatusOf(ended is null ? null : (Exception)Activator.CreateInstance(ended)!, ["20HB9"]));
}
