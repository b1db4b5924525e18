using System.Text.Json;
using Undercroft.Ledger;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Api;

/// <summary>Answers an address of the API by running its command in this process: the same use case, the same checks, the same JSON byte for byte.</summary>
internal static class ApiCall
{
    internal static async Task<IResult> Answer(HttpContext context, ApiRoute route, string dataFolder, TimeProvider clock)
    {
        List<(string Name, IReadOnlyList<string> Values)> said = [.. route.InPath.Select(name => (name, (IReadOnlyList<string>)[context.Request.RouteValues[name]?.ToString() ?? ""]))];
        said.AddRange(context.Request.Query.Select(pair => (pair.Key, (IReadOnlyList<string>)[.. pair.Value.OfType<string>()])));
        if (route.Method != HttpMethods.Get)
        {
            if (!context.Request.HasJsonContentType())
                return Refused(StatusCodes.Status415UnsupportedMediaType, "What is sent must be JSON: Content-Type: application/json.");
            try
            {
                using var body = await JsonDocument.ParseAsync(context.Request.Body, cancellationToken: context.RequestAborted);
                said.AddRange(ApiWords.Fields(body.RootElement));
            }
            catch (JsonException wrong)
            {
                return Refused(StatusCodes.Status400BadRequest, $"What was sent is not a JSON object of fields, so nothing was done: {wrong.Message}");
            }
        }

        if (said.GroupBy(each => each.Name).FirstOrDefault(group => group.Count() > 1) is { } twice)
            return Refused(StatusCodes.Status400BadRequest, $"'{twice.Key}' is said more than once.");
        return await Run(context, route, said, dataFolder, clock);
    }

    private static async Task<IResult> Run(HttpContext context, ApiRoute route, IReadOnlyList<(string Name, IReadOnlyList<string> Values)> said, string dataFolder, TimeProvider clock)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        // Nothing of the machine's surroundings is seen, and the folder is the server's own.
        var line = new CommandLine(new Terminal(output, error, clock, _ => null, dataFolder)) { Handed = HandedTo(route, context.RequestServices.GetRequiredService<Handed>()) };
        var root = Commands.In(line);
        var (words, wrong) = ApiWords.Of(root, route, said);
        if (wrong is not null)
            return Refused(StatusCodes.Status400BadRequest, wrong);
        var exit = await line.Run(root, [$"--data={dataFolder}", .. words]);
        return output.ToString() is { Length: > 0 } json
            ? Results.Text(json, "application/json", System.Text.Encoding.UTF8)
            : Refused(exit == 2 ? StatusCodes.Status400BadRequest : StatusOf(line.Ended, route.InPath.Select(name => context.Request.RouteValues[name]?.ToString())), Reason(error.ToString()));
    }

    /// <summary>What a command is given: behind glass where its address only reads.</summary>
    internal static Handed HandedTo(ApiRoute route, Handed handed) => route.Method == HttpMethods.Get ? handed with { Cellars = new ReadCellars(handed.Cellars) } : handed;

    /// <summary>What kind of no it is.</summary>
    /// <param name="ended">What ended the command.</param>
    /// <param name="inPath">What the address names: where that is not there, nothing is at the address.</param>
    internal static int StatusOf(Exception? ended, IEnumerable<string?> inPath) => ended switch
    {
        Refusal { Kind: RefusalKind.Unknown } unknown when inPath.Contains(unknown.Named) => StatusCodes.Status404NotFound,
        Refusal { Kind: RefusalKind.Standing } => StatusCodes.Status409Conflict,
        Refusal { Kind: RefusalKind.Closed } => StatusCodes.Status403Forbidden,
        Refusal or null => StatusCodes.Status422UnprocessableEntity,
        _ => StatusCodes.Status500InternalServerError,
    };

    /// <summary>Why, without the hint at the command line's help.</summary>
    private static string Reason(string error) =>
        string.Join(' ', error.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Where(line => !line.StartsWith("See: undercroft", StringComparison.Ordinal)));

    internal static IResult Refused(int status, string why) => new Told(status, why);

    private sealed class Told(int status, string why) : IResult
    {
        public Task ExecuteAsync(HttpContext httpContext) => Problem.Write(httpContext, status, why);
    }
}
