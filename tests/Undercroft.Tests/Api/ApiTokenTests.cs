using System.Net;
using System.Text;
using Undercroft.Shell.Web;
using Undercroft.Tests.Access;
using Xunit;

namespace Undercroft.Tests.Api;

/// <summary>Who may ask the HTTP API for what.</summary>
public sealed class ApiTokenTests
{
    [Fact]
    public async Task From_elsewhere_a_token_opens_what_it_is_good_for_and_nothing_else()
    {
        await using var page = await Strangers.Guarded();
        var id = await ApiCase.Jar(page);
        using var program = Strangers.Browser(page);
        string Token(Scope may) => ApiCase.Make(page, may);
        var (read, measure, write) = (Token(Scope.Read), Token(Scope.Measure), Token(Scope.Write));
        var weighing = new StringContent("{\"mass\":\"600g\"}", Encoding.UTF8, "application/json");
        foreach (var (token, method, address, expected) in new (string?, string, string, int)[]
        {
            (null, "GET", "/api/packages", 401), ("uc_" + new string('0', 32), "GET", "/api/packages", 401), (read, "GET", "/api/packages", 200),
            (measure, "GET", "/api/packages", 403), (write, "GET", "/api/packages", 403), (read, "POST", $"/api/packages/{id}/weighings", 403),
            (measure, "POST", $"/api/packages/{id}/weighings", 200), (write, "POST", $"/api/packages/{id}/weighings", 200),
            (measure, "POST", $"/api/packages/{id}/takings", 403), (measure, "POST", "/api/undoings", 403), (null, "GET", "/api/openapi.json", 401), (read, "GET", "/api/openapi.json", 200),
            (read, "GET", "/packages", 403), (write, "GET", "/access", 403), (write, "POST", "/undo", 403), (null, "GET", "/api/nothing", 401),
        })
        {
            using var answer = await program.Ask(address, token, new(method), method == "POST" ? new StringContent("{\"mass\":\"600g\"}", Encoding.UTF8, "application/json") : null);
            Assert.True(expected == (int)answer.StatusCode, $"{method} {address}: {(int)answer.StatusCode} instead of {expected}");
            if (expected == 401)
                Assert.Equal("Bearer", answer.Headers.WwwAuthenticate.ToString());
        }

        Assert.Equal(["a measure program", "a write program"], (await page.Cellars.EventsAsync(cancellation: TestContext.Current.CancellationToken)).Select(line => line.Who).OfType<string>());
    }

    [Fact]
    public async Task A_token_in_an_address_is_good_for_the_calendar_alone()
    {
        await using var page = await Strangers.Guarded();
        using var program = Strangers.Browser(page);
        using var answer = await program.Ask("/api/packages?token=" + ApiCase.Make(page, Scope.Read));
        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
    }

    [Fact]
    public async Task A_signed_in_browser_may_ask_too()
    {
        await using var page = await Strangers.Guarded();
        using var browser = Strangers.Browser(page);
        using var entered = await browser.SignIn("desk", Strangers.Password);
        using var answer = await browser.Ask("/api/packages");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }
}
