using System.Net;
using Undercroft.Ledger.Events;
using Xunit;

namespace Undercroft.Tests.Serving;

/// <summary>Pages say what is so in plain words: no codes, no blank lists, no more than is known.</summary>
public sealed class PlainWordsPageTests
{
    private static async Task<OpenPage> Filled(params (string Name, string Value)[] more)
    {
        var page = await OpenPage.Start();
        using var added = await page.Fill("/add", "rows", [("Blend-0", "Dunes"), ("Net-0", "2oz"), ("Container-0", "jar-237"), ("Place-0", "House/Closet"), .. more]);
        Assert.Equal(HttpStatusCode.Found, added.StatusCode);
        return page;
    }

    private static async Task<string> Read(OpenPage page, string path) => WebUtility.HtmlDecode(await page.Read(path));

    [Fact]
    public async Task What_was_typed_is_told_back_and_a_container_by_its_name()
    {
        await using var page = await Filled();
        foreach (var path in new[] { "/?From=1", "/history" })
        {
            var text = await Read(page, path);
            Assert.Contains("2oz each", text, StringComparison.Ordinal);
            Assert.DoesNotContain("56.69", text, StringComparison.Ordinal);
            Assert.DoesNotContain("in jar-237", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_search_without_a_hit_says_so_and_offers_all()
    {
        await using var page = await Filled();
        var text = await Read(page, "/packages?Text=nowhere");
        Assert.Contains("No package is like that.", text, StringComparison.Ordinal);
        Assert.Contains("Show all that are here", text, StringComparison.Ordinal);
        Assert.DoesNotContain("0 packages", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_went_in_at_the_last_packing_is_what_was_in_it_at_closing()
    {
        await using var page = await Filled();
        var id = (await page.Cellar()).Here.Single().Id;
        using var repacked = await page.Fill($"/packages/{id}", "repack", ("Kind", "jar-946"), ("Net", "200g"));
        Assert.Equal(HttpStatusCode.Found, repacked.StatusCode);
        Assert.Contains("<dt>Leaf in it at closing</dt><dd>200 g", await Read(page, $"/packages/{id}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_house_misses_no_climate_where_the_places_inside_have_theirs()
    {
        await using var page = await Filled();
        Assert.Contains("climate not known: forecasts here are wide", await Read(page, "/places"), StringComparison.OrdinalIgnoreCase);
        using var said = await page.Fill("/places", "climate", ("Place", "House/Closet"), ("Room", "cupboard"));
        Assert.Equal(HttpStatusCode.Found, said.StatusCode);
        var text = await Read(page, "/places");
        Assert.Contains("every place inside that holds something has one", text, StringComparison.Ordinal);
        Assert.DoesNotContain("forecasts here are wide", text, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task What_is_new_and_was_never_looked_at_is_not_overdue_since_a_day()
    {
        await using var page = await Filled(("Sealed-0", "2019~"));
        var text = await Read(page, "/");
        Assert.DoesNotContain("due since", text, StringComparison.Ordinal);
        Assert.Contains("ever looked at", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_look_is_corrected_in_what_was_seen()
    {
        await using var page = await Filled();
        var id = (await page.Cellar()).Here.Single().Id;
        using var looked = await page.Fill($"/packages/{id}", "look", ("Findings", "rust"), ("Feel", "breaks"));
        Assert.Equal(HttpStatusCode.Found, looked.StatusCode);
        var line = (await page.Cellar()).Version;
        var form = await Read(page, $"/correct?Line={line}");
        Assert.Matches("value=\"rust\" checked", form);
        using var corrected = await page.Fill($"/correct?Line={line}", "correct", ("Findings", "dent"), ("Bulge", "3mm"), ("Feel", ""));
        Assert.Equal(HttpStatusCode.Found, corrected.StatusCode);
        var look = (await page.Cellar()).Packages[id].Looks.Single().Fact;
        Assert.Equal([Finding.Dent, Finding.Bulge], look.Findings);
        Assert.Equal((0.003, null), (look.Bulge!.Value.Metres, look.Feel));
        using var same = await page.Fill($"/correct?Line={line}", "correct", ("Findings", "dent"), ("Findings", "bulge"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, same.StatusCode);
    }

    [Fact]
    public async Task A_container_is_corrected_by_a_choice_of_names()
    {
        await using var page = await Filled();
        var line = (await page.Cellar()).Lines.Single(each => each.Fact is Fact.PackagesAdded).Event.Version;
        Assert.Contains("<option value=\"jar-473\"", await Read(page, $"/correct?Line={line}"), StringComparison.Ordinal);
        using var corrected = await page.Fill($"/correct?Line={line}", "correct", ("Container", "jar-473"));
        Assert.Equal("jar-473", (await page.Cellar()).Here.Single().Container.Kind);
    }
}
