using Undercroft.Access;
using Undercroft.Shell.Web;

namespace Undercroft.Serving;

/// <summary>Finds out who is here, and turns away whoever may not be.</summary>
/// <remarks>
/// A browser carries a cookie with a random secret whose digest stands in <c>access.sqlite</c>: showing a device out holds at once. A program carries a token
/// with what it may do; pages are not for programs. On this machine alone nobody signs in.
/// </remarks>
internal static class Entrance
{
    private const Scope Everything = Scope.Read | Scope.Measure | Scope.Write | Scope.Calendar;

    internal static async Task Pass(HttpContext context, RequestDelegate next, Doors doors, AccessStore store)
    {
        var visit = context.RequestServices.GetRequiredService<Visit>();
        visit.Guarded = doors.Guarded;
        var manners = context.RequestServices.GetRequiredService<Manners>().Of(context.Request);
        visit.Imperial = manners.Imperial;
        var needs = context.GetEndpoint()?.Metadata.GetMetadata<Needs>()?.Scope;
        if (Carried(context.Request, needs) is { } carried)
        {
            if (store.TokenOf(carried) is not { } token)
            {
                // An address of its own that holds no more is no address: a calendar program then leaves it alone, which it would not do if it were asked to sign in.
                if (needs == Scope.Calendar && context.Request.Query.ContainsKey("token"))
                {
                    await RequestGate.Turn(context, StatusCodes.Status404NotFound, "There is no calendar at this address: it was revoked or never made.");
                    return;
                }

                await RequestGate.Turn(context, StatusCodes.Status401Unauthorized, "The token does not hold: it was revoked or never made.");
                return;
            }

            (visit.Name, visit.May) = (token.Name, token.May);
            if (needs is null)
            {
                await RequestGate.Turn(context, StatusCodes.Status403Forbidden, "Pages are for people; a token opens the addresses under /api.");
                return;
            }
        }
        else if (!doors.Guarded)
        {
            (visit.Name, visit.May) = (manners.Name, Everything);
        }
        else if (await BrowserCookie.SecretOf(context) is { } secret && store.DeviceOf(secret) is { } device)
        {
            (visit.Name, visit.May, visit.Device) = (device.Name, Everything, device.Id);
        }
        else if (!IsOpenToAll(context))
        {
            await Refuse(context, needs);
            return;
        }

        if (needs is { } wanted && !Allows(visit.May, wanted))
        {
            await RequestGate.Turn(context, StatusCodes.Status403Forbidden, "This token is not good for that. Make one with the scope it needs.");
            return;
        }

        await next(context);
    }

    private static bool Allows(Scope may, Scope wanted) =>
        may.HasFlag(wanted) || (wanted == Scope.Measure && may.HasFlag(Scope.Write)) || (wanted == Scope.Calendar && may.HasFlag(Scope.Read));

    /// <summary>The token that a program carries: in a header; for the calendar, whose programs cannot send one, in the address.</summary>
    private static string? Carried(HttpRequest request, Scope? needs)
    {
        const string Scheme = "Bearer ";
        var header = request.Headers.Authorization.ToString();
        if (header.StartsWith(Scheme, StringComparison.OrdinalIgnoreCase))
            return header[Scheme.Length..].Trim();
        return needs == Scope.Calendar && request.Query["token"].ToString() is { Length: > 0 } inAddress ? inAddress : null;
    }

    private static bool IsOpenToAll(HttpContext context) => context.GetEndpoint()?.Metadata.GetMetadata<OpenToAll>() is not null;

    private static Task Refuse(HttpContext context, Scope? needs)
    {
        if (needs is not null || context.Request.Path.StartsWithSegments("/api") || RequestGate.IsWrite(context.Request.Method))
        {
            return RequestGate.Turn(context, StatusCodes.Status401Unauthorized,
                needs is null ? "You are signed out, so nothing was done. Sign in at /sign-in, go back and try again." : "Sign-in is needed: send Authorization: Bearer with a token from the page /access.");
        }

        var wanted = context.Request.Path + context.Request.QueryString;
        context.Response.Redirect(wanted == "/" ? "/sign-in" : "/sign-in?To=" + Uri.EscapeDataString(wanted));
        return Task.CompletedTask;
    }
}
