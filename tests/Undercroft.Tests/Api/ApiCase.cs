using Undercroft.Shell;
using Undercroft.Shell.Web;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Api;

/// <summary>What the tests of the HTTP API begin with: a jar, a token, what the command line prints.</summary>
internal static class ApiCase
{
    internal static async Task<string> Jar(OpenPage page)
    {
        await Printed(page, "add", "--blend", "Evening ribbon", "--container", "jar-473", "--net", "110g", "--sealed", "2024-03", "--place", "Closet");
        return (await page.Cellar()).Packages.Keys.Single().ToString();
    }

    internal static string Make(OpenPage page, Scope may)
    {
        using var store = Undercroft.Access.AccessStore.Open(page.Folder, TimeProvider.System);
        return store.NewToken($"a {may.ToString().ToLowerInvariant()} program", may).Secret;
    }

    internal static async Task<string> Printed(OpenPage page, params string[] words)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var line = new CommandLine(new Terminal(output, error, TimeProvider.System, _ => null, "/"));
        var exit = await line.Run(Commands.In(line), [.. words, "--json", "--data", page.Folder, "--today", "2026-11-24"]);
        Assert.True(exit == 0, error.ToString());
        return output.ToString();
    }
}
