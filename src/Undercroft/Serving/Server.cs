using System.Net;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http.Features;
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
    /// <param name="bindings">Loopback only.</param>
    /// <param name="features">What the pages need: the cellar, the clock.</param>
    public static WebApplication Build(string dataFolder, IReadOnlyList<Binding> bindings, Action<IServiceCollection> features)
    {
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
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = RequestGate.FormBytes;
            kestrel.Limits.MaxRequestHeadersTotalSize = 16 * 1024;
            kestrel.Limits.MaxConcurrentConnections = 100;
            foreach (var binding in bindings)
                Listen(kestrel, binding);
        });
        features(builder.Services);
        AddForms(builder.Services, dataFolder, bindings);
        builder.Services.AddRoutingCore();
        builder.Services.AddRazorComponents(options => options.DetailedErrors = false);

        var app = builder.Build();
        var log = app.Services.GetRequiredService<ILoggerFactory>().CreateLogger("Undercroft.Serving");
        app.Use(next => context => SecurityHeaders.Add(context, next));
        app.Use(next => context => Failures.Catch(context, next, log));
        UploadPath[] uploads = [.. app.Services.GetServices<UploadPath>()];
        app.Use(next => context => RequestGate.Pass(context, next, uploads));
        app.UseRouting();
        app.UseAntiforgery();
        app.MapGet("/health", () => TypedResults.Text("ready"));
        app.MapMethods("/assets/{name}", ["GET", "HEAD"], (HttpContext context, string name) => Assets.Send(context, name));
        foreach (var endpoint in app.Services.GetServices<Shell.Web.Endpoint>())
            app.MapMethods(endpoint.Path, [endpoint.Method], endpoint.Handler).WithMetadata(endpoint.Needs).WithSummary(endpoint.Summary);
        app.MapRazorComponents<App>();
        return app;
    }

    /// <summary>The addresses that the started host listens on, with the ports that were found.</summary>
    public static IReadOnlyList<string> AddressesOf(WebApplication app)
    {
        ArgumentNullException.ThrowIfNull(app);
        return [.. app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses];
    }

    private static void Listen(Microsoft.AspNetCore.Server.Kestrel.Core.KestrelServerOptions kestrel, Binding binding)
    {
        if (binding.Address is { } address)
            kestrel.Listen(address, binding.Port);
        else if (binding.Port == 0)
            kestrel.Listen(IPAddress.Loopback, 0);
        else
            kestrel.ListenLocalhost(binding.Port);
    }

    private static void MakePrivate(string folder)
    {
        if (OperatingSystem.IsWindows())
            Directory.CreateDirectory(folder);
        else if (!Directory.Exists(folder))
            Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }

    private static void AddForms(IServiceCollection services, string dataFolder, IReadOnlyList<Binding> bindings)
    {
        var keys = Path.Combine(dataFolder, "keys");
        MakePrivate(dataFolder);
        MakePrivate(keys);
        services.AddDataProtection().SetApplicationName("undercroft").PersistKeysToFileSystem(new DirectoryInfo(keys));
        services.AddAntiforgery(options =>
        {
            // Cookies know no ports: two cellars open side by side must not overwrite each other's.
            options.Cookie.Name = $"undercroft-form-{bindings[0].Port}";
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
