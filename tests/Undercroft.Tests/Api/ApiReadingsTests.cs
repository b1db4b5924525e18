using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using Undercroft.Tests.Access;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Api;

/// <summary>Readings that programs send.</summary>
public sealed class ApiReadingsTests
{
    [Fact]
    public async Task Readings_are_kept_once()
    {
        await using var page = await OpenPage.Start();
        await ApiCase.Jar(page);
        var sent = new { place = "Closet", readings = new object[] { new { at = "2026-05-03T14:00:00Z", temperatureC = 19.5, humidityPct = 55.0 }, new { at = "2026-05-03T17:00:00+02:00", temperatureC = 19.75 } } };
        using var first = await page.Send(HttpMethod.Post, "/api/readings", JsonContent.Create(sent));
        Assert.Equal(HttpStatusCode.OK, first.StatusCode);
        using var json = JsonDocument.Parse(await first.Text());
        Assert.Equal(2, json.RootElement.GetProperty("readingsAdded").GetInt32());
        Assert.Equal("2026-05-03T15:00:00Z", json.RootElement.GetProperty("lastUtc").GetString());
        using var again = await page.Send(HttpMethod.Post, "/api/readings", JsonContent.Create(sent));
        using var same = JsonDocument.Parse(await again.Text());
        Assert.Equal((0, 2), (same.RootElement.GetProperty("readingsAdded").GetInt32(), same.RootElement.GetProperty("duplicates").GetInt32()));
        Assert.Equal(JsonValueKind.Null, same.RootElement.GetProperty("event").ValueKind);
        var cellar = await page.Cellar();
        var kept = await page.Cellars.AllReadingsAsync(cellar.ReadingsOf(cellar.Places.Keys.Single()), TestContext.Current.CancellationToken);
        Assert.Equal([19.5, 19.75], kept.Select(reading => Math.Round(reading.Kelvin - 273.15, 6)));
    }

    [Theory]
    [InlineData("{\"place\":\"Closet\",\"readings\":[{\"at\":\"2026-05-03T14:00:00\",\"temperatureC\":20}]}", 422)]
    [InlineData("{\"place\":\"Closet\",\"readings\":[{\"at\":\"2026-05-03T14:00:00Z\",\"humidityPct\":120}]}", 422)]
    [InlineData("{\"place\":\"Closet\",\"readings\":[{\"at\":\"2026-05-03T14:00:00Z\",\"temperatureC\":-300}]}", 422)]
    [InlineData("{\"place\":\"Closet\",\"readings\":[{\"at\":\"2026-05-03T14:00:00Z\"}]}", 422)]
    [InlineData("{\"place\":\"Closet\",\"readings\":[]}", 422)]
    [InlineData("{\"place\":\"Nowhere\",\"readings\":[{\"at\":\"2026-05-03T14:00:00Z\",\"temperatureC\":20}]}", 422)]
    [InlineData("{\"readings\":[{\"at\":\"2026-05-03T14:00:00Z\",\"temperatureC\":20}]}", 422)]
    [InlineData("{\"place\":\"Closet\",\"readings\":[{\"at\":\"2026-05-03T14:00:00Z\",\"temperature\":20}]}", 400)]
    [InlineData("{\"place\":\"Closet\",\"readings\":[{\"at\":\"2026-05-03T14:00:00Z\",\"temperatureC\":\"warm\"}]}", 400)]
    [InlineData("null", 422)]
    public async Task Readings_that_cannot_be_are_refused_whole(string body, int status)
    {
        await using var page = await OpenPage.Start();
        await ApiCase.Jar(page);
        var before = (await page.Cellar()).Version;
        using var answer = await page.Send(HttpMethod.Post, "/api/readings", new StringContent(body, Encoding.UTF8, "application/json"));
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal(before, (await page.Cellar()).Version);
    }
}
