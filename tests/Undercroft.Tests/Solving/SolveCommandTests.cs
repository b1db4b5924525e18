using System.Text.Json;
using System.Text.Json.Nodes;
using Undercroft.Shell;
using Undercroft.Solving;
using Undercroft.Tests.House;
using Xunit;

namespace Undercroft.Tests.Solving;

public sealed class SolveCommandTests : IDisposable
{
    private static readonly string Cases = Path.Combine(Repository.Root, "tests", "Undercroft.Physics.Tests", "Reference", "forecast");

    private readonly string folder = Directory.CreateTempSubdirectory("undercroft-solve").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    /// <summary>Source: own computation by an independent stiff solver; the tolerances are the storage model's.</summary>
    [Theory]
    [InlineData("fast")]
    [InlineData("fine")]
    public async Task Rows_are_those_of_the_independent_solver(string engine)
    {
        var (code, said, _) = await Run("solve", Path.Combine(Cases, "case-21.json"), "--engine", engine, "--json");
        Assert.Equal(0, code);
        using var document = JsonDocument.Parse(said);
        Assert.Equal("case-21", document.RootElement.GetProperty("name").GetString());
        var rows = document.RootElement.GetProperty("rows").EnumerateArray().ToArray();
        var expected = File.ReadLines(Path.Combine(Cases, "case-21.expected.csv")).Skip(1)
            .Select(line => line.Split(',').Select(cell => double.Parse(cell, System.Globalization.CultureInfo.InvariantCulture)).ToArray()).ToArray();
        Assert.Equal(120, rows.Length);
        for (var i = 0; i < rows.Length; i++)
        {
            double Of(string name) => rows[i].GetProperty(name).GetDouble();
            Assert.Equal(expected[i][0], Of("day"), 1e-6);
            Assert.Equal(WetBasis(expected[i][1]), WetBasis(Of("moistureDryBasis")), 0.05);
            Assert.Equal(expected[i][2], Of("waterActivity"), 2e-3);
            Assert.Equal(expected[i][3], Of("o2Pa"), 100.0);
            Assert.Equal(expected[i][4], Of("co2Pa"), 100.0);
            Assert.Equal(expected[i][6], Of("totalPa"), 200.0);
            Assert.Equal(expected[i][5], Of("n2Pa"), 200.0);
        }

        static double WetBasis(double dry) => 100 * dry / (1 + dry);
    }

    [Fact]
    public async Task Several_files_give_an_array_in_their_order()
    {
        var (code, said, _) = await Run("solve", Path.Combine(Cases, "case-22.json"), Path.Combine(Cases, "case-03.json"), "--json");
        Assert.Equal(0, code);
        Assert.Equal(["case-22", "case-03"], JsonNode.Parse(said)!.AsArray().Select(each => each!["name"]!.GetValue<string>()));
    }

    public static TheoryData<string, string, string> Impossible => new()
    {
        { "dryMassG", "-3", "dryMassG" },
        { "headspaceMl", "0", "headspaceMl" },
        { "startWaterActivity", "1", "startWaterActivity" },
        { "startWaterActivity", "0", "startWaterActivity" },
        { "startWaterActivity", "null", "startWaterActivity" },
        { "dryMassG", "\"NaN\"", "dryMassG" },
        { "dryMassG", "NaN", "not JSON" },
        { "dryMassG", "1e999", "dryMassG" },
        { "isotherm.kind", "\"bet\"", "isotherm.kind" },
        { "isotherm.a", "-1", "'a'" },
        { "climate.kind", "\"weather\"", "climate.kind" },
        { "climate.meanRh", "0.99", "climate" },
        { "climate.meanRh", "0.01", "climate" },
        { "climate.meanC", "500", "climate" },
        { "outputs.count", "0", "outputs.count" },
        { "outputs.count", "2.5", "outputs.count" },
        { "outputs.everyDays", "-1", "everyDays" },
        { "uptake.q10", "0", "q10" },
        { "uptake.perDayAt23C", "-1", "perDayAt23C" },
        { "paths", "3", "paths" },
        { "paths", "[{}]", "water" },
        { "air.o2Fraction", "1.2", "o2Fraction" },
        { "air.pressurePa", "0", "pressurePa" },
        { "isotherm", "7", "isotherm" },
    };

    [Theory]
    [MemberData(nameof(Impossible))]
    public async Task What_cannot_be_is_refused_by_its_name(string field, string value, string named)
    {
        var text = File.ReadAllText(Path.Combine(Cases, "case-21.json"));
        var root = JsonNode.Parse(text)!.AsObject();
        var steps = field.Split('.');
        var holder = steps.Length == 1 ? root : root[steps[0]]!.AsObject();
        holder[steps[^1]] = "@@";
        var file = Path.Combine(folder, "case.json");
        await File.WriteAllTextAsync(file, root.ToJsonString().Replace("\"@@\"", value, StringComparison.Ordinal), TestContext.Current.CancellationToken);
        await AssertRefused(file, named);
    }

    [Theory]
    [InlineData("name")]
    [InlineData("dryMassG")]
    [InlineData("isotherm")]
    [InlineData("paths")]
    [InlineData("uptake")]
    [InlineData("air")]
    [InlineData("climate")]
    [InlineData("outputs")]
    [InlineData("sealedAtC")]
    public async Task A_missing_field_is_refused_by_its_name(string field)
    {
        var root = JsonNode.Parse(File.ReadAllText(Path.Combine(Cases, "case-20.json")))!.AsObject();
        root.Remove(field);
        var file = Path.Combine(folder, "case.json");
        await File.WriteAllTextAsync(file, root.ToJsonString(), TestContext.Current.CancellationToken);
        await AssertRefused(file, field);
    }

    [Fact]
    public async Task Leaf_that_grows_wetter_than_its_isotherm_is_refused_with_the_days()
    {
        var root = JsonNode.Parse(File.ReadAllText(Path.Combine(Cases, "case-03.json")))!.AsObject();
        root["climate"]!["meanRh"] = 1.0;
        root["climate"]!["annualRh"] = 0.0;
        root["isotherm"]!["heatOfSorptionJPerMol"] = 6000;
        var file = Path.Combine(folder, "wet.json");
        await File.WriteAllTextAsync(file, root.ToJsonString(), TestContext.Current.CancellationToken);
        await AssertRefused(file, "range of its isotherm");
        await AssertRefused(file, "range of its isotherm", "--engine", "fine");
    }

    [Fact]
    public async Task A_file_that_is_not_there_is_refused() => await AssertRefused(Path.Combine(folder, "none.json"), "no such file");

    [Fact]
    public async Task An_unknown_engine_is_wrong_usage()
    {
        var (code, said, _) = await Run("solve", Path.Combine(Cases, "case-21.json"), "--engine", "slow");
        Assert.Equal((2, ""), (code, said));
    }

    private async Task AssertRefused(string file, string named, params string[] more)
    {
        var (code, said, complaint) = await Run(["solve", file, "--json", .. more]);
        Assert.Equal((1, ""), (code, said));
        Assert.Contains(named, complaint, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", complaint, StringComparison.Ordinal);
        Assert.DoesNotContain("fault of the program", complaint, StringComparison.Ordinal);
    }

    private async Task<(int Code, string Out, string Error)> Run(params string[] words)
    {
        using StringWriter output = new();
        using StringWriter error = new();
        CommandLine line = new(new Terminal(output, error, TimeProvider.System, _ => null, folder));
        var code = await line.Run(line.Tree(SolveCommand.In(line)), words);
        return (code, output.ToString(), error.ToString());
    }
}
