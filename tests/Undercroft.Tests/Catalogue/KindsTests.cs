using System.Text.Json;
using Undercroft.Physics.Catalogue;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Catalogue;

public sealed class KindsTests : IDisposable
{
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task Every_code_of_the_catalogue_is_listed_and_codes_are_unique()
    {
        var codes = (await cli.Json("kinds")).GetProperty("kinds").EnumerateArray().Select(kind => kind.GetProperty("code").GetString()!).ToArray();
        string[] known = [.. ContainerKinds.All.Select(kind => kind.Code), .. ContainerFamily.All.Select(family => family.Code), .. LeafKinds.All.Select(kind => kind.Code), .. RoomKinds.All.Select(kind => kind.Code), .. Cuts.All.Select(cut => cut.Code),
            .. Films.All.Select(film => film.Code), .. Materials.Codes, .. PackKinds.All.Select(pack => pack.Code)];
        Assert.Equal(known, codes);
        Assert.Equal(codes.Length, codes.Distinct(StringComparer.OrdinalIgnoreCase).Count());
        foreach (var group in new[] { "containers", "leaves", "rooms", "cuts", "films", "materials", "packs" })
        {
            var listed = (await cli.Json("kinds", group)).GetProperty("kinds").EnumerateArray().ToArray();
            Assert.NotEmpty(listed);
            Assert.All(listed, kind => Assert.Equal(group, kind.GetProperty("group").GetString()));
        }
    }

    [Fact]
    public async Task Every_entry_shows_its_numbers_with_their_provenance()
    {
        string[] tags = ["published", "common practice, no source", "derived", "derived (fitted)", "from memory", "assumption"];
        foreach (var code in (await cli.Json("kinds")).GetProperty("kinds").EnumerateArray().Select(kind => kind.GetProperty("code").GetString()!))
        {
            var values = (await cli.Json("kinds", code)).GetProperty("values").EnumerateArray().ToArray();
            Assert.True(values.Length >= (Materials.Codes.Contains(code) ? 1 : 3), code);
            Assert.All(values, value => Assert.Contains(value.GetProperty("provenance").GetString(), tags));
            Assert.All(
                values.Where(value => value.GetProperty("provenance").GetString() == "published"),
                value => Assert.Equal(JsonValueKind.String, value.GetProperty("source").ValueKind));
        }
    }

    /// <summary>A US fluid ounce is 29.5735295625 ml by definition.</summary>
    [Fact]
    public async Task A_jar_shows_volume_closure_failure_and_habit()
    {
        var jar = await cli.Json("kinds", "JAR-473");
        Assert.Equal(16 * 29.5735295625, Value(jar, "capacity"), 1e-6);
        Assert.Equal(2, Value(jar, "never closed"), 1e-9);
        Assert.Contains("lid seal, oxygen", jar.GetProperty("values").EnumerateArray().Select(value => value.GetProperty("what").GetString()));
        Assert.False(string.IsNullOrEmpty(jar.GetProperty("caution").GetString()));
        var printed = (await cli.Run("kinds", "jar-473")).Out;
        Assert.StartsWith("jar-473: glass jar 473 ml", printed, StringComparison.Ordinal);
        Assert.Contains("derived Wisk1987", printed.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Contains("assumption", printed, StringComparison.Ordinal);
    }

    /// <summary>Holding times of practice: a zip bag weeks to months, a jar decades.</summary>
    [Fact]
    public async Task Water_out_of_a_zip_bag_is_more_than_out_of_a_jar() =>
        Assert.True(Value(await cli.Json("kinds", "bag-zip"), "water out of a sound middle specimen") > 10 * Value(await cli.Json("kinds", "jar-237"), "water out of a sound middle specimen"));

    [Fact]
    public async Task A_usual_name_of_leaf_is_understood_and_a_typo_refused_with_the_nearest()
    {
        Assert.Equal("flue-cured", (await cli.Json("kinds", "virginia")).GetProperty("code").GetString());
        Assert.Contains("jar-473", await cli.Refused(1, "kinds", "jar-474"), StringComparison.Ordinal);
        Assert.Contains("burley", await cli.Refused(1, "kinds", "burly"), StringComparison.Ordinal);
    }

    /// <summary>The humidity at a layer, by hand: polyethylene of 70 µm at 560 g·µm and nylon of 20 µm at 4300 (FitnessU12, slide 18) resist as 70/560 to 20/4300, so nylon's middle is 98 % of the way to the room.</summary>
    [Fact]
    public async Task Nylon_and_EVOH_are_shown_at_the_humidity_of_their_own_layer()
    {
        var nylon = await cli.Json("kinds", "pa6");
        const double Way = ((70 / 560.0) + (20 / 4300.0 / 2)) / ((70 / 560.0) + (20 / 4300.0));
        Assert.Equal(65 - (20 * Way), Value(nylon, "humidity at the nylon of a pouch, polyethylene inside"), 0.01);
        Assert.Equal(52, Value(nylon, "oxygen of oriented nylon 6 at 80 % humidity of the layer, 23 °C"), 1e-6);
        Assert.Equal(Value(nylon, "humidity at the nylon of a pouch, polyethylene inside"), Value(await cli.Json("kinds", "nylon-pe"), "humidity at the nylon of a pouch, polyethylene inside"), 1e-9);
        var evoh = await cli.Json("kinds", "evoh");
        Assert.Equal(55, Value(evoh, "humidity at EVOH in the middle of polyethylene"), 0.01); // between alike layers, half-way
        Assert.Equal(50, Value(evoh, "oxygen of EVOH, 32 mol % ethylene at 90 % humidity of the layer, 23 °C"), 1e-6);
    }

    private static double Value(JsonElement page, string what) =>
        page.GetProperty("values").EnumerateArray().Single(value => value.GetProperty("what").GetString() == what).GetProperty("value").GetDouble();
}
