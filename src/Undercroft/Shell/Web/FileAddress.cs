namespace Undercroft.Shell.Web;

/// <summary>An address of the page that answers with a file, or takes something in, instead of showing a page. The rooms of the program each bring their own.</summary>
/// <param name="Method">GET or POST.</param>
/// <param name="Path">Such as <c>/print/labels.pdf</c>.</param>
/// <param name="Answer">Answers; a refusal becomes a sentence with status 422.</param>
public sealed record FileAddress(string Method, string Path, Func<HttpContext, Task> Answer)
{
    /// <summary>Sends a file to be saved or opened by another program.</summary>
    public static async Task Send(HttpContext context, byte[] content, string type, string name)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(content);
        context.Response.ContentType = type;
        context.Response.ContentLength = content.Length;
        context.Response.Headers.ContentDisposition = $"attachment; filename=\"{name}\"";
        await context.Response.Body.WriteAsync(content, context.RequestAborted);
    }
}
