using System.Text.Json;
using Undercroft.Forecasts.Comparing;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Comparing;

/// <summary>Container kinds side by side: the same leaf, the same place, the same random numbers.</summary>
public sealed class CompareTests : IDisposable
{
    private static readonly string[] Quick = ["--draws", "64"];
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task Every_kind_is_answered_in_the_order_asked_with_all_that_was_promised()
    {
        var answer = await Compare("--leaf", "burley", "--mass", "100g", "--place", "cupboard", "--years", "3", "bag-zip", "jar-473", "tin-pull-50");
        var kinds = answer.GetProperty("kinds").EnumerateArray().ToArray();
        Assert.Equal(["bag-zip", "jar-473", "tin-pull-50"], kinds.Select(kind => kind.GetProperty("kind").GetString()));
        foreach (var kind in kinds)
        {
            foreach (var name in new[] { "moistureWetBasisPct", "waterActivity", "oxygenKPa", "oxygenRangeMlPerGYear" })
            {
                var band = kind.GetProperty(name);
                Assert.True(band.GetProperty("p5").GetDouble() <= band.GetProperty("p50").GetDouble() && band.GetProperty("p50").GetDouble() <= band.GetProperty("p95").GetDouble(), name);
            }

            Assert.InRange(kind.GetProperty("inRange").GetDouble(), 0, 1);
            Assert.True(kind.GetProperty("inRange").GetDouble() <= 1 - kind.GetProperty("dryProbability").GetDouble() + 1e-9);
            Assert.True(kind.GetProperty("litres").GetDouble() > 0);
            Assert.NotEmpty(kind.GetProperty("verdict").GetString()!);
        }

        Assert.Equal(JsonValueKind.Null, kinds[2].GetProperty("costPerYear").ValueKind); // comes with the leaf: nobody pays for it apart
        Assert.True(kinds[1].GetProperty("costPerYear").GetDouble() > 0);
        Assert.Equal((false, true), (kinds[1].GetProperty("factoryPackSurvives").GetBoolean(), kinds[1].GetProperty("lookInside").GetBoolean()));
        Assert.True(kinds[2].GetProperty("factoryPackSurvives").GetBoolean());
        Assert.True(Middle(kinds[1], "moistureWetBasisPct") > Middle(kinds[0], "moistureWetBasisPct") + 1);
        Assert.True(kinds[1].GetProperty("inRange").GetDouble() > kinds[0].GetProperty("inRange").GetDouble());
        Assert.True(kinds[0].GetProperty("oxygenMlPerGYear").GetDouble() > 100 * kinds[1].GetProperty("oxygenMlPerGYear").GetDouble());
        Assert.StartsWith("For 100 g over 3 years, best: ", answer.GetProperty("verdict").GetString(), StringComparison.Ordinal);
        Assert.Equal(3, answer.GetProperty("whyOneNumberMisleads").GetArrayLength());
    }

    [Fact]
    public async Task A_kind_answers_the_same_whatever_stands_beside_it()
    {
        var alone = await Compare("--mass", "80g", "--years", "2", "jar-355");
        var beside = await Compare("--mass", "80g", "--years", "2", "bag-bulk", "jar-355");
        Assert.Equal(alone.GetProperty("kinds")[0].GetRawText(), beside.GetProperty("kinds")[1].GetRawText());
    }

    [Fact]
    public async Task A_place_of_the_cellar_counts_with_its_own_climate()
    {
        await cli.Json("place", "add", "Dry loft", "--temperature", "24C..26C", "--humidity", "20%..25%");
        await cli.Json("place", "add", "Damp vault", "--temperature", "12C..14C", "--humidity", "70%..75%");
        var dry = await Compare("--mass", "50g", "--years", "1", "--place", "dry loft", "bag-zip");
        var damp = await Compare("--mass", "50g", "--years", "1", "--place", "Damp vault", "bag-zip");
        Assert.Equal("Dry loft", dry.GetProperty("place").GetString());
        Assert.True(Middle(damp.GetProperty("kinds")[0], "moistureWetBasisPct") > Middle(dry.GetProperty("kinds")[0], "moistureWetBasisPct") + 5);
    }

