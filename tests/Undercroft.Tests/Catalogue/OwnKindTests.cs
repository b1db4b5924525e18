using System.Net;
using System.Text.Json;
using Undercroft.Tests.Serving;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Catalogue;

/// <summary>Films and containers of the keeper's own: described once, known to forecast, comparison, lists; undone where nothing rests on them.</summary>
public sealed class OwnKindTests : IDisposable
{
    private static readonly string[] Foil = ["own", "film", "shop-foil", "--water", "0.01", "--water-test", "38C/90%", "--oxygen", "0.006", "--oxygen-test", "23C/0%", "--foil"];
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task A_film_and_a_pouch_of_it_are_compared_and_forecast()
    {
        await cli.Json(Foil);
        var described = await cli.Json("own", "container", "my-pouch", "--like", "pouch-vacuum", "--film", "shop-foil", "--area", "700cm2", "--capacity", "600ml", "--cost", "1EUR");
        Assert.Equal("container-described/1", described.GetProperty("event").GetProperty("type").GetString());
        var kinds = (await cli.Json("compare", "--mass", "100g", "--years", "3", "--draws", "64", "my-pouch", "pouch-vacuum")).GetProperty("kinds");
        Assert.Equal("my-pouch", kinds[0].GetProperty("kind").GetString());
        Assert.True(kinds[0].GetProperty("waterRangeMgPerGYear").GetProperty("p50").GetDouble() < 0.05 * kinds[1].GetProperty("waterRangeMgPerGYear").GetProperty("p50").GetDouble());
        Assert.True(kinds[0].GetProperty("costPerYear").GetDouble() > 0);

        var id = (await cli.Json("add", "--net", "100g", "--container", "my-pouch", "--sealed", "2026-04-01")).GetProperty("ids")[0].GetString()!;
        var own = (await cli.Json("forecast", id, "--years", "3", "--draws", "64")).GetProperty("packages")[0];
        var other = (await cli.Json("forecast", id, "--years", "3", "--draws", "64", "--in", "bag-zip")).GetProperty("packages")[0];
        Assert.Equal("keeps", own.GetProperty("condition").GetString());
        Assert.Equal("drying", other.GetProperty("condition").GetString());
        Assert.Contains(own.GetProperty("assumptions").EnumerateArray(), used => used.GetProperty("what").GetString() == "my-pouch: film");
        Assert.Equal("my-pouch", (await cli.Json("show", id)).GetProperty("packages")[0].GetProperty("container").GetString());
    }

    [Fact]
    public async Task An_own_container_is_known_in_sheets_and_to_questions_without_records()
    {
        await cli.Json("own", "container", "my-crock", "--name", "Blue crock", "--like", "jar-946", "--capacity", "1500ml");
        await File.WriteAllTextAsync(Path.Combine(cli.Work, "mine.csv"), "Blend,Net,Kept in,Bought\nFen,200 g,blue crock,2015\nMoss,100 g,my-crock,2016\nLarch,50 g,tin,2017\n", TestContext.Current.CancellationToken);
        await cli.Json("import", "sheet", "mine.csv");
        var packages = (await cli.Json("show")).GetProperty("packages").EnumerateArray().ToDictionary(package => package.GetProperty("blend").GetString()!, package => package.GetProperty("container").GetString());
        Assert.Equal(("my-crock", "my-crock", "tin-pull-50"), (packages["Fen"], packages["Moss"], packages["Larch"]));
        Assert.NotEqual(JsonValueKind.Undefined, (await cli.Json("ask", "--in", "my-crock", "--mass", "200g", "--years", "2", "--draws", "64")).GetProperty("moistureWetBasisPct").ValueKind);
        var fen = (await cli.Json("show")).GetProperty("packages").EnumerateArray().First(package => package.GetProperty("blend").GetString() == "Fen").GetProperty("id").GetString()!;
        Assert.NotEmpty((await cli.Json("place", "freeze", "--package", fen)).GetProperty("steps").EnumerateArray());
        Assert.Contains("No container kind", await cli.Refused(1, "ask", "--in", "my-crook", "--mass", "200g"), StringComparison.Ordinal);
    }

