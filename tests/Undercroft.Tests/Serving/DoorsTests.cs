using System.Net;
using System.Net.Security;
using System.Security.Authentication;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Undercroft.Ledger;
using Undercroft.Serving;
using Undercroft.Tests.Access;
using Xunit;

namespace Undercroft.Tests.Serving;

/// <summary>Which doors need a lock, whom a forwarded header is believed from, and what encryption changes.</summary>
public sealed class DoorsTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("undercroft-doors").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory]
    [InlineData("http://0.0.0.0:0", null, null)]
    [InlineData("http://192.168.1.20:7420", null, null)]
    [InlineData("http://127.0.0.2:7420", null, null)]
    [InlineData("http://127.0.0.1:7420;http://[::]:7421", null, null)]
    [InlineData("http://127.0.0.1:7420", "https://cellar.example", null)]
    [InlineData("http://127.0.0.1:7420", null, "127.0.0.1")]
    public void Whatever_lets_others_ask_needs_a_password_first(string urls, string? name, string? proxy)
    {
        var asked = new DoorsAsked(urls, name is null ? [] : [name], proxy is null ? [] : [proxy]);
        var refusal = Assert.Throws<Refusal>(() => Doors.Read(asked, "/home/ada/cellar", () => false, path => path));
        Assert.Contains("undercroft access password --data /home/ada/cellar", refusal.Message, StringComparison.Ordinal);
        Assert.True(Doors.Read(asked, "", () => true, path => path).Guarded);
    }

    [Fact]
    public void This_machine_alone_needs_none_and_is_not_asked() =>
        Assert.False(Doors.Read(DoorsAsked.Loopback("http://127.0.0.1:0;http://localhost:1;http://[::1]:2"), "", () => throw new InvalidOperationException("asked"), path => path).Guarded);

    [Theory]
    [InlineData("cellar.example", "")]
    [InlineData("https://cellar.example/path", "")]
    [InlineData("https://me@cellar.example", "")]
    [InlineData("", "cellar.example")]
    [InlineData("", "10.0.0.0/8")]
    public void What_cannot_be_read_is_refused(string name, string proxy) => Assert.Throws<Refusal>(() =>
        Doors.Read(new("http://127.0.0.1:0", name.Length > 0 ? [name] : [], proxy.Length > 0 ? [proxy] : []), "", () => true, path => path));

    [Fact]
    public async Task The_public_name_is_answered_and_no_other()
    {
        await using var page = await OpenPage.Start(new("http://127.0.0.1:0", ["http://cellar.example"], []), Strangers.Password);
        using var named = await page.Send(HttpMethod.Get, "/sign-in", null, ("Host", "cellar.example"));
        Assert.Equal(HttpStatusCode.OK, named.StatusCode);
        foreach (var host in (string[])["cellar.example:8443", "evil.example", "x.cellar.example", "cellar.example."])
        {
            using var other = await page.Send(HttpMethod.Get, "/sign-in", null, ("Host", host));
            Assert.Equal(HttpStatusCode.MisdirectedRequest, other.StatusCode);
        }
    }

    [Fact]
    public async Task A_server_behind_https_is_not_asked_in_the_clear()
    {
        await using var page = await OpenPage.Start(new("http://127.0.0.1:0", ["https://cellar.example"], ["192.0.2.7"]), Strangers.Password);
        using var named = await page.Send(HttpMethod.Get, "/sign-in", null, ("Host", "cellar.example"));
        Assert.Equal(HttpStatusCode.MisdirectedRequest, named.StatusCode);
        Assert.Contains("--proxy", await named.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        using var health = await page.Send(HttpMethod.Get, "/health");
        Assert.Equal(HttpStatusCode.OK, health.StatusCode);
    }

    [Fact]
    public async Task Every_address_of_the_machine_is_its_own_name_and_no_other()
    {
        await using var page = await Strangers.Guarded();
        var port = page.Address.Port;
        using var own = await page.Send(HttpMethod.Get, $"http://127.0.0.1:{port}/health", null);
        Assert.Equal(HttpStatusCode.OK, own.StatusCode);
        foreach (var host in (string[])[$"cellar.example:{port}", $"0.0.0.0:{port}", $"192.0.2.7:{port}", $"localhost.evil.example:{port}"])
        {
            using var other = await page.Send(HttpMethod.Get, $"http://127.0.0.1:{port}/health", null, ("Host", host));
            Assert.Equal(HttpStatusCode.MisdirectedRequest, other.StatusCode);
        }
    }

    [Theory]
    [InlineData("127.0.0.1", HttpStatusCode.OK)]
    [InlineData("192.0.2.7", HttpStatusCode.MisdirectedRequest)]
    public async Task Forwarded_headers_are_believed_from_the_configured_proxy_alone(string proxy, HttpStatusCode expected)
    {
        await using var page = await OpenPage.Start(new("http://127.0.0.1:0", ["https://cellar.example"], [proxy]), Strangers.Password);
        using var answer = await page.Send(HttpMethod.Get, "/sign-in", null, ("Host", "inside.example"), ("X-Forwarded-Host", "cellar.example"), ("X-Forwarded-Proto", "https"), ("X-Forwarded-For", "203.0.113.9"));
        Assert.Equal(expected, answer.StatusCode);
        if (expected == HttpStatusCode.OK)
            Assert.DoesNotContain("not encrypted", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Behind_a_proxy_each_address_has_attempts_of_its_own()
    {
        await using var page = await OpenPage.Start(new("http://127.0.0.1:0", ["https://cellar.example"], ["127.0.0.1"]), Strangers.Password);
        async Task<HttpStatusCode> Attempt(string from)
        {
            using var answer = await page.Send(HttpMethod.Post, "/sign-in", new FormUrlEncodedContent([]), ("Host", "cellar.example"), ("X-Forwarded-Proto", "https"), ("X-Forwarded-For", from));
            return answer.StatusCode;
        }

        for (var n = 0; n < SignInLimit.FromOneAddress; n++)
            Assert.NotEqual(HttpStatusCode.TooManyRequests, await Attempt("203.0.113.9"));
        Assert.Equal(HttpStatusCode.TooManyRequests, await Attempt("203.0.113.9"));
        Assert.NotEqual(HttpStatusCode.TooManyRequests, await Attempt("203.0.113.10"));
    }

    [Theory]
    [InlineData(".pem", false)]
    [InlineData(".pem", true)]
    [InlineData(".pfx", false)]
    public async Task With_a_certificate_everything_is_encrypted_and_cookies_know_it(string kind, bool keyApart)
    {
        var (file, key) = Certificate(kind, keyApart);
        await using var page = await OpenPage.Start(new("https://0.0.0.0:0", [], [], file, key), Strangers.Password);
        using var browser = new HttpClient(new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            SslOptions = new() { RemoteCertificateValidationCallback = (_, shown, _, _) => shown!.Subject == "CN=cellar" },
        })
        { BaseAddress = new($"https://127.0.0.1:{page.Address.Port}") };
        using var answer = await browser.SignIn("desk", Strangers.Password);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"), each => each.StartsWith("__Host-undercroft-0=", StringComparison.Ordinal));
        Assert.Contains("; secure", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("path=/;", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("domain=", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Equal("max-age=31536000", Assert.Single(answer.Headers.GetValues("Strict-Transport-Security")));
    }

    [Fact]
    public async Task Older_encryption_is_not_spoken()
    {
        var (file, _) = Certificate(".pem", keyApart: false);
        await using var page = await OpenPage.Start(new("https://127.0.0.1:0", [], [], file));
        foreach (var (protocol, spoken) in new[] { (SslProtocols.Tls13, true), (SslProtocols.Tls12, true), ((SslProtocols)0x300, false), ((SslProtocols)0xC0, false) })
        {
            using var connection = new System.Net.Sockets.TcpClient();
            await connection.ConnectAsync(IPAddress.Loopback, page.Address.Port, TestContext.Current.CancellationToken);
            await using var stream = new SslStream(connection.GetStream(), false, (_, shown, _, _) => shown!.Subject == "CN=cellar");
            var handshake = stream.AuthenticateAsClientAsync(new SslClientAuthenticationOptions { TargetHost = "localhost", EnabledSslProtocols = protocol }, TestContext.Current.CancellationToken);
            if (spoken)
                await handshake;
            else
                await Assert.ThrowsAnyAsync<Exception>(() => handshake);
        }
    }

    [Fact]
    public void Https_without_a_certificate_and_a_file_that_is_none_are_refused()
    {
        Assert.Contains("--certificate", Assert.Throws<Refusal>(() => Doors.Read(DoorsAsked.Loopback("https://127.0.0.1:0"), "", () => true, path => path)).Message, StringComparison.Ordinal);
        var file = Path.Combine(folder, "letter.pem");
        File.WriteAllText(file, "dear friend");
        foreach (var named in (string[])[file, Path.Combine(folder, "none.pem"), Path.ChangeExtension(file, ".pfx")])
            Assert.Contains("cannot be used", Assert.Throws<Refusal>(() => Doors.Read(new("https://127.0.0.1:0", [], [], named), "", () => true, path => path)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("http://0.0.0.0:7420", "", new[] { "http://0.0.0.0:7420" })]
    [InlineData("http://127.0.0.1:7420", "https://cellar.example", new string[0])]
    [InlineData("http://127.0.0.1:7420", "http://cellar.example", new[] { "http://cellar.example" })]
    public void What_travels_in_the_clear_is_said(string urls, string name, string[] clear) =>
        Assert.Equal(clear, Doors.Read(new(urls, name.Length > 0 ? [name] : [], []), "", () => true, path => path).InTheClear);

    private (string File, string? Key) Certificate(string kind, bool keyApart)
    {
        using var pair = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var certificate = new CertificateRequest("CN=cellar", pair, HashAlgorithmName.SHA256).CreateSelfSigned(new(2020, 1, 1, 0, 0, 0, TimeSpan.Zero), new(2120, 1, 1, 0, 0, 0, TimeSpan.Zero));
        var (file, key) = (Path.Combine(folder, "cellar" + kind), keyApart ? Path.Combine(folder, "cellar.key") : null);
        if (kind == ".pfx")
            File.WriteAllBytes(file, certificate.Export(X509ContentType.Pfx));
        else
            File.WriteAllText(file, certificate.ExportCertificatePem() + (keyApart ? "" : "\n" + pair.ExportPkcs8PrivateKeyPem()));
        if (key is not null)
            File.WriteAllText(key, pair.ExportPkcs8PrivateKeyPem());
        return (file, key);
    }
}
