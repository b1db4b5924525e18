using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json;
using Microsoft.Playwright;
using SkiaSharp;
using Undercroft.Access;
using Undercroft.Keeping.Rounds;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Browser.Tests;

/// <summary>The round on a phone in the house: over TLS, under a name that is not this machine's own, signed in, installed, without signal, with its camera.</summary>
public sealed class SecureRoundTests : IDisposable
{
    private const string Name = "cupboard.test";
    private const string Password = "four plain wooden spoons";
    private readonly string folder = Directory.CreateTempSubdirectory("undercroft-tls").FullName;
    private readonly int port = FreePort();

    private string Data => Path.Combine(folder, "data");

    private string Home => $"https://{Name}:{port}/";

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task The_page_is_installed_goes_on_without_signal_finds_labels_and_sends_what_waits_once()
    {
        var (file, key) = Certificate();
        await Cellar();
        var label = await Label();
        await using var phone = await Phone.Open(folder, $"--host-resolver-rules=MAP {Name} 127.0.0.1", $"--ignore-certificate-errors-spki-list={key}",
            "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream", $"--use-file-for-fake-video-capture={label.Video}");
        var page = phone.Page;
        List<string> faults = [];
        page.PageError += (_, fault) => faults.Add(fault);

        var program = await Serve(file);
        await SignIn(page);
        await page.GotoAsync(Home + "round/away?Minutes=60");
        await Ready(page);
        Assert.True(await page.EvaluateAsync<bool>("isSecureContext && location.protocol === 'https:' && location.hostname === 'cupboard.test'"));
        await Assertions.Expect(page.Locator("#kept")).ToContainTextAsync("opens without signal");
        await Installable(page);

        // An answer gets lost: the server has the entry, the browser does not know it and sends it again.
        await using (await LostAnswer.To(page, "*/round/entries"))
        {
            await page.Locator("#gross").FillAsync("300");
            await page.Locator("#well").ClickAsync();
            await Assertions.Expect(page.Locator("#signal")).ToContainTextAsync("No signal");
            await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("1 not yet sent.");
            Assert.Equal(1, await Weighings()); // the server has it
        }

        await page.Locator("#send").ClickAsync();
        await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("Everything is sent.");

        await program.DisposeAsync();
        await page.ReloadAsync();
        await Ready(page);
        await Assertions.Expect(page.Locator("#signal")).ToContainTextAsync("No signal");

        // The camera sees a label; the page itself reads it, no server being there.
        await page.Locator("#scan").ClickAsync();
        await Assertions.Expect(page.Locator("#code")).ToHaveTextAsync(label.Id);
        await Assertions.Expect(page.Locator("#scan-note")).ToHaveTextAsync($"{label.Id} was found.");
        await Assertions.Expect(page.Locator("#camera")).ToBeHiddenAsync();
        await page.Locator("#photo").SetInputFilesAsync(new FilePayload { Name = "jar.jpg", MimeType = "image/jpeg", Buffer = await page.ScreenshotAsync(new() { Type = ScreenshotType.Jpeg }) });
        await page.GetByLabel("rust", new() { Exact = true }).CheckAsync();
        await page.Locator("#gross").FillAsync("310.5");
        await page.Locator("#gross").PressAsync("Enter");
        await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("2 not yet sent."); // the words and the picture
        await Pictures.Look(page, "phone-away-tls-unsent");
        await Measures.NoSidewaysScroll(page);

        await using var again = await Serve(file);
        await using (await LostAnswer.To(page, "*/round/photo*"))
        {
            await page.Locator("#send").ClickAsync();
            await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("1 not yet sent.");
        }

        await page.Locator("#send").ClickAsync();
        await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("Everything is sent.");

        var history = (await BuiltProgram.Run("history", "--data", Data, "--json")).Out;
        Assert.Equal(2, await Weighings());
        Assert.Equal(2, history.Split("package-looked/1").Length - 1);
        Assert.Equal(1, history.Split("photo-kept/1").Length - 1);
        Assert.Single(Directory.GetFiles(Path.Combine(Data, "photos")));
        Assert.Contains("310.5 g", history, StringComparison.Ordinal);
        Assert.Empty(faults);
    }

    /// <summary>A certificate that a person waved through is enough for pages and not for keeping one: the round still works, and says so.</summary>
    [Fact]
    public async Task Where_the_certificate_is_not_trusted_the_round_works_and_says_that_it_is_not_kept()
    {
        var (file, _) = Certificate();
        await Cellar();
        await using var phone = await Phone.Open(folder, $"--host-resolver-rules=MAP {Name} 127.0.0.1");
        var page = phone.Page;
        List<string> faults = [];
        page.PageError += (_, fault) => faults.Add(fault);
        await using var program = await Serve(file);
        await SignIn(page);
        await page.GotoAsync(Home + "round/away?Minutes=60");
        await Ready(page);
        await Assertions.Expect(page.Locator("#kept")).ToContainTextAsync("does not trust the certificate");
        await page.Locator("#gross").FillAsync("300");
        await page.RunAndWaitForResponseAsync(() => page.Locator("#well").ClickAsync(), answer => answer.Url.EndsWith("/round/entries", StringComparison.Ordinal));
        await Assertions.Expect(page.Locator("#unsent")).ToHaveTextAsync("Everything is sent.");
        Assert.Empty(faults);
    }

