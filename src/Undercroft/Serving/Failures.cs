namespace Undercroft.Serving;

/// <summary>
/// What is left when a page fails unexpectedly: a sentence for the person, and a log line without content.
/// </summary>
/// <remarks>The log names the kind of failure and where in the program it happened, never its message or the address asked for: both can hold what a person typed.</remarks>
internal static partial class Failures
{
    internal static async Task Catch(HttpContext context, RequestDelegate next, ILogger log)
    {
        try
        {
            await next(context);
            if (!context.Response.HasStarted)
                await SayWhy(context);
        }
        catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested)
        {
            // The person left the page.
        }
        catch (BadHttpRequestException bad) when (!context.Response.HasStarted)
        {
            context.Response.Clear();
            await RequestGate.Turn(context, bad.StatusCode, bad.StatusCode == StatusCodes.Status413PayloadTooLarge
                ? RequestGate.TooLarge
                : "What was sent could not be read, so nothing was done. Go back, reload the page and try again.");
        }
#pragma warning disable CA1031 // The last resort: whatever it is, the person gets a sentence and the log its kind.
        catch (Exception failure) when (!context.Response.HasStarted)
#pragma warning restore CA1031
        {
            Failed(log, Kinds(failure), failure.StackTrace ?? "");
            context.Response.Clear();
            await RequestGate.Turn(context, StatusCodes.Status500InternalServerError,
                "Something in the program failed. If you were writing something down, see in the history at /history whether it is there before you write it again. What failed stands in the program's output, without anything you typed.");
        }
    }

    /// <summary>Puts a sentence where the framework left an empty answer.</summary>
    private static Task SayWhy(HttpContext context) => context.Response.StatusCode switch
    {
        StatusCodes.Status400BadRequest => RequestGate.Turn(context, StatusCodes.Status400BadRequest,
            "The form was too old or not this page's own, so nothing was done. Go back, reload the page and try again."),
        StatusCodes.Status404NotFound when context.GetEndpoint() is null => RequestGate.Turn(context, StatusCodes.Status404NotFound,
            "There is nothing at this address. The first page is at /."),
        StatusCodes.Status405MethodNotAllowed => RequestGate.Turn(context, StatusCodes.Status405MethodNotAllowed,
            "This address does not take what was sent, so nothing was done."),
        _ => Task.CompletedTask,
    };

    private static string Kinds(Exception failure)
    {
        var kinds = new List<string>();
        for (var inner = failure; inner is not null; inner = inner.InnerException)
            kinds.Add(inner.GetType().Name);
        return string.Join(" < ", kinds);
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "A page failed: {Kinds}\n{Trace}")]
    private static partial void Failed(ILogger log, string kinds, string trace);
}
