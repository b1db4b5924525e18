using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Undercroft.Api;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Shell;
using Undercroft.Shell.Web;
using Undercroft.Tests.Access;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Api;

/// <summary>The HTTP API: the commands' own answers, and what only reads never writes.</summary>
public sealed class ApiTests
{
    [Theory]
    [InlineData("/api/packages", "show")]
    [InlineData("/api/packages/{id}", "show {id}")]
    [InlineData("/api/packages/{id}?asOf=2024-12-31", "show {id} --as-of 2024-12-31")]
    [InlineData("/api/packages/{id}/history", "history {id}")]
    [InlineData("/api/packages/{id}/forecast?years=3&draws=64", "forecast {id} --years 3 --draws 64")]
    [InlineData("/api/forecasts?years=2&draws=32&in=jar-473", "forecast --years 2 --draws 32 --in jar-473")]
    [InlineData("/api/places/Closet", "place show Closet")]
    [InlineData("/api/due?minutes=30&money=true", "due --minutes 30 --money")]
    [InlineData("/api/doubts", "doubts")]
    [InlineData("/api/history", "history")]
    [InlineData("/api/ask?in=bag-zip&leaf=burley&mass=50g&room=cupboard&years=1&draws=32", "ask --in bag-zip --leaf burley --mass 50g --room cupboard --years 1 --draws 32")]
    [InlineData("/api/kinds?what=jar-473", "kinds jar-473")]
    [InlineData("/api/verify", "verify")]
    [InlineData("/api/calc/air?temperature=25C&humidity=60%25", "calc air --temperature 25C --humidity 60%")]
    [InlineData("/api/calc/laminate?layer=140&layer=3560", "calc laminate --layer 140 --layer 3560")]
    [InlineData("/api/calc/mkt?temperature=20C*2&temperature=2C*4", "calc mkt --temperature 20C*2 --temperature 2C*4")]
    [InlineData("/api/calc/hygrometer?point=33.1%25%3D36.0%25&point=75.5%25%3D73.0%25&reading=60%25", "calc hygrometer --point 33.1%=36.0% --point 75.5%=73.0% --reading 60%")]
    public async Task An_address_answers_what_the_command_prints(string address, string command)
    {
        await using var page = await OpenPage.Start();
        var id = await ApiCase.Jar(page);
        var answered = await page.Read(address.Replace("{id}", id, StringComparison.Ordinal));
        var printed = await ApiCase.Printed(page, command.Replace("{id}", id, StringComparison.Ordinal).Split(' '));
        Assert.Equal(printed, answered);
    }

    [Fact]
    public async Task Every_act_can_be_written_down_and_says_what_the_command_says()
    {
        await using var page = await OpenPage.Start();
        var id = await ApiCase.Jar(page);
        foreach (var (address, body) in new (string, object)[]
        {
            ($"/api/packages/{id}/weighings", new { mass = "612.3g", scale = "0.1g" }),
            ($"/api/packages/{id}/humidities", new { humidity = "62%", temperature = "20C" }),
            ($"/api/packages/{id}/looks", new { findings = new[] { "lid-loose", "rust" }, note = "--json" }),
            ($"/api/packages/{id}/containers", new { empty = "212g", full = "698g" }),
            ($"/api/packages/{id}/openings", new { note = "@/etc/hostname" }),
            ($"/api/packages/{id}/closings", new { on = "2026-11" }),
            ($"/api/packages/{id}/takings", new { mass = "5g" }),
            ($"/api/packages/{id}/waterings", new { mass = "-2g" }),
            ("/api/places", new { name = "Loft", inside = "Closet" }),
            ($"/api/packages/{id}/moves", new { place = "Closet/Loft" }),
            ($"/api/packages/{id}/repackings", new { container = "jar-237", tare = "200g" }),
            ("/api/notes", new { id, text = "--data=/tmp smells of raisins" }),
            ("/api/corrections", new { @event = "4", mass = "611.8g" }),
            ("/api/undoings", new { }),
            ($"/api/packages/{id}/removals", new { @as = "given" }),
        })
        {
            var before = (await page.Cellar()).Version;
            using var answer = await page.Send(HttpMethod.Post, address, JsonContent.Create(body));
            var text = await answer.Text();
            Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{address}: {text}");
            using var json = JsonDocument.Parse(text);
            Assert.Equal($"{before + 1}", json.RootElement.GetProperty("event").GetProperty("id").GetString());
            Assert.Equal(before + 1, (await page.Cellar()).Version);
        }

        var package = (await page.Cellar()).Packages.Values.Single();
        Assert.Equal("--json", package.Looks.Single().Fact.Text);
        Assert.Equal("@/etc/hostname", package.Openings.Single().Fact.Text);
        Assert.False(package.IsHere);
    }

    [Fact]
    public async Task Reading_never_writes()
    {
        await using var page = await OpenPage.Start();
        var id = await ApiCase.Jar(page);
        var before = (await page.Cellar()).Version;
        foreach (var route in ApiMap.Routes.Where(route => route.Method == "GET"))
            using (await page.Send(HttpMethod.Get, route.Address.Replace("{id}", id, StringComparison.Ordinal).Replace("{name}", "Closet", StringComparison.Ordinal).Replace("{what}", "mould", StringComparison.Ordinal)))
                Assert.Equal(before, (await page.Cellar()).Version);
        Assert.All(ApiMap.Routes.Where(route => route.Needs != Scope.Read), route => Assert.Equal("POST", route.Method));
        foreach (var route in ApiMap.Routes.Where(route => route.Method == "POST"))
        {
            using var read = await page.Send(HttpMethod.Get, route.Address.Replace("{id}", id, StringComparison.Ordinal).Replace("{what}", "mould", StringComparison.Ordinal));
            Assert.True((int)read.StatusCode is 404 or 405 or 200, route.Address);
        }

        Assert.Equal(before, (await page.Cellar()).Version);
    }

    [Theory]
    [InlineData("/api/packages", "application/json; charset=utf-8")]
    [InlineData("/api/nothing", "application/problem+json; charset=utf-8")]
    [InlineData("/packages", "text/html; charset=utf-8")]
    [InlineData("/nowhere", "text/plain; charset=utf-8")]
    [InlineData("/health", "text/plain; charset=utf-8")]
    [InlineData("/assets/page.css", "text/css; charset=utf-8")]
    public async Task Every_answer_names_its_form_and_letters(string address, string form)
    {
        await using var page = await OpenPage.Start();
        using var answer = await page.Send(HttpMethod.Get, address);
        Assert.Equal(form, answer.Content.Headers.ContentType!.ToString());
    }

    /// <summary>Whatever a command could write, behind an address that only reads it cannot.</summary>
    [Fact]
    public async Task What_only_reads_stands_behind_glass()
    {
        await using var page = await OpenPage.Start();
        await ApiCase.Jar(page);
        var before = (await page.Cellar()).Version;
        foreach (var route in ApiMap.Routes.Where(route => route.Method == "GET"))
        {
            var handed = ApiCall.HandedTo(route, new Handed(page.Cellars, cellar => Present.Of(OpenPage.Today, cellar, TimeProvider.System)));
            var refused = await Assert.ThrowsAsync<Refusal>(async () => await handed.Cellars.ChangeAsync(_ => [CellarEvent.New(new Fact.Noted("one more"), UnevenDate.Unknown, DateTimeOffset.UnixEpoch)], TestContext.Current.CancellationToken));
            Assert.Equal(403, ApiCall.StatusOf(refused, []));
        }

        Assert.Equal(before, (await page.Cellar()).Version);
    }
}
