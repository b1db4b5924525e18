using System.Text;
using Xunit;

namespace Undercroft.Tests.Serving;

public sealed class StartTests : IDisposable
{
    private readonly string trace = Path.Combine(Path.GetTempPath(), $"undercroft-start-{Guid.NewGuid():N}.nettrace");

    public void Dispose() => File.Delete(trace);

    /// <summary>The runtime itself writes down which assemblies it loads (keyword 0x8, loader).</summary>
    [Theory]
    [InlineData("--version")]
    [InlineData("--help")]
    [InlineData("serve --help")]
    public async Task A_command_loads_no_web_host(string words)
    {
        var (exitCode, _, _) = await BuiltProgram.Run(words.Split(' '), new()
        {
            ["DOTNET_EnableEventPipe"] = "1",
            ["DOTNET_EventPipeConfig"] = "Microsoft-Windows-DotNETRuntime:0x8:4",
            ["DOTNET_EventPipeOutputPath"] = trace,
        });
        Assert.Equal(0, exitCode);
        var loaded = await File.ReadAllBytesAsync(trace, TestContext.Current.CancellationToken);
        Assert.True(Mentions(loaded, "System.CommandLine.dll"), "the trace must name what was loaded, or it proves nothing");
        Assert.False(Mentions(loaded, "Microsoft.AspNetCore."), "the web host was loaded");
    }

    private static bool Mentions(byte[] loaded, string name) => loaded.AsSpan().IndexOf(Encoding.Unicode.GetBytes(name)) >= 0;
}
