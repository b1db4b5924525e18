using Undercroft.Ledger;

namespace Undercroft.Shell.Web;

/// <summary>Answers an endpoint with a file, or with the sentence of a refusal.</summary>
public static class SentFile
{
    /// <summary>A handler that sends what it is given, to be saved or opened by another program.</summary>
    /// <param name="type">Content type.</param>
    /// <param name="name">Of the file.</param>
    /// <param name="make">Makes it; a refusal becomes a sentence with status 422.</param>
    public static Delegate Of(string type, string name, Func<HttpContext, ValueTask<byte[]>> make) => (Func<HttpContext, Task>)(async context =>
    {
        try
        {
            var content = await make(context);
            context.Response.ContentType = type;
            context.Response.ContentLength = content.Length;
            context.Response.Headers.ContentDisposition = $"attachment; filename=\"{name}\"";
            await context.Response.Body.WriteAsync(content, context.RequestAborted);
        }
        catch (Refusal refusal) when (!context.Response.HasStarted)
        {
            context.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            context.Response.ContentType = "text/plain; charset=utf-8";
            await context.Response.WriteAsync(refusal.Message, context.RequestAborted);
        }
    });
}
