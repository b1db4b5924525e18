using System.Net;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Builder;
using Undercroft.Access;
using Undercroft.Ledger;
using Undercroft.Ledger.Sqlite;
using Undercroft.Serving;
using Undercroft.Shell;
using Xunit;

namespace Undercroft.Tests.Serving;

/// <summary>The page on a free loopback port with an empty data folder.</summary>
public sealed partial class OpenPage : IAsyncLifetime
{
    /// <summary>The present of these tests.</summary>
    public static readonly DateOnly Today = new(2026, 11, 24);

    private readonly WebApplication app;

    public OpenPage()
        : this(DoorsAsked.Loopback("http://127.0.0.1:0"))
    {
    }

    private OpenPage(DoorsAsked asked, string? password = null)
    {
        Folder = Path.Combine(Path.GetTempPath(), "undercroft-page-" + Guid.NewGuid().ToString("N"));
        var folder = DataFolder.OrNew(Folder);
        Cellars = SqliteCellars.OpenOrCreate(folder);
        if (password is not null)
        {
            using var store = AccessStore.Open(Folder, TimeProvider.System);
            store.SetPassword(password);
        }

        app = Server.Build(Folder, Doors.Read(asked, Folder, () => password is not null, path => path), services =>
            Features.Add(services, folder, Cellars, cellar => Present.Of(Today, cellar, TimeProvider.System), TimeProvider.System));
    }

    public string Folder { get; }

    public SqliteCellars Cellars { get; }

    /// <summary>What the server's own parts share.</summary>
    public IServiceProvider Services => app.Services;

    public Uri Address { get; private set; } = new("http://127.0.0.1/");

    public HttpClient Client { get; } = new(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() }) { Timeout = Timeout.InfiniteTimeSpan };

    public static Task<OpenPage> Start() => Start(DoorsAsked.Loopback("http://127.0.0.1:0"));

    /// <summary>A server with doors of its own, and a password where other machines may ask.</summary>
    public static async Task<OpenPage> Start(DoorsAsked asked, string? password = null)
    {
        var page = new OpenPage(asked, password);
        await page.InitializeAsync();
        return page;
    }

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

    /// <summary>The text of a page.</summary>
    public async Task<string> Read(string path)
    {
        using var answer = await Send(HttpMethod.Get, path);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>Fills a form of a page and sends it as a browser would, with its token.</summary>
    public async Task<HttpResponseMessage> Fill(string path, string form, params (string Name, string Value)[] fields) =>
        await Post(path, new FormUrlEncodedContent([new("_handler", form), new("__RequestVerificationToken", await Token(path)), .. fields.Select(field => KeyValuePair.Create(field.Name, field.Value))]));

    /// <summary>Fills a form that takes a file and sends it as a browser would.</summary>
    public async Task<HttpResponseMessage> FillWithFile(string path, string form, string field, byte[] bytes, params (string Name, string Value)[] fields)
    {
        using var content = new MultipartFormDataContent
        {
            { new StringContent(form), "_handler" },
            { new StringContent(await Token(path)), "__RequestVerificationToken" },
            { new ByteArrayContent(bytes), field, "picture.jpg" },
        };
        foreach (var (name, value) in fields)
            content.Add(new StringContent(value), name);
        return await Post(path, content);
    }

    /// <summary>Hands a file in.</summary>
    public async Task<HttpResponseMessage> Upload(string fileName, byte[] bytes)
    {
        using var content = new MultipartFormDataContent
        {
            { new StringContent("sheet"), "_handler" },
            { new StringContent(await Token("/import")), "__RequestVerificationToken" },
            { new ByteArrayContent(bytes), "Sheet", fileName },
        };
        return await Post("/import", content);
    }

    public async Task<Cellar> Cellar() => await Cellars.ReadAsync(View.Now, TestContext.Current.CancellationToken);

    private Task<HttpResponseMessage> Post(string path, HttpContent content) =>
        Send(HttpMethod.Post, path, content, ("Sec-Fetch-Site", "same-origin"), ("Origin", Address.GetLeftPart(UriPartial.Authority)));

    private async Task<string> Token(string path) => TokenField().Match(await Read(path)).Groups["token"].Value;

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"(?<token>[^\"]+)\"")]
    private static partial Regex TokenField();
}
