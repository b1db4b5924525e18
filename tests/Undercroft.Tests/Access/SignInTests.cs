using System.Net;
using System.Text.RegularExpressions;
using Undercroft.Access;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Access;

/// <summary>Coming in from another machine: with the password or a code, and not otherwise.</summary>
public sealed partial class SignInTests
{
    [Fact]
    public async Task Nothing_is_shown_before_sign_in()
    {
        await using var page = await Strangers.Guarded();
        using var browser = Strangers.Browser(page);
        foreach (var path in (string[])["/", "/packages", "/packages/2GDJX", "/add", "/history", "/doubts", "/import", "/access", "/you", "/nowhere", "/undo"])
        {
            using var answer = await browser.Ask(path);
            Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
            Assert.StartsWith("/sign-in", answer.Headers.Location!.OriginalString, StringComparison.Ordinal);
            Assert.Equal("", await answer.Text());
            Assert.True(answer.Headers.CacheControl!.NoStore, path);
        }

        foreach (var path in (string[])["/health", "/assets/page.css", "/sign-in"])
        {
            using var answer = await browser.Ask(path);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        }
    }

    [Fact]
    public async Task A_write_before_sign_in_is_refused_and_says_so()
    {
        await using var page = await Strangers.Guarded();
        using var browser = Strangers.Browser(page);
        foreach (var path in (string[])["/add", "/undo", "/places", "/access/end", "/access"])
        {
            using var answer = await browser.Ask(path, method: HttpMethod.Post, content: new FormUrlEncodedContent([new("_handler", "rows")]));
            Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
            Assert.Contains("nothing was done", await answer.Text(), StringComparison.Ordinal);
        }

        Assert.Equal(0, (await page.Cellar()).Version);
    }

