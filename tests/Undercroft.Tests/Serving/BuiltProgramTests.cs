using System.Net;
using System.Text.RegularExpressions;
using Undercroft.Serving;
using Xunit;

namespace Undercroft.Tests.Serving;

public sealed partial class BuiltProgramTests : IDisposable
{
    private readonly string folder = Path.Combine(Path.GetTempPath(), "undercroft-built-" + Guid.NewGuid().ToString("N"));

    public void Dispose()
    {
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Serves_every_asset_when_started_from_a_foreign_directory()
    {
        await using var program = await BuiltProgram.Serve(folder);
        using var client = new HttpClient { BaseAddress = program.Address };

        Assert.True(program.Address.IsLoopback);
        var page = await client.GetStringAsync("/add", TestContext.Current.CancellationToken);
        var linked = Linked().Matches(page).Select(match => match.Groups["address"].Value).ToList();
        Assert.Contains(linked, address => address.StartsWith("/assets/page.css", StringComparison.Ordinal));

        foreach (var address in linked.Concat(Assets.Names.Select(name => "/assets/" + name)))
        {
            using var answer = await client.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            Assert.NotEmpty(await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken));
        }
    }

    [Fact]
    public void Every_file_for_the_page_is_part_of_the_program()
    {
        var embedded = typeof(Assets).Assembly.GetManifestResourceNames().Count(name => name.StartsWith("wwwroot/", StringComparison.Ordinal));
        Assert.Equal(embedded, Assets.Names.Count());
        Assert.Contains("page.css", Assets.Names);
        Assert.Contains("arch.svg", Assets.Names);
    }

    [Theory]
    [InlineData("http://0.0.0.0:0")]
    [InlineData("http://+:0")]
    [InlineData("http://*:0")]
    [InlineData("http://cellar.example:0")]
    public async Task Another_binding_is_refused_and_leaves_nothing_behind(string url)
    {
        var (exitCode, output, error) = await BuiltProgram.Run("serve", "--data", folder, "--urls", url);
        Assert.Equal(1, exitCode);
        Assert.Empty(output);
        Assert.Contains("this machine alone", error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder));
    }

    [Fact]
    public async Task A_taken_port_is_refused_with_what_to_do()
    {
        await using var first = await BuiltProgram.Serve(folder);
        var (exitCode, output, error) = await BuiltProgram.Run("serve", "--data", folder, "--urls", $"http://127.0.0.1:{first.Address.Port}");
        Assert.Equal(1, exitCode);
        Assert.Empty(output);
        Assert.Contains("choose another", error, StringComparison.Ordinal);
    }

    [GeneratedRegex("href=\"(?<address>/assets/[^\"]+)\"")]
    private static partial Regex Linked();
}