    /// <summary>As the browser itself judges it, not as we read its rules.</summary>
    private static async Task Installable(IPage page)
    {
        var tools = await page.Context.NewCDPSessionAsync(page);
        var manifest = (await tools.SendAsync("Page.getAppManifest"))!.Value;
        Assert.Empty(manifest.GetProperty("errors").EnumerateArray());
        var words = JsonDocument.Parse(manifest.GetProperty("data").GetString()!).RootElement;
        Assert.Equal(("/round/away", "standalone"), (words.GetProperty("start_url").GetString(), words.GetProperty("display").GetString()));
        var amiss = (await tools.SendAsync("Page.getInstallabilityErrors"))!.Value.GetProperty("installabilityErrors").EnumerateArray().Select(error => error.GetProperty("errorId").GetString());
        Assert.Empty(amiss);
    }

    private async Task<int> Weighings() => (await BuiltProgram.Run("history", "--data", Data, "--json")).Out.Split("weighed: ").Length - 1;

    private static Task Ready(IPage page) => page.Locator("#away[data-ready=yes]").WaitForAsync();

    private async Task SignIn(IPage page)
    {
        await page.GotoAsync(Home + "round");
        await page.GetByLabel("What this device is called").FillAsync("phone");
        await page.GetByLabel("Password").FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Round", Exact = true })).ToBeVisibleAsync();
    }

    private Task<BuiltProgram> Serve(string certificate) =>
        BuiltProgram.ServeAt(Data, $"https://127.0.0.1:{port}", "--public-url", $"https://{Name}:{port}", "--certificate", certificate);

    private async Task Cellar()
    {
        foreach (var blend in new[] { "Evening ribbon", "Plain burley", "Long Acre Coins" })
        {
            var added = await BuiltProgram.Run("add", "--data", Data, "--blend", blend, "--container", "jar-237", "--net", "50g", "--sealed", "2023", "--place", "closet");
            Assert.True(added.ExitCode == 0, added.Error);
        }

        using var store = AccessStore.Open(Data, TimeProvider.System);
        store.SetPassword(Password);
    }

    /// <summary>The printed label of the last package, as a camera that sees nothing else.</summary>
    private async Task<(string Id, string Video)> Label()
    {
        var id = JsonDocument.Parse((await BuiltProgram.Run("show", "--data", Data, "--json")).Out).RootElement.GetProperty("packages").EnumerateArray().Last().GetProperty("id").GetString()!;
        var (pdf, video) = (Path.Combine(folder, "label.pdf"), Path.Combine(folder, "label.mjpeg"));
        var printed = await BuiltProgram.Run("print", "labels", id, "--parts", "body", "--data", Data, "--out", pdf);
        Assert.True(printed.ExitCode == 0, printed.Error);
        using var sheet = SKBitmap.Decode(await RoundVisitTests.Drawn(pdf));
        using var seen = new SKBitmap(640, 480);
        using (var canvas = new SKCanvas(seen))
        {
            canvas.Clear(new SKColor(150, 140, 130));
            canvas.RotateDegrees(-4, 320, 240);
            canvas.DrawBitmap(sheet, new SKRect(50, 115, 570, 425), new SKRect(60, 60, 580, 370), new SKSamplingOptions(SKFilterMode.Linear), null);
        }

        using var frame = seen.Encode(SKEncodedImageFormat.Jpeg, 85);
        Assert.Equal([id], ScannedCode.On(frame.ToArray())); // the server's own reader can read it
        await File.WriteAllBytesAsync(video, frame.ToArray(), TestContext.Current.CancellationToken);
        return (id, video);
    }

    /// <summary>A certificate that nobody signed, and the digest of its key by which a browser can be told to trust it.</summary>
    private (string File, string Key) Certificate()
    {
        using var pair = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=" + Name, pair, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName(Name);
        request.CertificateExtensions.Add(names.Build());
        using var certificate = request.CreateSelfSigned(new(2020, 1, 1, 0, 0, 0, TimeSpan.Zero), new(2120, 1, 1, 0, 0, 0, TimeSpan.Zero));
        var file = Path.Combine(folder, "cellar.pem");
        File.WriteAllText(file, certificate.ExportCertificatePem() + "\n" + pair.ExportPkcs8PrivateKeyPem());
        return (file, Convert.ToBase64String(SHA256.HashData(certificate.PublicKey.ExportSubjectPublicKeyInfo())));
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
