namespace Undercroft.Shell.Web;

/// <summary>How a page says that what its address names is not there, and still shows why.</summary>
public static class NotThere
{
    /// <summary>Answers 404 with the page as it is. Set at the last moment: the renderer drops the content of a page that says earlier that it was not found.</summary>
    /// <param name="context">Of the request.</param>
    public static void Say(HttpContext? context) => context?.Response.OnStarting(static response =>
    {
        ((HttpResponse)response).StatusCode = StatusCodes.Status404NotFound;
        return Task.CompletedTask;
    }, context.Response);
}
