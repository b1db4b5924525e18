using System.Text.Json;
using Undercroft.Api;
using Undercroft.Shell;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Api;

/// <summary>Which addresses the HTTP API has, and what it says of itself.</summary>
public sealed class ApiMapTests
{
    [Fact]
    public async Task The_description_names_every_address_with_its_fields()
    {
        await using var page = await OpenPage.Start();
        using var json = JsonDocument.Parse(await page.Read("/api/openapi.json"));
        Assert.StartsWith("3.", json.RootElement.GetProperty("openapi").GetString(), StringComparison.Ordinal);
        var paths = json.RootElement.GetProperty("paths");
        foreach (var route in ApiMap.Routes)
        {
            var operation = paths.GetProperty(route.Address).GetProperty(route.Method.ToLowerInvariant());
            Assert.NotEqual("", operation.GetProperty("summary").GetString());
            Assert.Contains($"scope {route.Needs.ToString().ToLowerInvariant()}", operation.GetProperty("description").GetString(), StringComparison.Ordinal);
        }

        var weigh = paths.GetProperty("/api/packages/{id}/weighings").GetProperty("post");
        Assert.Equal("id", Assert.Single(weigh.GetProperty("parameters").EnumerateArray()).GetProperty("name").GetString());
        Assert.Equal(["200", "400", "401", "403", "404", "409", "413", "415", "421", "422", "500"], weigh.GetProperty("responses").EnumerateObject().Select(answer => answer.Name).Order());
        Assert.False(paths.GetProperty("/api/due").GetProperty("get").GetProperty("responses").TryGetProperty("409", out _));
        var body = weigh.GetProperty("requestBody").GetProperty("content").GetProperty("application/json").GetProperty("schema");
        Assert.Equal(["mass"], body.GetProperty("required").EnumerateArray().Select(name => name.GetString()));
        Assert.Equal("boolean", body.GetProperty("properties").GetProperty("net").GetProperty("type").GetString());
        Assert.True(paths.TryGetProperty("/api/readings", out _));
        Assert.Equal(ApiMap.Routes.Select(route => route.Address).Append("/api/readings").Distinct().Count(), paths.EnumerateObject().Count(path => path.Name.StartsWith("/api", StringComparison.Ordinal)));
        Assert.Equal("bearer", json.RootElement.GetProperty("components").GetProperty("securitySchemes").GetProperty("token").GetProperty("scheme").GetString());
    }

    [Fact]
    public void No_address_takes_or_writes_a_file()
    {
        var root = Commands.In(new CommandLine(new Terminal(TextWriter.Null, TextWriter.Null, TimeProvider.System, _ => null, "/")));
        foreach (var route in ApiMap.Routes)
        {
            foreach (var field in ApiWords.FieldsOf(root, route))
                Assert.DoesNotMatch("(?i)\\b(file|folder|zip|pdf|directory)\\b", field.Name + " " + field.Description);
            Assert.DoesNotContain(route.Words.Split(' ')[0], (string[])["backup", "restore", "export", "import", "print", "calendar", "demo", "serve", "solve", "access"]);
        }
    }

    [Fact]
    public void Every_command_has_an_address_or_a_reason_for_none()
    {
        var root = Commands.In(new CommandLine(new Terminal(TextWriter.Null, TextWriter.Null, TimeProvider.System, _ => null, "/")));
        string[] commands = [.. Leaves(root, "")];
        var routed = ApiMap.Routes.Select(route => route.Words).ToHashSet();
        Assert.DoesNotContain(commands, words => !routed.Contains(words) && !ApiMap.Without.ContainsKey(words));
        Assert.DoesNotContain(ApiMap.Without.Keys, words => routed.Contains(words) || !commands.Contains(words));

        static IEnumerable<string> Leaves(System.CommandLine.Command command, string words) => command.Subcommands.SelectMany(inner =>
            inner.Subcommands.Count == 0 ? [$"{words} {inner.Name}".Trim()] : Leaves(inner, $"{words} {inner.Name}".Trim()));
    }
}
