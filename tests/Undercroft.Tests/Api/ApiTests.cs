using System.Net;
using System.Net.Http.Json;
using System.Text;
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

/// <summary>The HTTP API: the commands' own answers, and nothing that a command line could be talked into.</summary>
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
        var id = await Jar(page);
        var answered = await page.Read(address.Replace("{id}", id, StringComparison.Ordinal));
        var printed = await Printed(page, command.Replace("{id}", id, StringComparison.Ordinal).Split(' '));
        Assert.Equal(printed, answered);
    }

    [Fact]
    public async Task Every_act_can_be_written_down_and_says_what_the_command_says()
    {
        await using var page = await OpenPage.Start();
        var id = await Jar(page);
        foreach (var (address, body) in new (string, object)[]
        {
            ($"/api/packages/{id}/weighings", new { mass = "612.3g", scale = "0.1g" }),
            ($"/api/packages/{id}/humidities", new { humidity = "62%", temperature = "20C" }),
            ($"/api/packages/{id}/looks", new { findings = new[] { "lid-loose", "rust" }, note = "--json" }),
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
        var id = await Jar(page);
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
        var id = await Jar(page);
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

    [Fact]
    public async Task From_elsewhere_a_token_opens_what_it_is_good_for_and_nothing_else()
    {
        await using var page = await Strangers.Guarded();
        var id = await Jar(page);
        using var program = Strangers.Browser(page);
        string Token(Scope may) => Make(page, may);
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
        using var answer = await program.Ask("/api/packages?token=" + Make(page, Scope.Read));
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

    [Fact]
    public async Task The_description_names_every_address_with_its_fields()
    {
        await using var page = await OpenPage.Start();
        using var json = JsonDocument.Parse(await page.Read("/api/openapi.json"));
        Assert.StartsWith("3.", json.RootElement.GetProperty("openapi").GetString(), StringComparison.Ordinal);
        var paths = json.RootElement.GetProperty("paths");
        foreach (var route in ApiMap.Routes)
        {
            var operation = paths.GetProperty(route.Address).GetProperty(route.Method.ToLowerInvariant());
            Assert.NotEqual("", operation.GetProperty("summary").GetString());
            Assert.Contains($"scope {route.Needs.ToString().ToLowerInvariant()}", operation.GetProperty("description").GetString(), StringComparison.Ordinal);
        }

        var weigh = paths.GetProperty("/api/packages/{id}/weighings").GetProperty("post");
        Assert.Equal("id", Assert.Single(weigh.GetProperty("parameters").EnumerateArray()).GetProperty("name").GetString());
        Assert.Equal(["200", "400", "401", "403", "404", "409", "413", "415", "422", "500"], weigh.GetProperty("responses").EnumerateObject().Select(answer => answer.Name).Order());
        Assert.False(paths.GetProperty("/api/due").GetProperty("get").GetProperty("responses").TryGetProperty("409", out _));
        var body = weigh.GetProperty("requestBody").GetProperty("content").GetProperty("application/json").GetProperty("schema");
        Assert.Equal(["mass"], body.GetProperty("required").EnumerateArray().Select(name => name.GetString()));
        Assert.Equal("boolean", body.GetProperty("properties").GetProperty("net").GetProperty("type").GetString());
        Assert.True(paths.TryGetProperty("/api/readings", out _));
        Assert.Equal(ApiMap.Routes.Select(route => route.Address).Append("/api/readings").Distinct().Count(), paths.EnumerateObject().Count(path => path.Name.StartsWith("/api", StringComparison.Ordinal)));
        Assert.Equal("bearer", json.RootElement.GetProperty("components").GetProperty("securitySchemes").GetProperty("token").GetProperty("scheme").GetString());
    }

    [Fact]
    public async Task Reading_never_writes()
    {
        await using var page = await OpenPage.Start();
        var id = await Jar(page);
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

    [Fact]
    public void No_address_takes_or_writes_a_file()
    {
        var root = Commands.In(new CommandLine(new Terminal(TextWriter.Null, TextWriter.Null, TimeProvider.System, _ => null, "/")));
        foreach (var route in ApiMap.Routes)
        {
            foreach (var field in ApiWords.FieldsOf(root, route))
                Assert.DoesNotMatch("(?i)\\b(file|folder|zip|pdf|directory)\\b", field.Name + " " + field.Description);
            Assert.DoesNotContain(route.Words.Split(' ')[0], (string[])["backup", "restore", "export", "import", "print", "calendar", "demo", "serve", "solve", "access"]);
        }
    }

    /// <summary>Whatever a command could write, behind an address that only reads it cannot.</summary>
    [Fact]
    public async Task What_only_reads_stands_behind_glass()
    {
        await using var page = await OpenPage.Start();
        await Jar(page);
        var before = (await page.Cellar()).Version;
        foreach (var route in ApiMap.Routes.Where(route => route.Method == "GET"))
        {
            var handed = ApiCall.HandedTo(route, new Handed(page.Cellars, cellar => Present.Of(OpenPage.Today, cellar, TimeProvider.System)));
            var refused = await Assert.ThrowsAsync<Refusal>(async () => await handed.Cellars.ChangeAsync(_ => [CellarEvent.New(new Fact.Noted("one more"), UnevenDate.Unknown, DateTimeOffset.UnixEpoch)], TestContext.Current.CancellationToken));
            Assert.Equal(403, ApiCall.StatusOf(refused, []));
        }

        Assert.Equal(before, (await page.Cellar()).Version);
    }

    [Fact]
    public void Every_command_has_an_address_or_a_reason_for_none()
    {
        var root = Commands.In(new CommandLine(new Terminal(TextWriter.Null, TextWriter.Null, TimeProvider.System, _ => null, "/")));
        string[] commands = [.. Leaves(root, "")];
        var routed = ApiMap.Routes.Select(route => route.Words).ToHashSet();
        Assert.DoesNotContain(commands, words => !routed.Contains(words) && !ApiMap.Without.ContainsKey(words));
        Assert.DoesNotContain(ApiMap.Without.Keys, words => routed.Contains(words) || !commands.Contains(words));

        static IEnumerable<string> Leaves(System.CommandLine.Command command, string words) => command.Subcommands.SelectMany(inner =>
            inner.Subcommands.Count == 0 ? [$"{words} {inner.Name}".Trim()] : Leaves(inner, $"{words} {inner.Name}".Trim()));
    }

    [Theory]
    [InlineData(typeof(IOException), 500)]
    [InlineData(typeof(UnauthorizedAccessException), 500)]
    [InlineData(typeof(InvalidOperationException), 500)]
    [InlineData(null, 422)]
    public void A_failure_is_not_told_as_a_refusal(Type? ended, int status) => Assert.Equal(status, ApiCall.StatusOf(ended is null ? null : (Exception)Activator.CreateInstance(ended)!, ["20HB9"]));

    [Fact]
    public async Task Readings_are_kept_once()
    {
        await using var page = await OpenPage.Start();
        await Jar(page);
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
        await Jar(page);
        var before = (await page.Cellar()).Version;
        using var answer = await page.Send(HttpMethod.Post, "/api/readings", new StringContent(body, Encoding.UTF8, "application/json"));
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal(before, (await page.Cellar()).Version);
    }

    private static async Task<string> Jar(OpenPage page)
    {
        await Printed(page, "add", "--blend", "Evening ribbon", "--container", "jar-473", "--net", "110g", "--sealed", "2024-03", "--place", "Closet");
        return (await page.Cellar()).Packages.Keys.Single().ToString();
    }

    private static string Make(OpenPage page, Scope may)
    {
        using var store = Undercroft.Access.AccessStore.Open(page.Folder, TimeProvider.System);
        return store.NewToken($"a {may.ToString().ToLowerInvariant()} program", may).Secret;
    }

    private static async Task<string> Printed(OpenPage page, params string[] words)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var line = new CommandLine(new Terminal(output, error, TimeProvider.System, _ => null, "/"));
        var exit = await line.Run(Commands.In(line), [.. words, "--json", "--data", page.Folder, "--today", "2026-11-24"]);
        Assert.True(exit == 0, error.ToString());
        return output.ToString();
    }
}
