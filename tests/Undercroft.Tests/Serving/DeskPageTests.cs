using System.Net;
using System.Text.RegularExpressions;
using Undercroft.Shell.Web;
using Xunit;

namespace Undercroft.Tests.Serving;

/// <summary>The pages for sitting down: filters in the address, several at once, lots, map, totals, value, what-if, corrections.</summary>
public sealed partial class DeskPageTests
{
    private static readonly (string, string)[] Rows =
    [
        ("Blend-0", "Evening ribbon"), ("Leaf-0", "burley"), ("Container-0", "jar-473"), ("Net-0", "110g"), ("Count-0", "3"), ("Sealed-0", "2015-03"), ("Place-0", "closet / top"),
        ("Blend-1", "Plain flake"), ("Leaf-1", "flue-cured"), ("Container-1", "tin-pull-50"), ("Net-1", "50g"), ("Sealed-1", "2026-03"), ("Place-1", "closet / low"),
        ("Blend-2", "Odd bag"),
    ];

    [Theory]
    [InlineData("/packages", 5)]
    [InlineData("/packages?Text=ribbon", 3)]
    [InlineData("/packages?Text=burley%20top", 3)]
    [InlineData("/packages?Leaf=flue-cured", 1)]
    [InlineData("/packages?Leaf=unknown", 1)]
    [InlineData("/packages?Age=5", 3)]
    [InlineData("/packages?Age=unknown", 1)]
    [InlineData("/packages?Place=unknown", 1)]
    [InlineData("/packages?Text=ribbon&Age=20", 0)]
    [InlineData("/packages?Leaf=burley&Age=5&State=closed", 3)]
    [InlineData("/packages?State=unweighed", 1)]
    [InlineData("/packages?State=gone", 0)]
    [InlineData("/packages?State=all&Text=nothing-such", 0)]
    public async Task Filters_combine_and_stay_in_the_address(string address, int count)
    {
        await using var page = await Filled();
        var text = await page.Read(address);
        Assert.Equal(count, Pick().Count(text));
        foreach (var part in address.Split('?', '&').Skip(1))
        {
            var (name, value) = (part.Split('=')[0], Uri.UnescapeDataString(part.Split('=')[1]));
            Assert.Contains(name is "Text" ? $"name=\"Text\" value=\"{value}\"" : $"<option value=\"{value}\" selected", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_place_counts_with_what_stands_in_the_places_inside_it()
    {
        await using var page = await Filled();
        var cellar = await page.Cellar();
        var closet = cellar.Places.Values.Single(place => place.Name == "closet").Id;
        var top = cellar.Places.Values.Single(place => place.Name == "top").Id;
        Assert.Equal(4, Pick().Count(await page.Read($"/packages?Place={closet}")));
        Assert.Equal(3, Pick().Count(await page.Read($"/packages?Place={top}")));
    }

    [Fact]
    public async Task Several_are_moved_at_once_and_taken_back_as_a_whole()
    {
        await using var page = await Filled();
        var low = (await page.Cellar()).Places.Values.Single(place => place.Name == "low").Id;
        var before = (await page.Cellar()).Version;
        using var moved = await page.Fill("/packages/many", "many", ("FilterLeaf", "burley"), ("All", "yes"), ("Act", "move"), ("Place", $"{low}"));
        Assert.Equal(HttpStatusCode.Found, moved.StatusCode);
        Assert.EndsWith($"/packages?Leaf=burley&Done=3&Line={before + 3}", moved.Headers.Location!.OriginalString, StringComparison.Ordinal);
        Assert.Equal(4, (await page.Cellar()).Here.Count(package => package.Place == low));
        Assert.Contains("Take all of it back", await page.Read($"/packages?Leaf=burley&Done=3&Line={before + 3}"), StringComparison.Ordinal);
        using var undone = await page.Fill("/undo", "undo", ("Line", $"{before + 3}"));
        Assert.Equal(HttpStatusCode.Found, undone.StatusCode);
        Assert.Equal(1, (await page.Cellar()).Here.Count(package => package.Place == low));
    }

    [Theory]
    [InlineData("look")]
    [InlineData("open")]
    [InlineData("note")]
    [InlineData("finished")]
    public async Task Ticked_ones_alone_are_written_about(string act)
    {
        await using var page = await Filled();
        var ids = (await page.Cellar()).Here.Take(2).Select(package => package.Id.ToString()).ToArray();
        var before = (await page.Cellar()).Version;
        using var answer = await page.Fill("/packages/many", "many", ("Ids", ids[0]), ("Ids", ids[1]), ("Ids", ids[0]), ("Act", act), ("Note", "on the round"));
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        Assert.Equal(before + 2, (await page.Cellar()).Version);
    }

    [Theory]
    [InlineData("move", "", "say where to")]
    [InlineData("close", "", "it is closed already")]
    [InlineData("burn", "", "nothing that can be written")]
    [InlineData("look", "2031", "has not come yet")]
    public async Task What_cannot_be_for_one_is_written_for_none(string act, string on, string why)
    {
        await using var page = await Filled();
        var before = (await page.Cellar()).Version;
        using var answer = await page.Fill("/packages/many", "many", ("All", "yes"), ("Act", act), ("On", on));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var text = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        Assert.Contains(why, text, StringComparison.Ordinal);
        Assert.Contains("Nothing was written for any of them", text, StringComparison.Ordinal);
        Assert.Equal(before, (await page.Cellar()).Version);
    }

    [Fact]
    public async Task Nothing_ticked_is_refused_kindly()
    {
        await using var page = await Filled();
        using var answer = await page.Fill("/packages/many", "many", ("Act", "look"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
    }

    [Fact]
    public async Task A_bag_is_split_packed_anew_noted_and_corrected_on_its_page()
    {
        await using var page = await Filled();
        var bag = (await page.Cellar()).Here.Single(package => (package.BookNet.Mid?.Grams ?? 0) == 50).Id;
        using var split = await page.Fill($"/packages/{bag}", "split", ("Kind", "jar-118"), ("Count", "2"));
        Assert.Equal(HttpStatusCode.Found, split.StatusCode);
        var jars = (await page.Cellar()).Here.Where(package => package.Container.Kind == "jar-118").ToArray();
        Assert.Equal([25.0, 25.0], jars.Select(jar => jar.BookNet.Mid!.Value.Grams));
        Assert.Contains($"href=\"/packages/{jars[1].Id}\"", await page.Read($"/lots/{jars[0].Lot}"), StringComparison.Ordinal);

        using var repacked = await page.Fill($"/packages/{jars[0].Id}", "repack", ("Kind", "jar-237"), ("Net", "24g"));
        Assert.Equal(HttpStatusCode.Found, repacked.StatusCode);
        using var noted = await page.Fill($"/packages/{jars[0].Id}", "note", ("Words", "raisins, then hay"));
        Assert.Equal(HttpStatusCode.Found, noted.StatusCode);
        var shown = await page.Read($"/packages/{jars[0].Id}");
        Assert.Contains("Opening notes", shown, StringComparison.Ordinal);
        Assert.Contains("raisins, then hay", shown, StringComparison.Ordinal);

        using var weighed = await page.Fill($"/packages/{jars[0].Id}", "weigh", ("Mass", "240g"));
        var line = (await page.Cellar()).Version;
        Assert.Contains("240 g", await page.Read($"/correct?Line={line}"), StringComparison.Ordinal);
        using var corrected = await page.Fill($"/correct?Line={line}", "correct", ("Mass", "204g"));
        Assert.Equal(HttpStatusCode.Found, corrected.StatusCode);
        Assert.Equal(204, (await page.Cellar()).Packages[jars[0].Id].Weighings.Single().Fact.Mass.Grams, 6);
        using var nothing = await page.Fill($"/correct?Line={line}", "correct");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, nothing.StatusCode);
    }

    [Fact]
    public async Task What_if_is_answered_from_the_address_and_writes_nothing()
    {
        await using var page = await Filled();
        var jar = (await page.Cellar()).Here.First(package => package.Container.Kind == "jar-473").Id;
        var before = (await page.Cellar()).Version;
        var place = (await page.Cellar()).Places.Keys.First();
        var text = await page.Read($"/packages/{jar}?IfIn=bag-zip&IfPlace={place}");
        Assert.Contains("As it stands", text, StringComparison.Ordinal);
        Assert.Contains("what-if-wide", text, StringComparison.Ordinal);
        Assert.Contains("<option value=\"bag-zip\" selected", text, StringComparison.Ordinal);
        Assert.Contains("Not done", await page.Read($"/packages/{jar}?IfIn=no-such"), StringComparison.Ordinal);
        Assert.Contains("opened for a moment once a month</th>", await page.Read($"/packages/{jar}?IfOpening=monthly"), StringComparison.Ordinal);
        Assert.Contains("Not done", await page.Read($"/packages/{jar}?IfOpening=often"), StringComparison.Ordinal);
        Assert.Equal(before, (await page.Cellar()).Version);
    }

    [Fact]
    public async Task The_map_draws_each_package_on_its_shelf_by_shape_colour_and_word()
    {
        await using var page = await Filled();
        var cellar = await page.Cellar();
        using var looked = await page.Fill($"/packages/{cellar.Here.First().Id}", "look", ("Findings", "lid-loose"));
        var map = await page.Read("/map");
        foreach (var package in cellar.Here)
            Assert.Contains($"href=\"/packages/{package.Id}\"", map, StringComparison.Ordinal);
        foreach (var shelf in (string[])["closet › top", "closet › low", "Place not known"])
            Assert.Contains($"<h2>{shelf}</h2>", WebUtility.HtmlDecode(map), StringComparison.Ordinal);
        Assert.Contains("1 amiss", map, StringComparison.Ordinal);
        Assert.Contains("class=\"state act\"", map, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Totals_try_a_pace_and_keep_it_and_value_keeps_three_figures_apart()
    {
        await using var page = await Filled();
        Assert.Contains("State a pace", await page.Read("/totals"), StringComparison.Ordinal);
        Assert.Contains("burley", await page.Read("/totals?Pace=20g..30g"), StringComparison.Ordinal);
        using var wrong = await page.Send(HttpMethod.Get, "/totals?Pace=fast");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
        using var kept = await page.Fill("/totals?Pace=20g", "pace", ("Pace", "20g"));
        Assert.Equal(HttpStatusCode.Found, kept.StatusCode);
        Assert.Equal(20, (await page.Cellar()).Pace!.PerWeek.Mid!.Value.Grams, 6);

        Assert.Contains("Nobody wrote down a price", await page.Read("/value"), StringComparison.Ordinal);
        var lot = (await page.Cellar()).Lots.Keys.First();
        using var valued = await page.Fill($"/lots/{lot}", "value", ("Replace", "60EUR"), ("Sale", "20..40EUR"));
        Assert.Equal(HttpStatusCode.Found, valued.StatusCode);
        var value = await page.Read("/value");
        Assert.Contains("Paid not known; to replace 60 EUR (2 lots not known); likely sale 20–40 EUR (2 lots not known).", WebUtility.HtmlDecode(value), StringComparison.Ordinal);
        using var missing = await page.Send(HttpMethod.Get, "/lots/ZZZZZ");
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
    }

    [Fact]
    public async Task Every_empty_page_says_what_to_do()
    {
        await using var page = await OpenPage.Start();
        foreach (var path in (string[])["/packages", "/lots", "/map", "/totals", "/value", "/history", "/places"])
            Assert.Matches("href=\"/add\"|Add a place", await page.Read(path));
    }

    [Fact]
    public async Task Ounces_are_shown_to_whoever_wants_them()
    {
        await using var page = await Filled();
        Assert.Contains("110 g", await page.Read("/packages?Text=ribbon"), StringComparison.Ordinal);
        using var kept = await page.Fill("/you", "you", ("Units", "imperial"));
        Assert.Contains("3.88 oz", await page.Read("/packages?Text=ribbon"), StringComparison.Ordinal);
    }

    [Fact]
    public void The_longest_address_decides_which_page_is_current()
    {
        PageEntry[] entries = [new(PageGroup.Week, 1, "/", "Due"), new(PageGroup.Cellar, 1, "/places", "Places"), new(PageGroup.Cellar, 2, "/places/compare", "Compare places")];
        Assert.Equal("/", PageEntry.Of(entries, "/")!.Address);
        Assert.Equal("/places", PageEntry.Of(entries, "/places/579H3")!.Address);
        Assert.Equal("/places/compare", PageEntry.Of(entries, "/places/compare")!.Address);
        Assert.Null(PageEntry.Of(entries, "/placesx"));
    }

    private static async Task<OpenPage> Filled()
    {
        var page = await OpenPage.Start();
        using var answer = await page.Fill("/add", "rows", Rows);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        return page;
    }

    [GeneratedRegex("name=\"Ids\"")]
    private static partial Regex Pick();
}
