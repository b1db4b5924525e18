using System.Net;
using System.Runtime.Versioning;
using Undercroft.Serving;
using Xunit;

namespace Undercroft.Tests.Serving;

public class RequestGateTests(OpenPage page) : IClassFixture<OpenPage>
{
    [Fact]
    public async Task Health_answers_when_ready()
    {
        using var answer = await page.Send(HttpMethod.Get, "/health");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Theory]
    [InlineData("127.0.0.1")]
    [InlineData("localhost")]
    [InlineData("[::1]")]
    public async Task Own_names_are_answered(string host)
    {
        using var answer = await page.Send(HttpMethod.Get, "/add", null, ("Host", $"{host}:{page.Address.Port}"));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Theory]
    [InlineData("cellar.example:{port}")]
    [InlineData("127.0.0.1.cellar.example:{port}")]
    [InlineData("localhost.cellar.example:{port}")]
    [InlineData("localhost.:{port}")]
    [InlineData("127.0.0.1")]
    [InlineData("127.0.0.1:1")]
    [InlineData("192.168.1.20:{port}")]
    public async Task Foreign_names_are_turned_away(string host)
    {
        foreach (var path in (string[])["/add", "/health", "/assets/page.css"])
        {
            using var answer = await page.Send(HttpMethod.Get, path, null, ("Host", host.Replace("{port}", $"{page.Address.Port}", StringComparison.Ordinal)));
            Assert.Equal(HttpStatusCode.MisdirectedRequest, answer.StatusCode);
        }
    }

    [Fact]
    public async Task Forwarded_names_change_nothing()
    {
        using var spoofed = await page.Send(HttpMethod.Get, "/add", null, ("Host", $"cellar.example:{page.Address.Port}"), ("X-Forwarded-Host", $"127.0.0.1:{page.Address.Port}"));
        Assert.Equal(HttpStatusCode.MisdirectedRequest, spoofed.StatusCode);
    }

    [Theory]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    [InlineData("Sec-Fetch-Site", "none")]
    [InlineData("Origin", "http://cellar.example")]
    [InlineData("Origin", "null")]
    [InlineData("Origin", "http://127.0.0.1:1")]
    public async Task Writes_from_elsewhere_are_refused(string header, string value)
    {
        foreach (var method in (HttpMethod[])[HttpMethod.Post, HttpMethod.Put, HttpMethod.Delete, HttpMethod.Patch])
        {
            using var answer = await page.Send(method, "/add", new FormUrlEncodedContent([]), (header, value));
            Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        }
    }

    [Fact]
    public async Task Reading_from_a_link_elsewhere_is_answered()
    {
        using var answer = await page.Send(HttpMethod.Get, "/add", null, ("Sec-Fetch-Site", "cross-site"));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Fact]
    public async Task A_write_without_the_token_is_refused_with_a_sentence()
    {
        using var answer = await page.Send(HttpMethod.Post, "/add", new FormUrlEncodedContent([new("_handler", "anything")]),
            ("Sec-Fetch-Site", "same-origin"), ("Origin", page.Address.GetLeftPart(UriPartial.Authority)));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("nothing was done", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_that_is_too_large_is_refused()
    {
        using var answer = await page.Send(HttpMethod.Post, "/add", new FormUrlEncodedContent([new("note", new string('x', (int)RequestGate.FormBytes))]), ("Sec-Fetch-Site", "same-origin"));
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
    }

    [Theory]
    [InlineData("/add")]
    [InlineData("/health")]
    [InlineData("/assets/page.css")]
    [InlineData("/nowhere")]
    public async Task Every_answer_carries_the_policy(string path)
    {
        using var answer = await page.Send(HttpMethod.Get, path);
        var policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
        foreach (var part in (string[])["default-src 'none'", "style-src 'self'", "form-action 'self'", "frame-ancestors 'none'", "base-uri 'none'"])
            Assert.Contains(part, policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.Equal("same-origin", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
        Assert.Equal("same-origin", Assert.Single(answer.Headers.GetValues("Cross-Origin-Opener-Policy")));
        Assert.True(answer.Headers.CacheControl is { NoCache: true, Private: true, NoStore: false }); // nobody signs in here: a half-filled form outlives the back button
        Assert.False(answer.Headers.Contains("Server"));
    }

    [Fact]
    public async Task An_asset_is_kept_only_under_the_address_of_its_content()
    {
        using var kept = await page.Send(HttpMethod.Get, Assets.AddressOf("page.css"));
        Assert.Equal(TimeSpan.FromDays(365), kept.Headers.CacheControl!.MaxAge);
        using var stale = await page.Send(HttpMethod.Get, "/assets/page.css?v=0");
        Assert.True(stale.Headers.CacheControl is { NoCache: true, MaxAge: null });
    }

    [Theory]
    [InlineData("/assets/none.css")]
    [InlineData("/assets/..%2fundercroft.dll")]
    [InlineData("/assets/%2e%2e/undercroft.dll")]
    public async Task No_path_is_made_from_a_name(string path)
    {
        using var answer = await page.Send(HttpMethod.Get, path);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [Fact]
    [UnsupportedOSPlatform("windows")]
    public async Task Keys_are_for_their_owner_alone()
    {
        using var answer = await page.Send(HttpMethod.Get, "/add");
        const UnixFileMode owner = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
        Assert.Equal(owner, File.GetUnixFileMode(page.Folder));
        Assert.Equal(owner, File.GetUnixFileMode(Path.Combine(page.Folder, "keys")));
        foreach (var key in Directory.EnumerateFiles(Path.Combine(page.Folder, "keys")))
            Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(key) & ~owner);
    }
}