    [Fact]
    public async Task The_password_lets_a_device_in_and_sends_it_where_it_wanted_to_go()
    {
        await using var page = await Strangers.Guarded();
        using var browser = Strangers.Browser(page);
        using var answer = await browser.SignIn("kitchen tablet", Strangers.Password, to: "/places?x=1");
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        Assert.EndsWith("/places?x=1", answer.Headers.Location!.OriginalString, StringComparison.Ordinal);
        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"), each => each.StartsWith($"undercroft-0=", StringComparison.Ordinal));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        using var places = await browser.Ask("/places");
        Assert.Equal(HttpStatusCode.OK, places.StatusCode);
        Assert.True(places.Headers.CacheControl!.NoStore); // what a signed-in device saw is not kept in its browser
        Assert.Contains("kitchen tablet", await (await browser.Ask("/access")).Text(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("four plain wooden spoon")]
    [InlineData("Four plain wooden spoons")]
    [InlineData(" four plain wooden spoons")]
    [InlineData("four plain wooden spoons ")]
    public async Task A_wrong_password_lets_nobody_in(string typed)
    {
        await using var page = await Strangers.Guarded();
        using var browser = Strangers.Browser(page);
        using var answer = await browser.SignIn("kitchen tablet", typed);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        if (typed.Length > 0)
            Assert.DoesNotContain(typed, await answer.Text(), StringComparison.Ordinal);
        using var home = await browser.Ask("/places");
        Assert.Equal(HttpStatusCode.Found, home.StatusCode);
    }

    [Fact]
    public async Task Guessing_ends_after_ten_attempts_and_leaves_who_is_in_alone()
    {
        await using var page = await Strangers.Guarded();
        using var known = Strangers.Browser(page);
        using var entered = await known.SignIn("desk", Strangers.Password);
        using var browser = Strangers.Browser(page);
        List<HttpStatusCode> answers = [];
        for (var attempt = 0; attempt < 12; attempt++)
        {
            using var answer = await browser.SignIn("guesser", $"guess number {attempt} of many");
            answers.Add(answer.StatusCode);
        }

        Assert.Equal(9, answers.TakeWhile(status => status == HttpStatusCode.UnprocessableEntity).Count()); // the tenth attempt was the one that knew it
        Assert.All(answers.Skip(9), status => Assert.Equal(HttpStatusCode.TooManyRequests, status));
        using var right = await browser.SignIn("guesser", Strangers.Password);
        Assert.Equal(HttpStatusCode.TooManyRequests, right.StatusCode);
        using var inside = await known.Ask("/places");
        Assert.Equal(HttpStatusCode.OK, inside.StatusCode);
    }

    [Fact]
    public async Task A_code_lets_one_other_device_in_once()
    {
        await using var page = await Strangers.Guarded();
        using var desk = Strangers.Browser(page);
        using var entered = await desk.SignIn("desk", Strangers.Password);
        using var made = await desk.Fill("/access", "pair");
        var code = CodeShown().Match(await made.Text()).Groups["code"].Value;
        Assert.Matches("^[0-9A-Z]{4}-[0-9A-Z]{4}$", code);

        using var phone = Strangers.Browser(page);
        using var let = await phone.SignIn("phone", code: code.ToLowerInvariant().Replace("-", " ", StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.Found, let.StatusCode);
        using var inside = await phone.Ask("/places");
        Assert.Equal(HttpStatusCode.OK, inside.StatusCode);

        using var stranger = Strangers.Browser(page);
        using var again = await stranger.SignIn("stranger", code: code);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, again.StatusCode);
    }

    [Fact]
    public async Task A_device_that_is_shown_out_is_out_at_once()
    {
        await using var page = await Strangers.Guarded();
        using var desk = Strangers.Browser(page);
        using var phone = Strangers.Browser(page);
        using var first = await desk.SignIn("desk", Strangers.Password);
        using var second = await phone.SignIn("phone", Strangers.Password);
        var listed = await (await desk.Ask("/access")).Text();
        var id = Regex.Match(listed, "<strong>phone</strong> <span class=\"id\">(?<id>[0-9A-Z]+)<").Groups["id"].Value;
        using var shown = await desk.Fill("/access/end", "end", ("Id", id));
        Assert.Equal(HttpStatusCode.Found, shown.StatusCode);
        using var out1 = await phone.Ask("/places");
        Assert.Equal(HttpStatusCode.Found, out1.StatusCode);
        using var in1 = await desk.Ask("/places");
        Assert.Equal(HttpStatusCode.OK, in1.StatusCode);
    }

    [Fact]
    public async Task Signing_out_ends_the_session_on_the_server_too()
    {
        await using var page = await Strangers.Guarded();
        using var cookies = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = new($"http://127.0.0.1:{page.Address.Port}") };
        using var desk = Strangers.Browser(page);
        using var entered = await desk.SignIn("desk", Strangers.Password);
        var kept = entered.Headers.GetValues("Set-Cookie").Single(each => each.StartsWith("undercroft-0=", StringComparison.Ordinal)).Split(';')[0];
        var id = Regex.Match(await (await desk.Ask("/access")).Text(), "<strong>desk</strong> <span class=\"id\">(?<id>[0-9A-Z]+)<").Groups["id"].Value;
        using var ended = await desk.Fill("/access/end", "end", ("Id", id));
        Assert.EndsWith("/sign-in", ended.Headers.Location!.OriginalString, StringComparison.Ordinal);
        Assert.Equal("\"cache\", \"storage\"", Assert.Single(ended.Headers.GetValues("Clear-Site-Data")));

        using var replay = new HttpRequestMessage(HttpMethod.Get, "/places");
        replay.Headers.Add("Cookie", kept);
        using var answer = await cookies.SendAsync(replay, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
    }

    [Fact]
    public async Task Signing_in_again_gives_a_new_session_and_ends_the_old()
    {
        await using var page = await Strangers.Guarded();
        using var desk = Strangers.Browser(page);
        using var first = await desk.SignIn("desk", Strangers.Password);
        using var second = await desk.SignIn("desk again", Strangers.Password);
        var listed = await (await desk.Ask("/access")).Text();
        Assert.Contains("desk again", listed, StringComparison.Ordinal);
        Assert.DoesNotContain("<strong>desk</strong>", listed, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_new_password_needs_the_old_one_and_shows_the_others_out()
    {
        const string New = "seven quiet green boats";
        await using var page = await Strangers.Guarded();
        using var desk = Strangers.Browser(page);
        using var phone = Strangers.Browser(page);
        using var first = await desk.SignIn("desk", Strangers.Password);
        using var second = await phone.SignIn("phone", Strangers.Password);

        using var wrong = await desk.Fill("/access", "password", ("Old", "something else again"), ("New", New));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
        using var still = await phone.Ask("/places");
        Assert.Equal(HttpStatusCode.OK, still.StatusCode);

        using var changed = await desk.Fill("/access", "password", ("Old", Strangers.Password), ("New", New));
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        using var out1 = await phone.Ask("/places");
        Assert.Equal(HttpStatusCode.Found, out1.StatusCode);
        using var in1 = await desk.Ask("/places");
        Assert.Equal(HttpStatusCode.OK, in1.StatusCode);
        using var old = await phone.SignIn("phone", Strangers.Password);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, old.StatusCode);
        using var back = await phone.SignIn("phone", New);
        Assert.Equal(HttpStatusCode.Found, back.StatusCode);
    }

    [Fact]
    public async Task History_says_which_device_wrote()
    {
        await using var page = await Strangers.Guarded();
        using var phone = Strangers.Browser(page);
        using var entered = await phone.SignIn("Ada's phone", Strangers.Password);
        using var added = await phone.Fill("/add", "rows", ("Blend-0", "Evening ribbon"), ("Container-0", "jar-237"));
        Assert.Equal(HttpStatusCode.Found, added.StatusCode);
        Assert.All(await page.Cellars.EventsAsync(cancellation: TestContext.Current.CancellationToken), line => Assert.Equal("Ada's phone", line.Who));
    }

    [Fact]
    public async Task On_this_machine_nobody_signs_in_and_a_device_may_still_have_a_name()
    {
        await using var page = await OpenPage.Start();
        using var browser = Strangers.Browser(page);
        using var kept = await browser.Fill("/you", "you", ("Name", "the desk"), ("Units", "metric"));
        Assert.Equal(HttpStatusCode.Found, kept.StatusCode);
        using var added = await browser.Fill("/add", "rows", ("Blend-0", "Evening ribbon"));
        Assert.All(await page.Cellars.EventsAsync(cancellation: TestContext.Current.CancellationToken), line => Assert.Equal("the desk", line.Who));
    }

    [Theory]
    [InlineData("https://cellar.example/")]
    [InlineData("//cellar.example")]
    [InlineData("/\\cellar.example")]
    [InlineData("javascript:alert(1)")]
    [InlineData("")]
    public async Task Nobody_is_sent_on_to_a_stranger(string to)
    {
        await using var page = await Strangers.Guarded();
        using var browser = Strangers.Browser(page);
        using var answer = await browser.SignIn("desk", Strangers.Password, to: to);
        Assert.Equal("/", new Uri(browser.BaseAddress!, answer.Headers.Location!).PathAndQuery);
        Assert.Equal(browser.BaseAddress!.Authority, new Uri(browser.BaseAddress!, answer.Headers.Location!).Authority);
    }

    [Fact]
    public async Task The_sign_in_page_says_nothing_of_the_cellar_and_lets_helpers_fill_it()
    {
        await using var page = await Strangers.Guarded();
        using var browser = Strangers.Browser(page);
        var text = await (await browser.Ask("/sign-in")).Text();
        Assert.DoesNotContain("/packages", text, StringComparison.Ordinal);
        Assert.Contains("type=\"password\" autocomplete=\"current-password\"", text, StringComparison.Ordinal);
        Assert.Contains("not encrypted", text, StringComparison.Ordinal);
        Assert.False(SignInPage.IsOwnAddress("//cellar.example"));
    }

    [GeneratedRegex("class=\"code\">(?<code>[^<]+)<")]
    private static partial Regex CodeShown();
}
