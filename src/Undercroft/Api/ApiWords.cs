using System.CommandLine;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Undercroft.Api;

/// <summary>One thing that a caller may say: an option or argument of the command.</summary>
/// <param name="Name">In the address or in the JSON body, such as <c>asOf</c>.</param>
/// <param name="Symbol">The option or argument.</param>
internal sealed record ApiField(string Name, Symbol Symbol)
{
    internal string Description => Symbol.Description ?? "";

    internal bool Required => Symbol switch
    {
        Option option => option.Required,
        Argument argument => argument.Arity.MinimumNumberOfValues > 0,
        _ => false,
    };

    internal Type Type => Symbol switch
    {
        Option option => option.ValueType,
        Argument argument => argument.ValueType,
        _ => typeof(string),
    };

    internal bool IsSwitch => Type == typeof(bool);

    internal bool IsList => Type.IsArray;
}

/// <summary>A request as the words of a command.</summary>
internal static partial class ApiWords
{
    /// <summary>The command of a route.</summary>
    internal static Command CommandOf(RootCommand root, ApiRoute route) =>
        route.Words.Split(' ').Aggregate((Command)root, (command, word) => command.Subcommands.Single(inner => inner.Name == word));

    /// <summary>What a caller may say. What names a file is left out: nothing outside is read or written for a caller from the network.</summary>
    internal static IReadOnlyList<ApiField> FieldsOf(RootCommand root, ApiRoute route)
    {
        var command = CommandOf(root, route);
        return
        [
            .. command.Arguments.Where(argument => !NamesFile(argument)).Select(argument => new ApiField(Camel(argument.Name), argument)),
            .. command.Options.Where(option => option.Name is not ("--help" or "--version") && !route.Without.Contains(option.Name) && !NamesFile(option)).Select(option => new ApiField(Camel(option.Name), option)),
            new ApiField("today", root.Options.Single(option => option.Name == "--today")),
        ];
    }

    /// <summary>The words, or why there are none.</summary>
    /// <param name="root">The commands.</param>
    /// <param name="route">What was asked for.</param>
    /// <param name="said">Names with one or more values each.</param>
    internal static (IReadOnlyList<string> Words, string? Wrong) Of(RootCommand root, ApiRoute route, IReadOnlyList<(string Name, IReadOnlyList<string> Values)> said)
    {
        var fields = FieldsOf(root, route);
        List<string> options = [], arguments = [];
        foreach (var (name, values) in said)
        {
            if (fields.FirstOrDefault(field => field.Name == name) is not { } field)
                return ([], $"'{name}' is nothing that can be said here. What can: {string.Join(", ", fields.Select(each => each.Name))}.");
            if (field.Symbol is Argument)
                continue;
            var option = (Option)field.Symbol;
            if (!field.IsSwitch)
                options.AddRange(values.Select(value => $"{option.Name}={value}"));
            else if (values is ["true"])
                options.Add(option.Name);
            else if (values is not ["false"])
                return ([], $"'{name}' is true or false.");
        }

        // Arguments stand in the order of the command, behind a bare "--": whatever they hold, they are no options.
        foreach (var field in fields.Where(field => field.Symbol is Argument))
        {
            var values = said.FirstOrDefault(each => each.Name == field.Name).Values ?? [];
            if (values.Count > 1 && !field.IsList)
                return ([], $"'{field.Name}' is said more than once.");
            arguments.AddRange(values);
        }

        return ([.. route.Words.Split(' '), .. options, "--json", "--", .. arguments], null);
    }

    /// <summary>The fields of a JSON object: strings, numbers, true, false, and lists of them; null is unsaid.</summary>
    /// <exception cref="JsonException">Something else.</exception>
    internal static IEnumerable<(string Name, IReadOnlyList<string> Values)> Fields(JsonElement body)
    {
        if (body.ValueKind != JsonValueKind.Object)
            throw new JsonException("The body is not a JSON object.");
        foreach (var property in body.EnumerateObject())
        {
            if (property.Value.ValueKind == JsonValueKind.Null)
                continue;
            yield return (property.Name, property.Value.ValueKind == JsonValueKind.Array ? [.. property.Value.EnumerateArray().Select(Value)] : [Value(property.Value)]);
        }
    }

    /// <summary>A name as JSON has it: <c>--as-of</c> is <c>asOf</c>.</summary>
    internal static string Camel(string name)
    {
        var parts = name.TrimStart('-').Split('-');
        return string.Concat(parts.Select((part, n) => n == 0 ? part.ToLowerInvariant() : char.ToUpperInvariant(part[0]) + part[1..]));
    }

    private static string Value(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.String => value.GetString()!,
        JsonValueKind.Number => value.GetRawText(),
        JsonValueKind.True => "true",
        JsonValueKind.False => "false",
        _ => throw new JsonException("A field of the body is neither a text, a number, true, false, nor a list of these."),
    };

    private static bool NamesFile(Symbol symbol) => FileWords().IsMatch($"{symbol.Name} {symbol.Description} {(symbol as Option)?.HelpName} {(symbol as Argument)?.HelpName}");

    [GeneratedRegex(@"\b(file|folder|zip|pdf|ics|csv|directory|dir|log)\b", RegexOptions.IgnoreCase)]
    private static partial Regex FileWords();
}
