using System.Reflection;
using System.Text.Json;
using Microsoft.AspNetCore.Components;
using Undercroft.Access;

namespace Undercroft.Browser.Tests;

/// <summary>The address of every page that the program has, so that a new one is looked at without anybody thinking of it.</summary>
internal static class EveryPage
{
    /// <summary>Where the bare address would show nothing, or not everything: addresses with what they are asked. In braces, what a cellar has.</summary>
    private static readonly Dictionary<string, string[]> Asked = new()
    {
        ["/ask"] = ["/ask", "/ask?In=jar-473", "/ask?In=jar-473&Mass=much"],
        ["/beliefs"] = ["/beliefs", "/beliefs?Place={place}"],
        ["/calculators/{Name}"] = ["/calculators/air?t=20C&rh=62%25", "/calculators/water", "/calculators/bulge"],
        ["/compare"] = ["/compare", "/compare?Kind=jar-473&Kind=bag-zip&Mass=100g"],
        ["/correct"] = ["/correct?Line=3"],
        ["/kinds/{Code}"] = ["/kinds/jar-473", "/kinds/bag-zip", "/kinds/nothing"],
        ["/lots/{Id}"] = ["/lots/{lot}"],
        ["/map"] = ["/map", "/map?Place={place}"],
        ["/packages"] = ["/packages", "/packages?State=look", "/packages?Text=nothing+of+that+kind"],
        ["/packages/{Id}"] = ["/packages/{package}", "/packages/{package}?IfIn=bag-zip", "/packages/{package}?IfOpening=monthly", "/packages/{gone}"],
        ["/packages/{Id}/photos"] = ["/packages/{package}/photos"],
        ["/packages/{Id}/mark"] = ["/packages/{package}/mark"],
        ["/packages/{Id}/water"] = ["/packages/{package}/water", "/packages/{package}/water?To=16%25"],
        ["/places/{Name}"] = ["/places/{place}", "/places/Cabin%20cupboard"],
        ["/places/compare"] = ["/places/compare", "/places/compare?Place={place}&Place=Cabin+cupboard"],
        ["/print"] = ["/print", "/print?Ids={package}"],
        ["/round/go"] = ["/round/go?Ids={package}"],
        ["/totals"] = ["/totals", "/totals?Pace=20g..30g"],
        ["/trouble/{Tree}"] = ["/trouble/mould", "/trouble/mould?A=yes", "/trouble/bulge"],
        ["/trouble/unknown"] = ["/trouble/unknown", "/trouble/unknown?Container=jar-237"],
    };

    /// <summary>The templates of all pages, such as <c>/packages/{Id}</c>.</summary>
    internal static IReadOnlyList<string> Templates { get; } =
        [.. typeof(AccessStore).Assembly.GetTypes().SelectMany(type => type.GetCustomAttributes<RouteAttribute>()).Select(route => route.Template).Order(StringComparer.Ordinal)];

    /// <summary>Templates that were asked for and are no page of the program.</summary>
    internal static IEnumerable<string> Unknown => Asked.Keys.Except(Templates);

    /// <summary>The addresses in a cellar, without the first stroke.</summary>
    /// <param name="shown">What <c>show --json</c> printed.</param>
    /// <param name="gone">A package that is no longer there.</param>
    /// <exception cref="InvalidOperationException">A page wants something in its address, and nobody said what.</exception>
    internal static IReadOnlyList<string> In(JsonElement shown, string gone)
    {
        var here = shown.GetProperty("packages").EnumerateArray().First(package => package.GetProperty("place").ValueKind == JsonValueKind.String);
        string Filled(string address) => address
            .Replace("{package}", here.GetProperty("id").GetString(), StringComparison.Ordinal)
            .Replace("{gone}", gone, StringComparison.Ordinal)
            .Replace("{lot}", here.GetProperty("lot").GetString(), StringComparison.Ordinal)
            .Replace("{place}", Uri.EscapeDataString(here.GetProperty("place").GetString()!), StringComparison.Ordinal);
        return [.. Templates.SelectMany(Of).Select(address => Filled(address)[1..])];
    }

    private static string[] Of(string template) =>
        Asked.TryGetValue(template, out var asked) ? asked
        : template.Contains('{', StringComparison.Ordinal) ? throw new InvalidOperationException($"Say in {nameof(EveryPage)} with what the page {template} is looked at.")
        : [template];
}