    [Fact]
    public async Task A_comparison_needs_no_cellar_and_begins_none()
    {
        await Compare("--mass", "50g", "--place", "cupboard", "--years", "1", "jar-237");
        Assert.Empty(Directory.EnumerateFileSystemEntries(cli.Work));
    }

    // Packed densities of practice: 240 g/l of ribbon, nine tenths of the jar filled.
    [Theory]
    [InlineData("jar-946", 5000, null, 24)]
    [InlineData("jar-946", 1, null, 1)]
    [InlineData("jar-237", 454, null, 9)]
    [InlineData("jar-237", 454, "flake", 4)]
    [InlineData("tin-pull-50", 5000, null, 100)]
    [InlineData("tin-pull-50", 5000, "flake", 100)]
    [InlineData("tin-pull-50", 51, null, 2)]
    [InlineData("pouch-vacuum", 1000, null, 10)]
    public void The_containers_that_a_lot_takes_are_counted(string kind, double grams, string? cut, int count) =>
        Assert.Equal(count, Comparer.CountOf(ContainerKinds.Find(kind)!, Mass.FromGrams(grams), cut is null ? null : Cuts.Find(cut)));

    [Fact]
    public async Task A_gram_and_five_kilograms_are_both_answered()
    {
        var little = (await Compare("--mass", "1g", "--years", "1", "jar-118")).GetProperty("kinds")[0];
        var much = (await Compare("--mass", "5kg", "--years", "1", "jar-946")).GetProperty("kinds")[0];
        Assert.Equal((1, 24), (little.GetProperty("containers").GetInt32(), much.GetProperty("containers").GetInt32()));
        Assert.True(little.GetProperty("oxygenMlPerGYear").GetDouble() > 50 * much.GetProperty("oxygenMlPerGYear").GetDouble());
        Assert.InRange(much.GetProperty("eachG").GetDouble() * 24, 4999.9, 5000.1);
    }

    // "So a quart jar gains some 1 to 3 ml of oxygen a year": derived from the measured crown of Wisk1987, scaled by perimeter; 23 °C there, 20 °C here.
    [Fact]
    public async Task A_quart_jar_gains_one_to_three_millilitres_of_oxygen_a_year()
    {
        var jar = (await Compare("--mass", "200g", "--years", "5", "jar-946")).GetProperty("kinds")[0];
        Assert.InRange(200 * jar.GetProperty("oxygenMlPerGYear").GetDouble(), 1, 3);
    }

    [Theory]
    [InlineData("jar-473", "--mass", "100g", "jar-47")]
    [InlineData("cupboard", "--mass", "100g", "--place", "cubboard")]
    [InlineData("burley", "--mass", "100g", "--leaf", "burly")]
    [InlineData("unit", "--mass", "100")]
    [InlineData("above zero", "--mass", "0g")]
    [InlineData("years", "--mass", "100g", "--years", "0")]
    [InlineData("years", "--mass", "100g", "--years", "NaN")]
    [InlineData("years", "--mass", "100g", "--years", "61")]
    [InlineData("Moisture", "--mass", "100g", "--moisture", "100%")]
    [InlineData("flake", "--mass", "100g", "--cut", "flakes")]
    [InlineData("compare a part", "--mass", "9000kg", "jar-118")]
    public async Task What_cannot_be_is_refused_with_what_could(string named, params string[] words) =>
        Assert.Contains(named, await cli.Refused(1, ["compare", .. words]), StringComparison.Ordinal);

    private async Task<JsonElement> Compare(params string[] words) => await cli.Json(["compare", .. words, .. Quick]);

    private static double Middle(JsonElement kind, string name) => kind.GetProperty(name).GetProperty("p50").GetDouble();
}
