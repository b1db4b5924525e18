using Microsoft.Playwright;

namespace Undercroft.Browser.Tests;

/// <summary>As long as it lasts, the answers to some requests get lost on their way back: the server has done its work, and the browser does not know.</summary>
internal sealed class LostAnswer : IAsyncDisposable
{
    private readonly ICDPSession tools;

    private LostAnswer(ICDPSession tools) => this.tools = tools;

    /// <summary>Begins.</summary>
    /// <param name="page">Whose requests.</param>
    /// <param name="pattern">Which addresses, with <c>*</c> for any signs.</param>
    internal static async Task<LostAnswer> To(IPage page, string pattern)
    {
        var tools = await page.Context.NewCDPSessionAsync(page);
        tools.Event("Fetch.requestPaused").OnEvent += (_, told) =>
            _ = tools.SendAsync("Fetch.failRequest", new() { ["requestId"] = told!.Value.GetProperty("requestId").GetString()!, ["errorReason"] = "ConnectionReset" });
        await tools.SendAsync("Fetch.enable", new() { ["patterns"] = new[] { new Dictionary<string, object> { ["urlPattern"] = pattern, ["requestStage"] = "Response" } } });
        return new(tools);
    }

    public async ValueTask DisposeAsync()
    {
        await tools.SendAsync("Fetch.disable");
        await tools.DetachAsync();
    }
}
