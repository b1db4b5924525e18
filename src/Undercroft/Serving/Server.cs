using System.Net;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Undercroft.Access;
using Undercroft.Api;
using Undercroft.Shell.Web;

namespace Undercroft.Serving;

/// <summary>Builds the web page's host. Only <c>serve</c> touches it: other commands start without it.</summary>
/// <remarks>
/// Nothing outside the data folder is read: no settings file, no environment variable, no home directory. Hence the empty builder.
/// </remarks>
public static class Server
{
    /// <summary>The host, not yet started.</summary>
    /// <param name="dataFolder">Made where it is missing, for its owner alone; the keys of forms are kept in its folder <c>keys</c>.</param>
    /// <param name="doors">Where to listen, and who stands before it.</param>
    /// <param name="features">What the pages need: the cellar, the clock.</param>
    public static WebApplication Build(string dataFolder, Doors doors, Action<IServiceCollection> features)
    {
        ArgumentNullException.ThrowIfNull(doors);
        var builder = WebApplication.CreateEmptyBuilder(new()
        {
            ApplicationName = "undercroft",
            ContentRootPath = AppContext.BaseDirectory,
            EnvironmentName = "Production",
        });
        builder.Logging.AddSimpleConsole(options => options.SingleLine = false)
            .AddFilter("Microsoft", LogLevel.Critical)
            .SetMinimumLevel(LogLevel.Warning);
        builder.Services.Configure<Microsoft.Extensions.Logging.Console.ConsoleLoggerOptions>(options => options.LogToStandardErrorThreshold = LogLevel.Trace);
        if (doors.Certificate is not null)
            builder.WebHost.UseKestrelHttpsConfiguration();
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = RequestGate.FormBytes;
            kestrel.Limits.MaxRequestHeadersTotalSize = 16 * 1024;
            kestrel.Limits.MaxConcurrentConnections = 100;
            foreach (var binding in doors.Bindings)
                Listen(kestrel, binding, doors.Certificate);
        });
        features(builder.Services);
        AddForms(builder.Services, dataFolder, doors);
        builder.Services.AddScoped<Visit>();
        builder.Services.AddSingleton(new Manners(doors.Bindings[0].Port));
        BrowserCookie.Add(builder.Services, doors.Bindings[0].Port, doors.Encrypted);
        SignInLimit.Add(builder.Services);
        ApiAddresses.Add(builder.Services);
        builder.Services.AddRoutingCore();
        builder.Services.AddRazorComponents(options => options.DetailedErrors = false);

        var app = builder.Build();
        var log = app.Services.GetRequiredService<ILoggerFactory>().CreateLogger("Undercroft.Serving");
        UploadPath[] uploads = [.. app.Services.GetServices<UploadPath>()];
        var gate = new RequestGate(doors, uploads);
        var store = app.Services.GetRequiredService<AccessStore>();
        if (doors.Proxies.Count > 0)
            app.UseForwardedHeaders(Forwarded(doors));
        app.Use(next => context => SecurityHeaders.Add(context, next, doors.Guarded));
        app.Use(next => context => Failures.Catch(context, next, log));
        app.Use(next => context => gate.Pass(context, next));
        app.UseRouting();
        app.UseRateLimiter();
        app.Use(next => context => Entrance.Pass(context, next, doors, store));
        app.UseAntiforgery();
        app.MapGet("/health", () => TypedResults.Text("ready")).WithMetadata(new OpenToAll());
        // From the root: what a service worker may keep, and what an installed page may show, is told by where it comes from.
        foreach (var name in (string[])["sw.js", "manifest.webmanifest"])
            app.MapMethods("/" + name, ["GET", "HEAD"], context => Assets.Send(context, name)).WithMetadata(new OpenToAll());
        app.MapMethods("/assets/{**name}", ["GET", "HEAD"], (HttpContext context, string name) => Assets.Send(context, name)).WithMetadata(new OpenToAll());
        foreach (var endpoint in app.Services.GetServices<Shell.Web.Endpoint>())
            app.MapMethods(endpoint.Path, [endpoint.Method], endpoint.Handler).WithMetadata(new Needs(endpoint.Needs)).WithSummary(endpoint.Summary).DisableAntiforgery();
        ApiAddresses.Map(app, app.Services.GetRequiredService<TimeProvider>());
        app.MapRazorComponents<App>();
        return app;
    }

    /// <summary>The addresses that the started host listens on, with the ports that were found.</summary>
    public static IReadOnlyList<string> AddressesOf(WebApplication app)
    {
        ArgumentNullException.ThrowIfNull(app);
        return [.. app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses];
    }

    /// <summary>Forwarded headers, from the configured proxies alone, and one step back.</summary>
    private static ForwardedHeadersOptions Forwarded(Doors doors)
    {
        var options = new ForwardedHeadersOptions { ForwardedHeaders = ForwardedHeaders.All & ~ForwardedHeaders.XForwardedPrefix };
        options.KnownIPNetworks.Clear();
        options.KnownProxies.Clear();
        foreach (var proxy in doors.Proxies)
            options.KnownProxies.Add(proxy);
        return options;
    }

    private static void Listen(KestrelServerOptions kestrel, Binding binding, X509Certificate2? certificate)
    {
        void Secured(ListenOptions listening)
        {
            if (binding.Encrypted)
                listening.UseHttps(certificate!);
        }

        if (binding.Address is { } address)
            kestrel.Listen(address, binding.Port, Secured);
        else if (binding.Port == 0)
            kestrel.Listen(IPAddress.Loopback, 0, Secured);
        else
            kestrel.ListenLocalhost(binding.Port, Secured);
    }

    private static void MakePrivate(string folder)
    {
        if (OperatingSystem.IsWindows())
            Directory.CreateDirectory(folder);
        else if (!Directory.Exists(folder))
            Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }

    private static void AddForms(IServiceCollection services, string dataFolder, Doors doors)
    {
        var keys = Path.Combine(dataFolder, "keys");
        MakePrivate(dataFolder);
        MakePrivate(keys);
        services.AddDataProtection().SetApplicationName("undercroft").PersistKeysToFileSystem(new DirectoryInfo(keys));
        services.AddAntiforgery(options =>
        {
            // Cookies know no ports: two cellars open side by side must not overwrite each other's.
            options.Cookie.Name = FormattableString.Invariant($"{(doors.Encrypted ? "__Host-" : "")}undercroft-form-{doors.Bindings[0].Port}");
            options.Cookie.Path = "/";
            options.Cookie.SecurePolicy = doors.Encrypted ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
            options.Cookie.SameSite = SameSiteMode.Strict;
            options.Cookie.HttpOnly = true;
        });
        services.AddOptions<FormOptions>().Configure<IEnumerable<UploadPath>>((options, uploads) =>
        {
            var most = uploads.Select(upload => upload.MostBytes).Append(RequestGate.FormBytes).Max();
            options.ValueCountLimit = 4096; // a whole cellar may be ticked at once
            options.ValueLengthLimit = 16 * 1024;
            options.MultipartBodyLengthLimit = most;
            // As large as any upload: nothing is spooled to a folder for temporary files.
            options.MemoryBufferThreshold = (int)most;
        });
    }
}
