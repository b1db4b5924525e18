using System.Net;
using System.Net.Http.Headers;
using System.Text.RegularExpressions;
using Undercroft.Serving;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Access;

/// <summary>A server that others can reach (every address of this machine), with a password, and browsers that ask it.</summary>
internal static partial class Strangers
{
    internal const string Password = "four plain wooden spoons";

    internal static Task<OpenPage> Guarded() => OpenPage.Start(new DoorsAsked("http://0.0.0.0:0", [], []), Password);

    /// <summary>A browser with cookies of its own, under the loopback name.</summary>
    internal static HttpClient Browser(OpenPage page) => new(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() })
    {
        BaseAddress = new($"http://127.0.0.1:{page.Address.Port}"),
    };

    internal static async Task<HttpResponseMessage> SignIn(this HttpClient browser, string device, string? password = null, string? code = null, string to = "")
    {
        var path = "/sign-in" + (to.Length > 0 ? "?To=" + Uri.EscapeDataString(to) : "");
        return await browser.Fill(path, "sign-in", ("Device", device), ("Password", password ?? ""), ("Code", code ?? ""));
    }

    internal static async Task<HttpResponseMessage> Fill(this HttpClient browser, string path, string form, params (string Name, string Value)[] fields)
    {
        var token = TokenField().Match(await browser.GetStringAsync(path, TestContext.Current.CancellationToken)).Groups["token"].Value;
        using var request = new HttpRequestMessage(HttpMethod.Post, path)
        {
            Content = new FormUrlEncodedContent([new("_handler", form), new("__RequestVerificationToken", token), .. fields.Select(field => KeyValuePair.Create(field.Name, field.Value))]),
        };
        request.Headers.Add("Sec-Fetch-Site", "same-origin");
        return await browser.SendAsync(request, TestContext.Current.CancellationToken);
    }

    internal static async Task<HttpResponseMessage> Ask(this HttpClient browser, string path, string? token = null, HttpMethod? method = null, HttpContent? content = null)
    {
        using var request = new HttpRequestMessage(method ?? HttpMethod.Get, path) { Content = content };
        if (token is not null)
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", token);
        return await browser.SendAsync(request, TestContext.Current.CancellationToken);
    }

    internal static async Task<string> Text(this HttpResponseMessage answer) => await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"(?<token>[^\"]+)\"")]
    private static partial Regex TokenField();
}
