using System.Text.Json;
using System.Text.RegularExpressions;
using Xunit;

namespace Undercroft.Tests.Calculators;

/// <summary>Every number of every worked example, replaced by what a slip of the finger or ill will may put there: an answer of finite numbers, or a refusal in words.</summary>
public sealed partial class CalcHostileTests
{
    private static readonly string[] Hostile =
    [
        "NaN", "Infinity", "-Infinity", "1e400", "-1e400", "1e308", "1e300", "1e-320", "1e-300", "-1", "-0", "0", "-273.15", "-300", "99.9999", "100.0001", "0x10", "1_0", "٣", "1,5", "1,500", "", " ", "--", "'; drop",
    ];

    /// <summary>What may be left open: so dry that there is no dew point, no stated doubt, no headspace given.</summary>
    private static readonly HashSet<string> MayBeUnknown = ["dewPointC", "uncertaintyPct", "gasForTenKPaMg", "lidForceN"];

    private static readonly string[] More =
    [
        "film --oxygen=150 --test=23C/0% --area=300cm2 --temperature=20C --activation=33.5 --oxygen-inside=0%", "strip --sides=110mmx80mm --turns=2 --stretch=2 --overlap=20mm",
        "pressure --from=20C --to=40C --from-altitude=0m --to-altitude=1500m --activity=0.6", "bulge --from=20C --to=35C --vacuum=20kPa --activity=0.6 --lid=80mm",
        "air --temperature=25C --humidity=60% --altitude=500m", "isotherm --leaf=burley --moisture=18% --temperature=22C", "headspace --container=473ml --leaf=100g --moisture=13% --temperature=22C",
    ];

    public static TheoryData<string> Calls =>
    [
        .. CalculatorDoorTests.Examples.Select(row => row.Data).Select(row => row.Item1 + " " + string.Join(' ', row.Item2.Split('&').Select(part => "--" + Uri.UnescapeDataString(part)))),
        .. More,
    ];

    [Theory]
    [MemberData(nameof(Calls))]
    public void Any_number_gives_a_finite_answer_or_a_refusal(string call)
    {
        var done = 0;
        foreach (Match number in Number().Matches(call))
        {
            foreach (var hostile in Hostile)
            {
                var spoilt = call[..number.Index] + hostile + call[(number.Index + number.Length)..];
                var (exit, text, error) = Calc.RunWords([spoilt.Split(' ')[0], .. spoilt.Split(" --")[1..].Select(option => "--" + option), "--json"]);
                Assert.True(exit is 0 or 1 or 2, $"{spoilt}: {exit}");
                Assert.DoesNotContain("fault of the program", error, StringComparison.Ordinal);
                Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
                if (exit != 0)
                {
                    Assert.True(text.Length == 0 && error.Trim().Length > 0, $"{spoilt}: {text}{error}");
                    continue;
                }

                done++;
                foreach (var (name, value) in JsonSerializer.Deserialize<Dictionary<string, JsonElement>>(text)!)
                    Assert.True(value.ValueKind != JsonValueKind.Null || MayBeUnknown.Contains(name), $"{spoilt}: {text}");
            }
        }

        Assert.True(done > 0, call); // some of them are merely unusual, and answered
    }

    [GeneratedRegex(@"(?<=[=/x*])-?[0-9]+(\.[0-9]+)?")]
    private static partial Regex Number();
}
