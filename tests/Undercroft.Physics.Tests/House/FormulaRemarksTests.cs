using System.Reflection;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.House;

/// <summary>Every formula says what it computes, where that comes from, where it holds and how wrong it can be.</summary>
public sealed partial class FormulaRemarksTests
{
    private static readonly string[] Fields = ["Equation", "Source", "Valid", "Error"];
    private static readonly Assembly Physics = typeof(Temperature).Assembly;

    private static readonly Dictionary<string, XElement> Remarks = XDocument
        .Load(Path.Combine(AppContext.BaseDirectory, "Undercroft.Physics.xml"))
        .Descendants("member")
        .Where(member => member.Element("remarks") is not null)
        .ToDictionary(member => member.Attribute("name")!.Value, member => member.Element("remarks")!);

    /// <summary>The public static classes of the formula folders, and every isotherm.</summary>
    public static TheoryData<string> Formulas => [.. Physics.GetExportedTypes().Where(IsFormula).Select(type => type.FullName!).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Formulas))]
    public void Every_formula_says_equation_source_valid_and_error(string formula)
    {
        Assert.True(Remarks.TryGetValue("T:" + formula, out var remarks), $"{formula} has no <remarks>.");
        var said = remarks.Elements("para").Select(Headed).ToDictionary(para => para.Heading, para => para.Text);
        Assert.All(Fields, field => Assert.True(said.TryGetValue(field, out var text) && text.Length > 3, $"{formula} does not say its {field}."));
    }

    [Fact]
    public void Every_key_in_the_documentation_is_in_the_bibliography()
    {
        var known = Bibliography();
        var used = Remarks
            .SelectMany(member => member.Value.Elements("para").SelectMany(para => Key().Matches(para.Value)).Select(match => (Member: member.Key, Key: match.Groups["key"].Value)))
            .ToList();
        Assert.NotEmpty(used);
        Assert.All(used, use => Assert.True(known.Contains(use.Key), $"{use.Member} names [{use.Key}], which docs/physics/sources.bib lacks."));
    }

    [Fact]
    public void Every_bibliography_entry_has_its_own_key_and_a_title()
    {
        var text = Repository.Read("docs", "physics", "sources.bib");
        var keys = Entry().Matches(text).Select(match => match.Groups["key"].Value).ToList();
        Assert.Equal(keys.Distinct(StringComparer.OrdinalIgnoreCase).Count(), keys.Count);
        Assert.Equal(keys.Count, Regex.Count(text, "^@", RegexOptions.Multiline));
        Assert.All(text.Split("\n@").Skip(1), entry => Assert.Matches("title ?= ?\\{.{5,}\\}", entry));
    }

    [Fact]
    public void The_check_itself_sees_what_is_missing()
    {
        Assert.Contains(typeof(Physics.Air.SaturationPressure).FullName!, Formulas.Select(row => row.Data));
        Assert.Contains(typeof(OswinIsotherm).FullName!, Formulas.Select(row => row.Data));
        Assert.Equal("Source", Headed(XElement.Parse("<para><b>Source</b> [Nobody1900].</para>")).Heading);
        Assert.Equal("Nobody1900", Key().Match("[Nobody1900]").Groups["key"].Value);
        Assert.DoesNotContain("Nobody1900", Bibliography());
    }

    private static bool IsFormula(Type type) =>
        (type.Namespace is "Undercroft.Physics.Air" or "Undercroft.Physics.Leaf" or "Undercroft.Physics.Barrier" or "Undercroft.Physics.Inference"
            or "Undercroft.Physics.Climate" or "Undercroft.Physics.Climate.Exposures" or "Undercroft.Physics.Climate.Years" && type is { IsAbstract: true, IsSealed: true } && !HoldsConstantsOnly(type))
        || type == typeof(Physics.Climate.Exposures.MouldIndex)
        || (type.IsSubclassOf(typeof(Isotherm)) && !type.IsAbstract);

    /// <summary>A table of constants by substance, not a relation between quantities.</summary>
    private static bool HoldsConstantsOnly(Type type) => type == typeof(Physics.Barrier.Molar);

    private static (string Heading, string Text) Headed(XElement para)
    {
        var heading = para.Element("b")?.Value ?? "";
        return (heading, para.Value[heading.Length..].Trim());
    }

    private static HashSet<string> Bibliography() =>
        [.. Entry().Matches(Repository.Read("docs", "physics", "sources.bib")).Select(match => match.Groups["key"].Value)];

    [GeneratedRegex(@"\[(?<key>[A-Z][A-Za-z0-9_]+)\]")]
    private static partial Regex Key();

    [GeneratedRegex(@"^@[a-z]+\{(?<key>[A-Za-z0-9_]+),", RegexOptions.Multiline)]
    private static partial Regex Entry();
}
