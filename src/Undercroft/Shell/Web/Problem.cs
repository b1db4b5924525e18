using System.Text.Json;

namespace Undercroft.Shell.Web;

/// <summary>What a program is told when something is not done: problem details by RFC 9457.</summary>
internal static class Problem
{
    internal const string ContentType = "application/problem+json";

    internal static Task Write(HttpContext context, int status, string detail)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = ContentType + "; charset=utf-8";
        if (status == StatusCodes.Status401Unauthorized)
            context.Response.Headers.WWWAuthenticate = "Bearer";
        return context.Response.WriteAsync(
            JsonSerializer.Serialize(new { type = "about:blank", title = TitleOf(status), status, detail = detail.Trim() }, JsonText.Settings), context.RequestAborted);
    }

    private static string TitleOf(int status) => status switch
    {
        400 => "Wrongly asked",
        401 => "Not signed in",
        403 => "Not allowed",
        404 => "Nothing here",
        405 => "Not by this method",
        409 => "Stands against it",
        413 => "Too large",
        415 => "Not in this form",
        421 => "Not this server",
        422 => "Refused",
        429 => "Too many attempts",
        500 => "Failed",
        _ => "Not done",
    };
}
