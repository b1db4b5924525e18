using Undercroft.Shell.Web;

namespace Undercroft.Keeping.Photos;

/// <summary>Kept pictures for a browser.</summary>
internal static class PhotoFiles
{
    /// <summary>Largest picture that is taken in, in bytes.</summary>
    internal const long MostBytes = 25 * 1024 * 1024;

    /// <summary>Sends one.</summary>
    internal static Shell.Web.Endpoint Address { get; } = new("GET", "/photos/{sha256}.jpg", Scope.Read, "A kept picture.", (Func<HttpContext, string, PhotoKeeping, Task>)(async (context, sha256, keeping) =>
    {
        if (keeping.Bytes(sha256) is not { } bytes)
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            context.Response.ContentType = "text/plain; charset=utf-8";
            await context.Response.WriteAsync("There is no such picture.", context.RequestAborted);
            return;
        }

        context.Response.ContentType = "image/jpeg";
        context.Response.ContentLength = bytes.Length;
        await context.Response.Body.WriteAsync(bytes, context.RequestAborted);
    }));
}
