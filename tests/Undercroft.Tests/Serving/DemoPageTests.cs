using Xunit;

namespace Undercroft.Tests.Serving;

public sealed class DemoPageTests : IDisposable
{
    private readonly string folder = Path.Combine(Path.GetTempPath(), "undercroft-demo-" + Guid.NewGuid().ToString("N"));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_demo_says_on_every_page_that_it_is_one_and_how_to_begin_ones_own()
    {
        var (exitCode, _, _) = await BuiltProgram.Run("demo", "--data", folder);
        Assert.Equal(0, exitCode);
        await using var program = await BuiltProgram.Serve(folder);
        using var client = new HttpClient { BaseAddress = program.Address };
        foreach (var path in (string[])["/add", "/packages", "/places", "/history", "/doubts", "/ask", "/import", "/"])
        {
            var page = await client.GetStringAsync(path, TestContext.Current.CancellationToken);
            Assert.Contains("Demo cellar.", page, StringComparison.Ordinal);
            Assert.Contains("undercroft serve --data my-cellar", page, StringComparison.Ordinal);
        }
    }
}
