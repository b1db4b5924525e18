using System.Net;
using System.Text.Json;
using Undercroft.Tests.Serving;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Believing;

/// <summary>Beliefs of the trade against the whole package. Their numbers are check values; what is computed is checked against hand and source.</summary>
public sealed class BeliefsTests : IDisposable
{
    private static JsonElement? all;
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task Every_belief_says_what_is_right_and_what_it_leaves_out()
    {
        var beliefs = (await All()).GetProperty("beliefs").EnumerateArray().ToArray();
        Assert.True(beliefs.Length >= 29);
        Assert.Equal(beliefs.Length, beliefs.Select(belief => belief.GetProperty("code").GetString()).Distinct().Count());
        foreach (var belief in beliefs)
        {
            foreach (var name in new[] { "says", "right", "leavesOut", "verdict" })
                Assert.False(string.IsNullOrWhiteSpace(belief.GetProperty(name).GetString()));
            Assert.Equal("common practice, no source", belief.GetProperty("provenance").GetString());
            Assert.All(belief.GetProperty("figures").EnumerateArray(), figure => Assert.True(double.IsFinite(figure.GetProperty("whole").GetDouble())));
        }

        Assert.True(beliefs.Count(belief => belief.GetProperty("figures").GetArrayLength() > 0) >= 26);
    }

    [Theory]
    [InlineData("one-number", "oxygen: polyethylene over nylon", 178_000.0 / 2_000, 0.01)] // FitnessU12, slide 18
    [InlineData("one-number", "water: polyethylene over nylon", 560.0 / 4_300, 0.01)] // the same
    [InlineData("stretch-film", "polyethylene that passes 400", 178_000.0 * 1.01325 / 400, 0.01)] // FitnessU12, bar to atmosphere
    [InlineData("stretch-film", "water per area", 560.0 / 70 / 0.9, 0.01)] // FitnessU12 over the film's sheet, from memory
    [InlineData("tinted-glass", "ultraviolet through 3 mm", 3.16, 0.01)] // Beer–Lambert by hand, 0.1^1.5
    [InlineData("tinted-glass", "visible light", 91.83, 0.001)] // Fresnel by hand, n = 1.52
    [InlineData("freezing", "pace at −18 °C", 7.18, 0.01)] // by hand, 2 to the power of −3.8
    [InlineData("desiccant", "50 g at 15 %", 10.53, 0.01)] // by hand, 5 g of water in 47.5 g
    [InlineData("sterilise", "water that a wet film", 1.174, 0.002)] // by hand, 1.40 g from 280 cm²
    [InlineData("more-vacuum", "oxygen left by pulling 50 kPa", 50.65, 0.01)] // by hand
    [InlineData("grams-are-grams", "100 g at 22 %", 88.6, 0.001)] // trade, by hand
    [InlineData("inspections-fine", "faulty share that ten", 26, 0.01)] // trade: k = 10, below 26 %
    [InlineData("inspections-fine", "the same after thirty", 9.5, 0.01)] // trade: k = 30, below 10 %
    [InlineData("half-empty-jar", "water in a litre of air", 11, 0.03)] // trade: about 11 mg at 65 %
    [InlineData("half-empty-jar", "water in 50 g of leaf", 8_000, 0.07)] // trade: about 8 g
    [InlineData("seventy-percent", "moisture of flue-cured", 18.8, 0.005)] // moisture table of the fitted curve
    [InlineData("cold-storage", "dew point", 15.1, 0.01)] // psychrometric chart, 22 °C and 65 %
    [InlineData("bulge", "sea level to 1500 m", 16.8, 0.01)] // standard atmosphere
    [InlineData("bulge", "20 to 35 °C", 7.0862, 0.001)] // by hand with vapour
    public async Task Figures_match_hand_and_source(string code, string what, double expected, double relative)
    {
        var figure = await Figure(code, what);
        Assert.Equal(expected, figure.GetProperty("whole").GetDouble(), expected * relative);
    }

    [Fact]
    public async Task Stretch_film_is_no_small_factor_better_and_not_alike_for_both()
    {
        var (oxygen, water) = (await Figure("stretch-film", "oxygen per gram"), await Figure("stretch-film", "water per gram"));
        Assert.Equal(150.0 / 400, 1 / oxygen.GetProperty("shortcut").GetDouble(), 1e-9);
        Assert.True(oxygen.GetProperty("timesShortcut").GetDouble() > 2 && water.GetProperty("timesShortcut").GetDouble() > 2);
        var perArea = await Figure("stretch-film", "water per area");
        Assert.True(perArea.GetProperty("timesShortcut").GetDouble() > 3); // the belief has the same factor for both gases
    }

    [Fact]
    public async Task Foil_is_far_better_in_the_middle_and_little_better_in_the_bad_tail()
    {
        var middle = (await Figure("foil-pouch", "water: vacuum pouch over foil pouch, middle")).GetProperty("whole").GetDouble();
        var unlucky = (await Figure("foil-pouch", "water: vacuum pouch over foil pouch, the unlucky")).GetProperty("whole").GetDouble();
        Assert.True(middle > 30 && unlucky < middle / 3, $"{middle} {unlucky}");
    }

    [Fact]
    public async Task Glass_is_not_perfect_at_its_lid()
    {
        Assert.InRange((await Figure("glass-perfect", "oxygen through the lid")).GetProperty("whole").GetDouble(), 0.5, 3); // 1 to 3 ml a year for a quart, by perimeter
        Assert.InRange((await Figure("glass-perfect", "jars dry")).GetProperty("whole").GetDouble(), 1, 12);
    }

    [Fact]
    public async Task The_place_decides_the_numbers_and_nothing_is_hard_coded()
    {
        async Task<double> Water(string place) => (await cli.Json("beliefs", "one-number", "--place", place)).GetProperty("beliefs")[0].GetProperty("figures").EnumerateArray()
            .First(figure => figure.GetProperty("what").GetString()!.StartsWith("water at the data sheet", StringComparison.Ordinal)).GetProperty("whole").GetDouble();
        Assert.True(await Water("cooled-cabinet") > 2 * await Water("living-room"));
        Assert.Contains("stretch-film", await cli.Refused(1, "beliefs", "strech-film"), StringComparison.Ordinal);
        Assert.Contains("cupboard", await cli.Refused(1, "beliefs", "--place", "cupbord"), StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFileSystemEntries(cli.Work));
    }

    [Fact]
    public async Task The_page_shows_them_all()
    {
        await using var page = await OpenPage.Start();
        var text = WebUtility.HtmlDecode(await page.Read("/beliefs"));
        foreach (var belief in (await All()).GetProperty("beliefs").EnumerateArray())
            Assert.Contains($"id=\"{belief.GetProperty("code").GetString()}\"", text, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", text, StringComparison.Ordinal);
        using var nowhere = await page.Send(HttpMethod.Get, "/beliefs?Place=nowhere-at-all");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, nowhere.StatusCode);
    }

    private async Task<JsonElement> All() => all ??= await cli.Json("beliefs");

    private async Task<JsonElement> Figure(string code, string what)
    {
        var belief = (await All()).GetProperty("beliefs").EnumerateArray().Single(each => each.GetProperty("code").GetString() == code);
        return belief.GetProperty("figures").EnumerateArray().First(figure => figure.GetProperty("what").GetString()!.StartsWith(what, StringComparison.Ordinal));
    }
}
