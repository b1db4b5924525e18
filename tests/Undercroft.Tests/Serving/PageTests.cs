using System.Net;
using System.Text;
using Undercroft.Importing;
using Undercroft.Importing.Rows;
using Undercroft.Keeping.Measuring;
using Undercroft.Ledger.Events;
using Xunit;

namespace Undercroft.Tests.Serving;

public class PageTests
{
    private static readonly (string, string)[] Jar = [("Blend-0", "Evening ribbon"), ("Container-0", "jar-473"), ("Net-0", "110g"), ("Sealed-0", "2024-03"), ("Place-0", "closet / top")];

    [Fact]
    public async Task An_empty_cellar_begins_with_five_rows_a_sheet_and_a_question()
    {
        await using var page = await OpenPage.Start();
        using var home = await page.Send(HttpMethod.Get, "/");
        Assert.Equal(HttpStatusCode.Found, home.StatusCode);
        Assert.Equal("/add", home.Headers.Location!.OriginalString[^4..]);
        var begin = await page.Read("/add");
        Assert.Contains("name=\"Blend-4\"", begin, StringComparison.Ordinal);
        Assert.Contains("type=\"file\"", begin, StringComparison.Ordinal);
        Assert.Contains("action=\"/ask\"", begin, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rows_half_blank_are_written_and_blank_ones_passed_over()
    {
        await using var page = await OpenPage.Start();
        using var answer = await page.Fill("/add", "rows", [.. Jar, ("Leaf-2", "burley"), ("Count-2", "3"), ("Net-4", "~50g"), ("Place-4", "closet / top")]);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        var cellar = await page.Cellar();
        Assert.Equal(5, cellar.Packages.Count);
        Assert.Equal(3, cellar.Lots.Count);
        Assert.Equal(["closet", "closet › top"], cellar.Places.Keys.Select(id => cellar.PathOf(id)).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("Net-1", "fifty grams of it", "Row 2")]
    [InlineData("Sealed-1", "2031-02-30", "Row 2")]
    [InlineData("Sealed-1", "2031", "Row 2")]
    [InlineData("Count-1", "many", "Row 2")]
    [InlineData("Count-1", "100000", "Row 2")]
    public async Task A_row_that_cannot_be_read_is_named_and_nothing_of_any_row_is_written(string field, string typed, string named)
    {
        await using var page = await OpenPage.Start();
        using var answer = await page.Fill("/add", "rows", [.. Jar, ("Blend-1", "Second row"), (field, typed)]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var text = await Text(answer);
        Assert.Contains(named, text, StringComparison.Ordinal);
        Assert.Contains("value=\"Evening ribbon\"", text, StringComparison.Ordinal);
        Assert.Contains($"value=\"{typed}\"", text, StringComparison.Ordinal);
        Assert.Equal(0, (await page.Cellar()).Version);
    }

    [Fact]
    public async Task Nothing_filled_in_is_refused_kindly()
    {
        await using var page = await OpenPage.Start();
        using var answer = await page.Fill("/add", "rows");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("One field of one row is enough", await Text(answer), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Each_act_on_a_package_is_written_once_and_can_be_taken_back()
    {
        await using var page = await OpenPage.Start();
        var id = await Added(page, Jar);
        foreach (var (form, fields) in new Dictionary<string, (string, string)[]>
        {
            ["weigh"] = [("Mass", "612.3g"), ("Scale", "0.1g")],
            ["humidity"] = [("Humidity", "62%"), ("Temperature", "20C")],
            ["look"] = [("Findings", "lid-loose"), ("Findings", "rust"), ("Feel", "springs-back")],
            ["measure"] = [("Empty", "212g"), ("Full", "698g")],
            ["open"] = [("Note", "sweet, a little dull")],
            ["take"] = [("Mass", "5g")],
            ["move"] = [("Place", (await page.Cellar()).Places.Keys.First().ToString())],
        })
        {
            var before = (await page.Cellar()).Version;
            using var answer = await page.Fill($"/packages/{id}", form, fields);
            Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
            Assert.EndsWith($"/packages/{id}?line={before + 1}", answer.Headers.Location!.OriginalString, StringComparison.Ordinal);
            Assert.Equal(before + 1, (await page.Cellar()).Version);
        }

        var looked = (await page.Cellar()).Packages.Values.Single().Looks.Single();
        Assert.Equal([Finding.LidLoose, Finding.Rust], looked.Fact.Findings);
        Assert.Contains("Close it again", await page.Read($"/packages/{id}"), StringComparison.Ordinal);

        var weighing = (await page.Cellar()).Packages.Values.Single().Weighings.Single();
        using var undone = await page.Fill("/undo", "undo", ("Line", $"{weighing.Entry.Version}"));
        Assert.Equal(HttpStatusCode.Found, undone.StatusCode);
        Assert.Empty((await page.Cellar()).Packages.Values.Single().Weighings);
        Assert.Contains("taken back", await page.Read("/history"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("weigh", "Mass", "612.3 stones")]
    [InlineData("weigh", "Mass", "-3g")]
    [InlineData("weigh", "Mass", "")]
    [InlineData("humidity", "Humidity", "130%")]
    [InlineData("take", "Mass", "a pinch")]
    [InlineData("look", "Bulge", "high")]
    [InlineData("measure", "Full", "698g")]
    [InlineData("measure", "Holds", "")]
    public async Task An_impossible_entry_is_refused_beside_its_form_with_what_was_typed(string form, string field, string typed)
    {
        await using var page = await OpenPage.Start();
        var id = await Added(page, Jar);
        var before = (await page.Cellar()).Version;
        using var answer = await page.Fill($"/packages/{id}", form, (field, typed));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var text = await Text(answer);
        Assert.Contains("Not done", text, StringComparison.Ordinal);
        if (typed.Length > 0)
            Assert.Contains($"name=\"{field}\" value=\"{typed}\"", text, StringComparison.Ordinal);
        Assert.Equal(before, (await page.Cellar()).Version);
    }

    [Fact]
    public async Task A_surprising_weight_is_kept_and_said_to_be_odd()
    {
        await using var page = await OpenPage.Start();
        var id = await Added(page, Jar);
        using var first = await page.Fill($"/packages/{id}", "weigh", ("Mass", "600g"), ("On", "2026-01-01"));
        using var second = await page.Fill($"/packages/{id}", "weigh", ("Mass", "640g"), ("On", "2026-06-01"));
        Assert.Equal(HttpStatusCode.Found, second.StatusCode);
        var shown = await page.Read(second.Headers.Location!.IsAbsoluteUri ? second.Headers.Location.PathAndQuery : second.Headers.Location.OriginalString);
        Assert.Contains("Odd, and kept all the same", shown, StringComparison.Ordinal);
        Assert.Contains(id, await page.Read("/doubts"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_unknown_package_is_not_found_and_the_nearest_are_named()
    {
        await using var page = await OpenPage.Start();
        var id = await Added(page, Jar);
        using var answer = await page.Send(HttpMethod.Get, "/packages/" + id[..^1] + (id[^1] == 'Z' ? 'Y' : 'Z'));
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains(id, await Text(answer), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hostile_names_are_shown_as_text_on_every_page()
    {
        const string Hostile = "<script>alert(1)</script><img src=x onerror=alert(1)>\"'&";
        await using var page = await OpenPage.Start();
        var id = await Added(page, [("Blend-0", Hostile), ("Container-0", "jar-473"), ("Sealed-0", "2024"), ("Place-0", "<b>shelf</b>")]);
        using var looked = await page.Fill($"/packages/{id}", "look", ("Findings", "rust"), ("Note", Hostile));
        foreach (var path in (string[])["/", "/packages", $"/packages/{id}", "/places", "/history", "/doubts", "/add", "/packages?Text=%3Cscript%3E", "/ask?In=%3Cscript%3Ealert(1)%3C/script%3E"])
        {
            using var answer = await page.Send(HttpMethod.Get, path);
            var text = await Text(answer);
            Assert.DoesNotContain("<script", text, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("<img", text, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("<b>shelf", text, StringComparison.Ordinal);
            Assert.DoesNotContain(" style=", text, StringComparison.Ordinal);
        }

        Assert.Contains("&lt;script&gt;", await page.Read($"/packages/{id}"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_question_needs_no_records_and_keeps_none()
    {
        await using var page = await OpenPage.Start();
        var answer = await page.Read("/ask?In=jar-473&Leaf=burley&Mass=110g&Room=cupboard");
        Assert.Contains("class=\"verdict\"", answer, StringComparison.Ordinal);
        Assert.Contains("What this rests on", answer, StringComparison.Ordinal);
        Assert.Equal(0, (await page.Cellar()).Version);
        using var refused = await page.Send(HttpMethod.Get, "/ask?In=jar-473&Mass=110");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
    }

    [Fact]
    public async Task A_place_is_added_once()
    {
        await using var page = await OpenPage.Start();
        using var first = await page.Fill("/places", "place", ("Name", "hall closet"), ("Room", "cupboard"), ("Humidity", "40%..60%"));
        Assert.Equal(HttpStatusCode.Found, first.StatusCode);
        using var twin = await page.Fill("/places", "place", ("Name", "Hall closet"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, twin.StatusCode);
        Assert.Single((await page.Cellar()).Places);
        using var nothing = await page.Fill("/places", "climate", ("Place", "hall closet"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, nothing.StatusCode);
        using var stated = await page.Fill("/places", "climate", ("Place", "hall closet"), ("Temperature", "16C..21C"));
        Assert.Equal(HttpStatusCode.Found, stated.StatusCode);
        Assert.True((await page.Cellar()).Places.Values.Single().Climate!.Temperature.IsKnown);
        using var room = await page.Fill("/places", "climate", ("Place", "hall closet"), ("Room", "attic"), ("Humidity", "40%..55%"));
        Assert.Equal(HttpStatusCode.Found, room.StatusCode);
        var (cellar, back) = (await page.Cellar(), room.Headers.Location!.OriginalString);
        Assert.Equal(("attic", true), (cellar.Places.Values.Single().RoomKind, cellar.Places.Values.Single().Climate!.Humidity.IsKnown));
        Assert.Contains("Take it back", await page.Read(back), StringComparison.Ordinal);
        using var undone = await page.Fill("/undo", "undo", ("Line", back.Split('=')[1]));
        Assert.Equal("cupboard", (await page.Cellar()).Places.Values.Single().RoomKind); // both lines were one act
    }

    [Fact]
    public async Task A_sheet_is_shown_before_it_is_brought_in()
    {
        await using var page = await OpenPage.Start();
        using var shown = await page.Upload("shelf.csv", Encoding.UTF8.GetBytes("name,amount,container\nEvening ribbon,50g,jar\nPlain burley,2oz,tin\nWhat is this,??,??\n"));
        Assert.Equal(HttpStatusCode.Found, shown.StatusCode);
        var path = new Uri(page.Address, shown.Headers.Location!).PathAndQuery;
        Assert.Contains("3 rows in", await page.Read(path), StringComparison.Ordinal);
        Assert.Equal(0, (await page.Cellar()).Version);

        using var kept = await page.Fill(path, "keep");
        Assert.Equal(HttpStatusCode.Found, kept.StatusCode);
        var cellar = await page.Cellar();
        Assert.Single(cellar.Imports);
        Assert.Contains(cellar.Packages.Values, package => cellar.BlendOf(package).Name == "Evening ribbon");
        Assert.Contains("packages added", await page.Read(path), StringComparison.Ordinal);
        Assert.Single(Directory.GetFiles(Path.Combine(page.Folder, "imports")));
    }

    [Fact]
    public void Every_word_of_the_closed_lists_can_be_chosen()
    {
        Assert.All(Enum.GetValues<Meaning>(), meaning => Assert.NotEmpty(ColumnWords.Of(meaning)));
        Assert.All(Enum.GetValues<Finding>(), finding => Assert.NotEmpty(FindingWords.Of(finding)));
        Assert.All(Enum.GetValues<Feel>(), feel => Assert.NotEmpty(FindingWords.Of(feel)));
    }

    [Fact]
    public async Task What_is_no_sheet_is_refused_and_leaves_nothing()
    {
        await using var page = await OpenPage.Start();
        using var picture = await page.Upload("../../shelf.csv", [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, picture.StatusCode);
        using var none = await page.Upload("shelf.csv", []);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, none.StatusCode);
        using var large = await page.Upload("shelf.csv", new byte[11 * 1024 * 1024]);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, large.StatusCode);
        Assert.Equal(0, (await page.Cellar()).Version);
        Assert.False(Directory.Exists(Path.Combine(page.Folder, "imports")));
        Assert.Contains("does not wait any more", await page.Read("/import?Sheet=0123"), StringComparison.Ordinal);
    }

    private static async Task<string> Added(OpenPage page, (string, string)[] fields)
    {
        using var answer = await page.Fill("/add", "rows", fields);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        return (await page.Cellar()).Packages.Keys.Single().ToString();
    }

    private static Task<string> Text(HttpResponseMessage answer) => answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
}
