using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Undercroft.Browser.Tests;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Bench;

/// <summary>How fast every page is in a large cellar, against a bare page of the same server in the same run: <c>-- pages</c> prints the section of <c>docs/performance.md</c>, <c>-- pages FILE</c> puts it there.</summary>
internal static partial class PageSpeed
{
    private const string From = "<!-- pages: from here -->";
    private const string To = "<!-- pages: to here -->";
    private const int Times = 40;

    internal static async Task<int> Run(string[] args)
    {
        var root = Directory.CreateTempSubdirectory("undercroft-bench-").FullName;
        try
        {
            var section = await Section(root);
            Console.WriteLine(section);
            if (args is [var file])
                LedgerSpeed.Put(file, section, From, To);
            return 0;
        }
        finally
        {
            Directory.Delete(root, recursive: true);
        }
    }

    private static async Task<string> Section(string root)
    {
        var folder = (await PageHouse.Made(root, [.. ContainerKinds.All.Select(kind => kind.Code)])).Path;
        var text = new StringBuilder();
        Add($"Measured on {TimeProvider.System.GetUtcNow():d MMMM yyyy}, {Environment.ProcessorCount} processors, .NET {Environment.Version}; load of the machine as it began: {File.ReadAllText("/proc/loadavg").Split(' ')[0]}.");
        text.AppendLine().AppendLine("| page | first after a write, ms | median, ms | 95 %, ms | median as a ratio to the bare page | CPU of the server, ms | first load, kB |");
        text.AppendLine("|---|---|---|---|---|---|---|");
        using var bare = await Bare();
        var plain = await Asked(bare.Client, "", Process.GetCurrentProcess());
        Add($"| *bare page* | | {plain.Median:0.00} | {plain.P95:0.00} | 1 | | {plain.Bytes / 1000.0:0.0} |");

        using var server = Process.Start(new ProcessStartInfo(ProgramRun.Program, ["serve", "--data", folder, "--urls", "http://127.0.0.1:0", "--today", PageHouse.Today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)]) { RedirectStandardError = true })!;
        try
        {
            using var client = new HttpClient { BaseAddress = await Address(server), Timeout = TimeSpan.FromMinutes(5) };
            var assets = (await client.GetByteArrayAsync("assets/page.css")).Length + (await client.GetByteArrayAsync("assets/arch.svg")).Length;
            using var shown = JsonDocument.Parse(await client.GetStringAsync("api/packages"));
            var gone = shown.RootElement.GetProperty("packages")[5].GetProperty("id").GetString()!; // any other: it is here
            var note = JsonSerializer.Serialize(new { id = gone, text = "one more" });
            var begun = await Ready(client, "", server);
            foreach (var path in EveryPage.In(shown.RootElement, gone))
            {
                await Ready(client, path, server); // compiled, and whatever a first visit loads or works out
                using (var written = await client.PostAsync("api/notes", new StringContent(note, Encoding.UTF8, "application/json")))
                    written.EnsureSuccessStatusCode();
                var first = await Ready(client, path, server);
                var found = await Asked(client, path, server);
                Add($"| `/{path}` | {first.Took:0} | {found.Median:0.0} | {found.P95:0.0} | {found.Median / plain.Median:0} | {found.Cpu:0.0} | {(found.Bytes + assets) / 1000.0:0} |");
            }

            Add($"");
            Add($"The due list of a server that had just begun stood there after {begun.Took / 1000:0.0} s and {begun.Cpu / 1000:0.0} s of CPU; until then the page told how far it was.");
        }
        finally
        {
            server.Kill();
            await server.WaitForExitAsync();
        }

        return text.ToString();

        void Add(FormattableString line)
        {
            var said = line.ToString(CultureInfo.InvariantCulture);
            Console.WriteLine(said);
            text.AppendLine(said);
        }
    }

    private static async Task<(double Median, double P95, double Cpu, int Bytes)> Asked(HttpClient client, string path, Process server)
    {
        var (took, bytes) = (new double[Times], 0);
        for (var i = 0; i < 5; i++)
            await Again(client, path);
        server.Refresh();
        var before = server.TotalProcessorTime;
        for (var i = 0; i < Times; i++)
        {
            var watch = Stopwatch.StartNew();
            bytes = await Again(client, path);
            took[i] = watch.Elapsed.TotalMilliseconds;
        }

        server.Refresh();
        var cpu = (server.TotalProcessorTime - before).TotalMilliseconds / Times;
        Array.Sort(took);
        return (took[Times / 2], took[Times * 95 / 100], cpu, bytes);
    }

    /// <summary>Asks until the page shows what came of its work and no longer how far it is: how long that took and what the server spent, in milliseconds.</summary>
    private static async Task<(double Took, double Cpu)> Ready(HttpClient client, string path, Process server)
    {
        server.Refresh();
        var (before, watch) = (server.TotalProcessorTime, Stopwatch.StartNew());
        while (true)
        {
            using var answer = await client.GetAsync(path);
            await answer.Content.ReadAsByteArrayAsync();
            if (!answer.Headers.Contains("Refresh"))
                break;
            await Task.Delay(20);
        }

        var took = watch.Elapsed.TotalMilliseconds;
        server.Refresh();
        return (took, (server.TotalProcessorTime - before).TotalMilliseconds);
    }

    private static async Task<int> Again(HttpClient client, string path)
    {
        using var answer = await client.GetAsync(path);
        return (int)answer.StatusCode is 200 or 404 or 422
            ? (await answer.Content.ReadAsByteArrayAsync()).Length
            : throw new InvalidOperationException($"/{path}: {answer.StatusCode}");
    }

    private static async Task<Uri> Address(Process server)
    {
        while (await server.StandardError.ReadLineAsync() is { } line)
        {
            if (OpenAt().Match(line) is { Success: true } found)
                return new(found.Groups["address"].Value);
        }

        throw new InvalidOperationException("The server ended before it listened.");
    }

    /// <summary>The same server with nothing behind it: 10 kB of constant text.</summary>
    private static async Task<BareServer> Bare()
    {
        var builder = WebApplication.CreateEmptyBuilder(new());
        builder.WebHost.UseKestrelCore().UseUrls("http://127.0.0.1:0");
        builder.Services.AddRoutingCore();
        var app = builder.Build();
        var page = $"<!doctype html><title>bare</title><p>{new string('x', 10_000)}</p>";
        app.MapGet("/", () => Results.Text(page, "text/html"));
        await app.StartAsync();
        return new(app, new() { BaseAddress = new(app.Urls.First()) });
    }

    private sealed record BareServer(WebApplication App, HttpClient Client) : IDisposable
    {
        public void Dispose()
        {
            Client.Dispose();
            App.StopAsync().GetAwaiter().GetResult();
        }
    }

    [GeneratedRegex(@"open at (?<address>https?://\S+)")]
    private static partial Regex OpenAt();
}
