using System.CommandLine;
using Microsoft.OpenApi;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Api;

/// <summary>The OpenAPI description at <c>/api/openapi.json</c>: addresses, fields and help are those of the commands.</summary>
internal static class ApiDescription
{
    internal static void Add(IServiceCollection services)
    {
        var root = Commands.In(new CommandLine(new Terminal(TextWriter.Null, TextWriter.Null, TimeProvider.System, _ => null, AppContext.BaseDirectory)));
        services.AddOpenApi(options =>
        {
            options.ShouldInclude = description => description.ActionDescriptor.EndpointMetadata.OfType<Needs>().Any();
            options.AddOperationTransformer((operation, context, _) =>
            {
                var metadata = context.Description.ActionDescriptor.EndpointMetadata;
                if (metadata.OfType<Needs>().SingleOrDefault() is { } needs)
                    operation.Description = $"{operation.Description} Needs the scope {needs.Scope.ToString().ToLowerInvariant()}.".Trim();
                if (metadata.OfType<ApiRoute>().SingleOrDefault() is { } route)
                    Describe(operation, root, route);
                operation.Responses ??= [];
                foreach (var (status, why) in RefusalsOf(metadata.OfType<ApiRoute>().SingleOrDefault(), context.Description.HttpMethod))
                    operation.Responses[status] = new OpenApiResponse { Description = why, Content = new Dictionary<string, OpenApiMediaType> { [Problem.ContentType] = new() } };
                return Task.CompletedTask;
            });
            options.AddDocumentTransformer((document, _, _) =>
            {
                document.Info = new()
                {
                    Title = "Undercroft",
                    Version = typeof(ApiDescription).Assembly.GetName().Version?.ToString(3) ?? "0",
                    Description = "Every address answers what the command of the same help text prints with --json, byte for byte. Amounts carry their unit as on the command line (612.3g, 20C, 62%); "
                        + "unknown is null. On the machine itself no token is needed; from elsewhere send one that /access made, good for the scope that an address names. Only signing in is counted and answers 429 after too many attempts, in the five minutes after; no address below does.",
                };
                document.Servers = [];
                document.Components ??= new();
                document.Components.SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme> { ["token"] = new OpenApiSecurityScheme { Type = SecuritySchemeType.Http, Scheme = "bearer" } };
                document.Security = [new() { [new OpenApiSecuritySchemeReference("token", document)] = [] }];
                return Task.CompletedTask;
            });
        });
    }

    /// <summary>Every no that an address can give, as problem details by RFC 9457.</summary>
    private static IEnumerable<(string Status, string Why)> RefusalsOf(ApiRoute? route, string? method)
    {
        yield return ("400", "Wrongly asked: an unknown field, a missing one, or none that can be read. Nothing was done.");
        yield return ("401", "No token, or one that does not hold.");
        yield return ("403", "The token is not good for this, or the call comes from another site.");
        if (route is { InPath.Count: > 0 })
            yield return ("404", "What the address names is not there; the nearest names are told.");
        if (method != "GET")
        {
            yield return ("409", "What the cellar holds already stands against it. Nothing was done.");
            yield return ("413", "Too large. Nothing was done.");
            yield return ("415", "Not JSON. Nothing was done.");
        }

        yield return ("421", "Asked under a name or an address that this server was not started for.");
        yield return ("422", "What was said cannot be, and why. Nothing was done.");
        yield return ("500", "The program or the disk failed; what failed is told.");
    }

    private static void Describe(OpenApiOperation operation, RootCommand root, ApiRoute route)
    {
        operation.Summary = ApiWords.CommandOf(root, route).Description;
        operation.OperationId = (route.Method == "GET" ? "get" : "post") + string.Concat(route.Path.Split('/', '-').Select(part => part.Trim('{', '}')).Where(part => part.Length > 0).Select(part => char.ToUpperInvariant(part[0]) + part[1..]));
        var fields = ApiWords.FieldsOf(root, route);
        operation.Parameters =
        [
            .. fields.Where(field => route.InPath.Contains(field.Name) || route.Method == "GET").Select(field => (IOpenApiParameter)new OpenApiParameter
            {
                Name = field.Name,
                In = route.InPath.Contains(field.Name) ? ParameterLocation.Path : ParameterLocation.Query,
                Required = route.InPath.Contains(field.Name) || field.Required,
                Description = field.Description,
                Schema = SchemaOf(field),
            }),
        ];
        if (route.Method != "GET")
        {
            OpenApiSchema body = new() { Type = JsonSchemaType.Object, AdditionalPropertiesAllowed = false, Properties = new Dictionary<string, IOpenApiSchema>(), Required = new HashSet<string>() };
            foreach (var field in fields.Where(field => !route.InPath.Contains(field.Name)))
            {
                var schema = SchemaOf(field);
                schema.Description = field.Description;
                body.Properties[field.Name] = schema;
                if (field.Required)
                    body.Required.Add(field.Name);
            }

            operation.RequestBody = new OpenApiRequestBody { Required = true, Content = new Dictionary<string, OpenApiMediaType> { ["application/json"] = new() { Schema = body } } };
        }

        operation.Responses = new() { ["200"] = new OpenApiResponse { Description = "What the command prints with --json.", Content = new Dictionary<string, OpenApiMediaType> { ["application/json"] = new() { Schema = new OpenApiSchema() } } } };
    }

    private static OpenApiSchema SchemaOf(ApiField field)
    {
        var type = field.IsList ? field.Type.GetElementType()! : Nullable.GetUnderlyingType(field.Type) ?? field.Type;
        OpenApiSchema one = type == typeof(bool) ? new() { Type = JsonSchemaType.Boolean }
            : type == typeof(int) || type == typeof(long) || type == typeof(ulong) ? new() { Type = JsonSchemaType.Integer }
            : type == typeof(double) ? new() { Type = JsonSchemaType.Number }
            : type == typeof(DateOnly) ? new() { Type = JsonSchemaType.String, Format = "date" }
            : new() { Type = JsonSchemaType.String };
        return field.IsList ? new() { Type = JsonSchemaType.Array, Items = one } : one;
    }
}
