using System.Net;
using Microsoft.AspNetCore.Http.Features;
using Undercroft.Shell.Web;

namespace Undercroft.Serving;

/// <summary>What a request must satisfy before any page sees it.</summary>
/// <remarks>
/// A program that listens on loopback is still reachable by any site open in the same browser. Three things close that door:
/// the name asked for must be the server's own (a foreign name that resolves here is turned away), a write must come from a page of this very
/// address, and every form carries a token.
/// </remarks>
internal sealed class RequestGate(Doors doors, IReadOnlyList<UploadPath> uploads)
{
    /// <summary>Largest form, in bytes.</summary>
    internal const long FormBytes = 64 * 1024;

    /// <summary>Largest uploaded sheet with its form, in bytes.</summary>
    internal const long UploadBytes = 10 * 1024 * 1024;

    internal const string TooLarge = "What was sent is larger than this address takes, so nothing was done. A form may have 64 kB, a sheet 10 MB.";

    internal async Task Pass(HttpContext context, RequestDelegate next)
    {
        var request = context.Request;
        if (!IsOwnHost(context))
        {
            await Turn(context, StatusCodes.Status421MisdirectedRequest, "This page answers only under the address it was started with.");
            return;
        }

        if (doors.Encrypted && !request.IsHttps && request.Path != "/health")
        {
            await Turn(context, StatusCodes.Status421MisdirectedRequest,
                "This server is asked through https alone. If a proxy stands before it, name the proxy with --proxy and have it send X-Forwarded-Proto and X-Forwarded-For.");
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

    internal static bool IsWrite(string method) =>
        !(HttpMethods.IsGet(method) || HttpMethods.IsHead(method) || HttpMethods.IsOptions(method) || HttpMethods.IsTrace(method));

    /// <summary>A sentence for a browser; a problem in the form of RFC 9457 for a program.</summary>
    internal static Task Turn(HttpContext context, int status, string sentence)
    {
        if (context.Request.Path.StartsWithSegments("/api"))
            return Problem.Write(context, status, sentence);
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(sentence, context.RequestAborted);
    }

    /// <summary>
    /// True for a public name that was configured; for the loopback names with the port that the connection came in on, asked from this machine; and for the very
    /// address that the connection came in on. A site elsewhere can make its own name point here, but not its pages bear our address.
    /// </summary>
    private bool IsOwnHost(HttpContext context)
    {
        var (host, connection) = (context.Request.Host, context.Connection);
        if (!host.HasValue)
            return false;
        if (doors.PublicUrls.Any(url => IsHostOf(url, host)))
            return true;
        if ((host.Port ?? (context.Request.IsHttps ? 443 : 80)) != connection.LocalPort)
            return false;
        var local = connection.LocalIpAddress is { } address ? Plain(address) : IPAddress.None;
        return IPAddress.IsLoopback(local)
            ? Binding.LoopbackNames.Contains(host.Host, StringComparer.OrdinalIgnoreCase)
            : IPAddress.TryParse(host.Host.Trim('[', ']'), out var named) && Plain(named).Equals(local);
    }

    private static bool IsHostOf(Uri url, HostString host) =>
        string.Equals(url.IdnHost, host.Host.Trim('[', ']'), StringComparison.OrdinalIgnoreCase) && (host.Port is { } port ? port == url.Port : url.IsDefaultPort);

    private static IPAddress Plain(IPAddress address) => address.IsIPv4MappedToIPv6 ? address.MapToIPv4() : address;

    /// <summary>
    /// True where the browser says that the request comes from this very origin. A client that says nothing is no browser of the last years; it still
    /// needs the token of the form.
    /// </summary>
    private bool IsSameOrigin(HttpRequest request)
    {
        var site = request.Headers["Sec-Fetch-Site"];
        if (site.Count > 0 && site != "same-origin")
            return false;

        var origin = request.Headers.Origin;
        return origin.Count == 0
            || string.Equals(origin, $"{request.Scheme}://{request.Host.Value}", StringComparison.OrdinalIgnoreCase)
            || doors.PublicUrls.Any(url => IsHostOf(url, request.Host) && string.Equals(origin, url.GetLeftPart(UriPartial.Authority), StringComparison.OrdinalIgnoreCase));
    }
}