    // The gasket of a clamp jar is worked out from the same rubber and the same section as that of the catalogue: entered by hand it must come to the same.
    [Fact]
    public async Task A_gasket_entered_by_hand_comes_to_that_of_the_catalogue()
    {
        await cli.Json("own", "container", "hand-made", "--like", "clamp-500-silicone", "--capacity", "500ml", "--gasket", "silicone", "--perimeter", "267mm", "--height", "1.5mm", "--way", "6mm");
        var kinds = (await cli.Json("compare", "--mass", "100g", "--years", "1", "--draws", "64", "hand-made", "clamp-500-silicone")).GetProperty("kinds");
        Assert.InRange(Supply(kinds[0]) / Supply(kinds[1]), 0.7, 1.4); // names differ, so draws do; the median of 64 scatters by some 15 %
        var page = await cli.Json("kinds", "hand-made");
        Assert.Equal(Value(await cli.Json("kinds", "clamp-500-silicone"), "ring, oxygen"), Value(page, "gasket, oxygen"), 1e-20);
    }

    [Fact]
    public async Task Describing_again_replaces_and_undoing_brings_back()
    {
        await cli.Json("own", "container", "tub", "--like", "jar-473", "--capacity", "1l");
        await cli.Json("own", "container", "tub", "--like", "jar-473", "--capacity", "2l");
        Assert.Equal(2000, Value(await cli.Json("kinds", "tub"), "capacity"), 1e-6);
        await cli.Json("undo");
        Assert.Equal(1000, Value(await cli.Json("kinds", "tub"), "capacity"), 1e-6);
        await cli.Json("add", "--container", "tub");
        Assert.Contains("rest on it", await cli.Refused(1, "undo", "1"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("such as 38C/90%", "own", "film", "f", "--water", "1", "--water-test", "38C", "--oxygen", "1", "--oxygen-test", "23C")]
    [InlineData("water test", "own", "film", "f", "--water", "1", "--oxygen", "1", "--oxygen-test", "23C")]
    [InlineData("drives no water", "own", "film", "f", "--water", "1", "--water-test", "38C/0%", "--oxygen", "1", "--oxygen-test", "23C")]
    [InlineData("not negative", "own", "film", "f", "--water", "-1", "--water-test", "38C/90%", "--oxygen", "1", "--oxygen-test", "23C")]
    [InlineData("no number", "own", "film", "f", "--water", "NaN", "--water-test", "38C/90%", "--oxygen", "1", "--oxygen-test", "23C")]
    [InlineData("no code", "own", "film", "a b", "--water", "1", "--water-test", "38C/90%", "--oxygen", "1", "--oxygen-test", "23C")]
    [InlineData("Take another", "own", "film", "ldpe-70", "--water", "1", "--water-test", "38C/90%", "--oxygen", "1", "--oxygen-test", "23C")]
    [InlineData("Take another", "own", "container", "jar-473", "--like", "jar-473", "--capacity", "1l")]
    [InlineData("jar-473", "own", "container", "tub", "--like", "jar-47", "--capacity", "1l")]
    [InlineData("Nothing sets tub apart", "own", "container", "tub", "--like", "jar-473")]
    [InlineData("give both", "own", "container", "tub", "--like", "bag-zip", "--film", "ldpe-70")]
    [InlineData("No film", "own", "container", "tub", "--like", "bag-zip", "--film", "ldpe-7", "--area", "700cm2")]
    [InlineData("all four", "own", "container", "tub", "--like", "jar-473", "--gasket", "silicone")]
    [InlineData("silicone", "own", "container", "tub", "--like", "jar-473", "--gasket", "silicon", "--perimeter", "220mm", "--height", "1mm", "--way", "3mm")]
    [InlineData("more than zero", "own", "container", "tub", "--like", "jar-473", "--gasket", "silicone", "--perimeter", "0mm", "--height", "1mm", "--way", "3mm")]
    public async Task What_cannot_be_is_refused_and_nothing_is_written(string named, params string[] words)
    {
        Assert.Contains(named, await cli.Refused(1, words), StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFileSystemEntries(cli.Work));
    }

    [Fact]
    public async Task Both_can_be_described_on_a_page()
    {
        await using var page = await OpenPage.Start();
        using var film = await page.Fill("/kinds/own", "film", ("Code", "shop-foil"), ("Water", "0.5"), ("WaterTest", "38C/90%"), ("Oxygen", "1"), ("OxygenTest", "23C/0%"), ("Foil", "yes"));
        Assert.Equal(HttpStatusCode.Found, film.StatusCode);
        using var kind = await page.Fill("/kinds/own", "container", ("Code", "my-pouch"), ("Like", "pouch-foil"), ("Film", "shop-foil"), ("Area", "700cm2"));
        Assert.Equal(HttpStatusCode.Found, kind.StatusCode);
        Assert.EndsWith("/kinds/my-pouch", kind.Headers.Location!.OriginalString, StringComparison.Ordinal);
        var text = WebUtility.HtmlDecode(await page.Read("/kinds/my-pouch"));
        Assert.Contains("entered by the keeper", text, StringComparison.Ordinal);
        Assert.Contains("my-pouch", await page.Read("/compare"), StringComparison.Ordinal);
        using var named = await page.Fill("/kinds/own", "container", ("Code", "my-crock"), ("Name", "Blue crock"), ("Like", "jar-946"), ("Capacity", "750ml"));
        Assert.Equal(HttpStatusCode.Found, named.StatusCode);
        using var added = await page.Fill("/add", "rows", ("Blend-0", "Fen"), ("Net-0", "100g"), ("Container-0", "my-crock"));
        Assert.Equal(HttpStatusCode.Found, added.StatusCode);
        Assert.Contains("Blue crock", await page.Read("/packages"), StringComparison.Ordinal);
        Assert.Contains("Blue crock", await page.Read("/trouble/unknown"), StringComparison.Ordinal);
        using var wrong = await page.Fill("/kinds/own", "film", ("Code", "x"), ("Water", "0.5"), ("WaterTest", "38C"), ("Oxygen", "1"), ("OxygenTest", "23C"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
    }

    [Fact]
    public async Task Every_entry_of_the_catalogue_has_a_page_where_every_number_says_how_it_is_known()
    {
        await using var page = await OpenPage.Start();
        var list = await page.Read("/kinds");
        foreach (var kind in (await cli.Json("kinds")).GetProperty("kinds").EnumerateArray())
        {
            var code = kind.GetProperty("code").GetString()!;
            Assert.Contains($"href=\"/kinds/{code}\"", list, StringComparison.Ordinal);
        }

        foreach (var code in new[] { "jar-473", "ldpe", "foil", "pack-62-8", "cellar", "flake", "burley" })
        {
            var values = (await cli.Json("kinds", code)).GetProperty("values").EnumerateArray().ToArray();
            Assert.NotEmpty(values);
            Assert.All(values, value => Assert.Contains(
                value.GetProperty("provenance").GetString(), new[] { "published", "common practice, no source", "derived", "derived (fitted)", "from memory", "assumption" }));
            Assert.Contains("<td><strong>", await page.Read("/kinds/" + code), StringComparison.Ordinal);
        }

        using var none = await page.Send(HttpMethod.Get, "/kinds/jar-47");
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
    }

    private static double Supply(JsonElement kind) => kind.GetProperty("oxygenMlPerGYear").GetDouble();

    private static double Value(JsonElement page, string what) => page.GetProperty("values").EnumerateArray().First(value => value.GetProperty("what").GetString() == what).GetProperty("value").GetDouble();
}
