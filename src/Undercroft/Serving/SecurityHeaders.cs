
namespace Undercroft.Serving;

/// <summary>What every answer tells the browser: nothing foreign is loaded or asked, nothing inline runs, nothing is framed; nothing is remembered where people sign in.</summary>
internal static class SecurityHeaders
{
    internal const string ContentPolicy =
        "default-src 'none'; script-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; style-src 'self'; img-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'; object-src 'none'";

    /// <summary>"no-store" makes some browsers forget a half-filled form as soon as its page is left; on this machine alone, where nobody signs in, a page is only asked for anew.</summary>
    private static string NotKept(bool guarded) => guarded ? "no-store" : "private, no-cache";

    internal static Task Add(HttpContext context, RequestDelegate next, bool guarded)
    {
        context.Response.OnStarting(() =>
        {
            var headers = context.Response.Headers;
            if (context.Request.IsHttps)
                headers.StrictTransportSecurity = "max-age=31536000";
            headers.ContentSecurityPolicy = ContentPolicy;
            headers.XContentTypeOptions = "nosniff";
            headers.XFrameOptions = "DENY";
            // "no-referrer" would make browsers send "Origin: null" with forms, and the check on writes would refuse them.
            headers["Referrer-Policy"] = "same-origin";
            headers["Cross-Origin-Opener-Policy"] = "same-origin";
            headers["Cross-Origin-Resource-Policy"] = "same-origin";
            headers["Permissions-Policy"] = "camera=(self), geolocation=(), microphone=()";
            headers.Remove("blazor-enhanced-nav");
            if (headers.CacheControl != Assets.CacheForYears)
                headers.CacheControl = NotKept(guarded);
            return Task.CompletedTask;
        });
        return next(context);
    }
}
