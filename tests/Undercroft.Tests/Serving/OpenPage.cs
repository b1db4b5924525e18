using Microsoft.AspNetCore.Builder;
using Undercroft.Serving;
using Xunit;

namespace Undercroft.Tests.Serving;

/// <summary>The page on a free loopback port with an empty data folder, for the tests of one class.</summary>
public sealed class OpenPage : IAsyncLifetime
{
    private readonly WebApplication app;

    public OpenPage()
    {
        Folder = Path.Combine(Path.GetTempPath(), "undercroft-page-" + Guid.NewGuid().ToString("N"));
        app = Server.Build(Folder, Binding.Read("http://127.0.0.1:0"));
    }

    public string Folder { get; }

    public Uri Address { get; private set; } = new("http://127.0.0.1/");

    public HttpClient Client { get; } = new(new SocketsHttpHandler { AllowAutoRedirect = false });

    public async ValueTask InitializeAsync()
    {
        await app.StartAsync(TestContext.Current.CancellationToken);
        Address = new(Server.AddressesOf(app)[0]);
        Client.BaseAddress = Address;
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await app.DisposeAsync();
        Directory.Delete(Folder, recursive: true);
    }

    /// <summary>Sends a request with extra headers.</summary>
    public Task<HttpResponseMessage> Send(HttpMethod method, string path, HttpContent? content = null, params (string Name, string Value)[] headers)
    {
        var request = new HttpRequestMessage(method, path) { Content = content };
        foreach (var (name, value) in headers)
        {
            if (name == "Host")
                request.Headers.Host = value;
            else
                request.Headers.TryAddWithoutValidation(name, value);
        }

        return Client.SendAsync(request, TestContext.Current.CancellationToken);
    }
}
