
namespace Undercroft.Serving;

/// <summary>What every answer tells the browser: nothing foreign is loaded or asked, nothing inline runs, nothing is framed or remembered.</summary>
internal static class SecurityHeaders
{
    internal const string ContentPolicy =
        "default-src 'none'; script-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; style-src 'self'; img-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'; object-src 'none'";

    internal static Task Add(HttpContext context, RequestDelegate next)
    {
        context.Response.OnStarting(static state =>
        {
            var context = (HttpContext)state;
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
                headers.CacheControl = "no-store";
            return Task.CompletedTask;
        }, context);
        return next(context);
    }
}
