using Microsoft.AspNetCore.Http.Features;
using Undercroft.Shell.Web;

namespace Undercroft.Serving;

/// <summary>What a request must satisfy before any page sees it.</summary>
/// <remarks>
/// A program that listens on loopback is still reachable by any site open in the same browser. Three things close that door:
/// the name asked for must be this machine's own (a foreign name that resolves here is turned away), a write must come from a page of this very
/// address, and every form carries a token.
/// </remarks>
internal static class RequestGate
{
    /// <summary>Largest form, in bytes.</summary>
    internal const long FormBytes = 64 * 1024;

    /// <summary>Largest uploaded sheet with its form, in bytes.</summary>
    internal const long UploadBytes = 10 * 1024 * 1024;

    internal const string TooLarge = "What was sent is larger than this address takes, so nothing was done. A form may have 64 kB, a sheet 10 MB.";

    internal static async Task Pass(HttpContext context, RequestDelegate next, IReadOnlyList<UploadPath> uploads)
    {
        var request = context.Request;
        if (!IsOwnHost(request.Host, context.Connection.LocalPort))
        {
            await Turn(context, StatusCodes.Status421MisdirectedRequest, "This page answers only under the address it was started with, on this machine.");
            return;
        }

        if (IsWrite(request.Method) && !IsSameOrigin(request))
        {
            await Turn(context, StatusCodes.Status403Forbidden, "This change was asked for by another site, so nothing was done. Open the page itself and try again there.");
            return;
        }

        var most = uploads.FirstOrDefault(upload => request.Path.StartsWithSegments(upload.Path))?.MostBytes ?? FormBytes;
        var limit = context.Features.Get<IHttpMaxRequestBodySizeFeature>();
        if (request.ContentLength > most)
        {
            // The rest is read and dropped for a few seconds, so that a browser sees this sentence and no broken connection.
            if (limit is { IsReadOnly: false })
                limit.MaxRequestBodySize = null;
            await Turn(context, StatusCodes.Status413PayloadTooLarge, TooLarge);
            return;
        }

        // What does not announce its length is cut off at the same size while it is read.
        if (limit is { IsReadOnly: false })
            limit.MaxRequestBodySize = most;
        await next(context);
    }

    /// <summary>True for the loopback names with the port that the connection came in on.</summary>
    internal static bool IsOwnHost(HostString host, int localPort) =>
        host.HasValue
        && (host.Port ?? 80) == localPort
        && Binding.LoopbackNames.Contains(host.Host, StringComparer.OrdinalIgnoreCase);

    internal static bool IsWrite(string method) =>
        !(HttpMethods.IsGet(method) || HttpMethods.IsHead(method) || HttpMethods.IsOptions(method) || HttpMethods.IsTrace(method));

    /// <summary>
    /// True where the browser says that the request comes from this very origin. A client that says nothing is no browser of the last years; it still
    /// needs the token of the form.
    /// </summary>
    internal static bool IsSameOrigin(HttpRequest request)
    {
        var site = request.Headers["Sec-Fetch-Site"];
        if (site.Count > 0 && site != "same-origin")
            return false;

        var origin = request.Headers.Origin;
        return origin.Count == 0 || string.Equals(origin, $"{request.Scheme}://{request.Host.Value}", StringComparison.OrdinalIgnoreCase);
    }

    internal static Task Turn(HttpContext context, int status, string sentence)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(sentence, context.RequestAborted);
    }
}
