using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Calculators;

/// <summary>Every calculator through its three doors: command, page, address for programs. The worked example of each page is worked out anew.</summary>
public partial class CalculatorDoorTests
{
    /// <summary>The example of each page as its link has it, with name, value and accuracy of the number that it is about; sources stand on the pages.</summary>
    public static TheoryData<string, string, string, double, double> Examples => new()
    {
        { "air", "temperature=25C&humidity=100%25&pressure=95461Pa", "mixingRatioGPerKg", 21.3604, 21.36 * 4e-4 }, // PsychroLib 2.5.0 (MIT), tests
        { "warm-air", "from=0C%2F90%25&to=20C", "humidityPct", 23, 1 }, // an engineering page, "about 23 %"
        { "mkt", "temperature=20C%2A2&temperature=2C%2A4&temperature=25C%2A1", "meanKineticTemperatureC", 15.7, 0.05 }, // IsopharmMkt
        { "water", "mass=50g&from=10%25&to=14%25", "waterG", 50 * 0.04 / 0.86, 1e-6 }, // by hand
        { "isotherm", "leaf=burley&humidity=75%25", "moistureWetBasisPct", 18, 0.3 }, // Mutasa1990; a check of the fit
        { "humectant", "glycerol=50%25", "humidityPct", 81, 2 }, // by hand from Norrish's equation
        { "film", "water=0.9&test=38C%2F90%25&area=300cm2&temperature=20C&inside=65%25&outside=45%25&activation=33.5", "waterMgPerDay", 0.955, 1e-3 }, // derived
        { "laminate", "layer=140&layer=3560", "transmission", 134.7, 0.1 }, // derived from two published layers
        { "pinhole", "diameter=10um&length=0.2mm&temperature=25C", "oxygenMlPerDay", 0.1383, 0.0005 }, // by hand: 2.022e-5·7.854e-11·0.2095·86400e6/2.0785e-4
        { "strip", "diameter=80mm&turns=2&stretch=2", "lengthMm", (Math.PI * 80) + 20, 1e-6 }, // geometry
        { "headspace", "container=473ml&leaf=100g&moisture=13%25", "oxygenMl", 83.8, 0.1 }, // by hand
        { "pressure", "from=0C&to=60C", "gaugeKPa", 123.594 - 101.325, 0.1 }, // GasLawExample, which rounds to whole kelvin
        { "bulge", "from=25C&to=25C&gas=10mg&headspace=100ml&lid=80mm", "gasKPa", 5.6, 0.05 }, // by hand
        { "tightness", "volume=120ml&gain=110mg&control=5mg&days=14", "waterMgPerDayL", 62.5, 1e-9 }, // by hand
        { "salt", "salt=NaCl&temperature=20C", "humidityPct", 75.5, 0.2 }, // OimlR121 table 1
        { "hygrometer", "point=33.1%25%3D36.0%25&point=75.5%25%3D73.0%25&reading=60%25", "correctedPct", 33.1 + (42.4 / 37 * 24), 1e-6 }, // by hand
    };

    [Fact]
    public async Task Every_calculator_has_a_page_an_address_and_an_example_here()
    {
        await using var page = await OpenPage.Start();
        var listed = Links().Matches(await page.Read("/calculators")).Select(match => match.Groups[1].Value).Order(StringComparer.Ordinal);
        Assert.Equal(Examples.Select(row => row.Data.Item1).Order(StringComparer.Ordinal), listed);
    }

    [Fact]
    public async Task The_worked_example_comes_out_the_same_at_every_door()
    {
        await using var page = await OpenPage.Start();
        foreach (var (name, query, number, value, within) in Examples.Select(row => row.Data))
        {
            var byAddress = JsonDocument.Parse(await page.Read($"/api/calc/{name}?{query}")).RootElement;
            Assert.InRange(byAddress.GetProperty(number).GetDouble(), value - within, value + within);

            var words = string.Join(' ', query.Split('&').Select(field => "--" + Uri.UnescapeDataString(field)));
            Assert.Equal(byAddress.GetRawText(), JsonSerializer.Serialize(Calc.Json($"{name} {words}"), Undercroft.Shell.JsonText.Settings));

            var text = WebUtility.HtmlDecode(await page.Read($"/calculators/{name}?{query}"));
            var verdict = Regex.Replace(Calc.Run($"{name} {words}").Out, "\\s+", " ");
            var shown = Verdict().Match(text).Groups[1].Value;
            Assert.StartsWith(shown, verdict, StringComparison.Ordinal);
            Assert.Contains($"/calculators/{name}?{query}", text, StringComparison.Ordinal); // the page's own example is this one
            Assert.Contains("<h2>Formula</h2>", text, StringComparison.Ordinal);
            Assert.DoesNotContain("<script", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task What_a_calculator_rests_on_stands_in_the_bibliography()
    {
        var keys = Keys().Matches(await File.ReadAllTextAsync(Path.Combine(House.Repository.Root, "docs", "physics", "sources.bib"), TestContext.Current.CancellationToken))
            .Select(match => match.Groups[1].Value).ToHashSet();
        await using var page = await OpenPage.Start();
        var cited = new HashSet<string>();
        foreach (var (name, _, _, _, _) in Examples.Select(row => row.Data))
            cited.UnionWith(Cited().Matches(await page.Read("/calculators/" + name)).Select(match => match.Groups[1].Value));
        Assert.True(cited.Count >= 15, string.Join(' ', cited));
        Assert.Empty(cited.Except(keys));
    }

    [Theory]
    [InlineData("air?temperature=25&humidity=60%25", 422, "Accepted units")]
    [InlineData("air?temperature=25C", 400, "--humidity")]
    [InlineData("air?temperature=25C&humidity=60%25&colour=red", 400, "colour")]
    [InlineData("mkt?file=/etc/passwd", 400, "file")]
    [InlineData("laminate?layer=140&layer=0", 422, "above zero")]
    [InlineData("bulge?from=20C&to=20C&gas=10mg", 422, "--headspace")]
    [InlineData("bulge?from=20C&to=20C&vacuum=120kPa", 422, "can be pulled")]
    public async Task Addresses_refuse_with_a_reason(string address, int status, string why)
    {
        await using var page = await OpenPage.Start();
        using var answer = await page.Send(HttpMethod.Get, "/api/calc/" + address);
        Assert.Equal(status, (int)answer.StatusCode);
        var error = JsonDocument.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).RootElement.GetProperty("detail").GetString();
        Assert.Contains(why, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_page_refuses_beside_the_form_with_what_was_typed()
    {
        await using var page = await OpenPage.Start();
        using var answer = await page.Send(HttpMethod.Get, "/calculators/air?temperature=25C&humidity=160%25");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var text = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        Assert.Contains("0 to 100 %", text, StringComparison.Ordinal);
        Assert.Contains("value=\"160%\"", text, StringComparison.Ordinal);
        using var unknown = await page.Send(HttpMethod.Get, "/calculators/nothing");
        Assert.Equal(HttpStatusCode.NotFound, unknown.StatusCode);
    }

    [GeneratedRegex("href=\"/calculators/([a-z-]+)\"")]
    private static partial Regex Links();

    [GeneratedRegex("class=\"verdict\">([^<]+)<")]
    private static partial Regex Verdict();

    [GeneratedRegex("@[a-z]+\\{(\\w+),")]
    private static partial Regex Keys();

    [GeneratedRegex("\\[([A-Z]\\w+)\\]")]
    private static partial Regex Cited();
}
