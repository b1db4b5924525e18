using Undercroft.Ledger;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Api;

/// <summary>Opens the addresses of the HTTP API.</summary>
internal static class ApiAddresses
{
    internal static void Add(IServiceCollection services)
    {
        services.AddSingleton(new UploadPath(PostReadings.Path, PostReadings.MostBytes));
        ApiDescription.Add(services);
    }

    internal static void Map(WebApplication app, TimeProvider clock)
    {
        var folder = app.Services.GetRequiredService<DataFolder>();
        foreach (var route in ApiMap.Routes)
        {
            // As a Delegate: a lambda of this form would else pass for one that writes its answer itself.
            app.MapMethods(route.Address, [route.Method], (Delegate)((HttpContext context) => ApiCall.Answer(context, route, folder.Path, clock)))
                .WithMetadata(route, new Needs(route.Needs)).DisableAntiforgery();
        }

        app.MapPost(PostReadings.Path, (HttpContext context, Handed handed, Visit visit) => PostReadings.Answer(context, handed, visit))
            .WithMetadata(new Needs(Scope.Measure)).DisableAntiforgery()
            .WithSummary("Keep readings of a sensor: instants that are there already are not kept twice.")
            .Accepts<SentReadings>("application/json").Produces<KeptReadings>();
        app.MapOpenApi("/api/openapi.json").WithMetadata(new Needs(Scope.None));
        app.MapFallback("/api/{**rest}", (Delegate)(() => ApiCall.Refused(StatusCodes.Status404NotFound, "There is nothing at this address. What there is stands in /api/openapi.json.")))
            .WithMetadata(new Needs(Scope.None)).ExcludeFromDescription();
    }
}
