using System.Net;
using System.Text.Json;
using Undercroft.Physics.Catalogue;
using Undercroft.Tests.Serving;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Practising;

/// <summary>Rules of practice: reason, provenance, switch, and where physics agrees.</summary>
public sealed class PracticeTests : IDisposable
{
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task Each_rule_has_reason_provenance_and_a_word_of_physics()
    {
        var rules = Rules(await cli.Json("practice", "show"));
        Assert.Equal(PracticeRules.All.Select(rule => rule.Code), rules.Keys);
        Assert.All(rules.Values, rule =>
        {
            Assert.Equal("common practice, no source", rule.GetProperty("provenance").GetString());
            Assert.False(string.IsNullOrWhiteSpace(rule.GetProperty("reason").GetString()));
            Assert.False(string.IsNullOrWhiteSpace(rule.GetProperty("physics").GetString()));
        });
        Assert.True(rules["loose-to-glass"].GetProperty("physicsAgrees").GetBoolean());
        Assert.False(rules["pouches-under-vacuum"].GetProperty("physicsAgrees").GetBoolean()); // a second film adds little to a tighter first one
        Assert.Equal(JsonValueKind.Null, rules["cased-no-vacuum"].GetProperty("physicsAgrees").ValueKind);
        Assert.Empty(Directory.EnumerateFileSystemEntries(cli.Work));
    }

    [Fact]
    public async Task A_rule_that_is_off_counts_nowhere_until_it_is_on_again()
    {
        await cli.Json("practice", "off", "loose-to-glass", "--note", "I keep bags");
        Assert.Contains("already", await cli.Refused(1, "practice", "off", "loose-to-glass"), StringComparison.Ordinal);
        Assert.False(Rules(await cli.Json("practice", "show"))["loose-to-glass"].GetProperty("on").GetBoolean());
        Assert.DoesNotContain("loose-to-glass", await Compared());
        await cli.Json("practice", "on", "loose-to-glass");
        Assert.Contains("loose-to-glass", await Compared());
        await cli.Json("undo");
        Assert.DoesNotContain("loose-to-glass", await Compared());
        Assert.Contains("tint-pointless", await cli.Refused(1, "practice", "off", "tint-pointles"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Unlined_and_paper_walled_tins_come_out_within_five_years_with_the_jars_they_need()
    {
        async Task<string> Add(params string[] words) => (await cli.Json(["add", .. words])).GetProperty("ids")[0].GetString()!;
        var old = await Add("--container", "tin-unlined", "--net", "50g", "--sealed", "2019-03-02", "--blend", "Old");
        var flake = await Add("--container", "tin-paper", "--net", "100g", "--sealed", "2024-06-01", "--cut", "flake");
        var mixed = await Add("--container", "tin-unlined", "--net", "100g", "--sealed", "2023-06-01");
        await Add("--container", "jar-473", "--net", "100g", "--sealed", "2010");
        var shown = await cli.Json("practice", "show");
        var tins = shown.GetProperty("tinsOut").EnumerateArray().ToArray();
        Assert.Equal([old, mixed, flake], tins.Select(tin => tin.GetProperty("id").GetString()));
        Assert.Equal(["2024-03-02", "2028-06-01", "2029-06-01"], tins.Select(tin => tin.GetProperty("outBy").GetString()));
        Assert.Equal([true, false, false], tins.Select(tin => tin.GetProperty("overdue").GetBoolean()));
        // 50 g and 100 g of mixed leaf: 8 and 16 fluid ounces; 100 g of flake: 8 (practice).
        Assert.Equal(["jar-237", "jar-473", "jar-237"], tins.Select(tin => tin.GetProperty("jar").GetString()));
        Assert.Equal([("jar-237", 2), ("jar-473", 1)], shown.GetProperty("jarsNeeded").EnumerateArray().Select(jars => (jars.GetProperty("kind").GetString()!, jars.GetProperty("count").GetInt32())));
        await cli.Json("repack", old, "--container", "jar-237");
        Assert.Equal(2, (await cli.Json("practice", "show")).GetProperty("tinsOut").GetArrayLength());
        await cli.Json("practice", "off", "unlined-out");
        Assert.Equal(0, (await cli.Json("practice", "show")).GetProperty("tinsOut").GetArrayLength());
    }

    [Fact]
    public async Task The_page_switches_and_lists()
    {
        await using var page = await OpenPage.Start();
        Assert.Contains("agrees", await page.Read("/practice"), StringComparison.Ordinal);
        using var off = await page.Fill("/practice", "rule", ("Rule", "tint-pointless"), ("To", "off"));
        Assert.Equal(HttpStatusCode.Found, off.StatusCode);
        Assert.Contains("(switched off)", await page.Read("/practice"), StringComparison.Ordinal);
        using var again = await page.Fill("/practice", "rule", ("Rule", "tint-pointless"), ("To", "off"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, again.StatusCode);
    }

    private async Task<string[]> Compared() =>
        [.. (await cli.Json("compare", "--mass", "50g", "--years", "1", "--draws", "32", "jar-237")).GetProperty("practice").EnumerateArray().Select(rule => rule.GetProperty("rule").GetString()!)];

    private static Dictionary<string, JsonElement> Rules(JsonElement shown) => shown.GetProperty("rules").EnumerateArray().ToDictionary(rule => rule.GetProperty("code").GetString()!);
}
