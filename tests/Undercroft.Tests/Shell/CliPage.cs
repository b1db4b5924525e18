using System.CommandLine;
using System.Text;

namespace Undercroft.Tests.Shell;

/// <summary>The page of all commands, from the tree itself.</summary>
internal static class CliPage
{
    /// <summary>Commands that answer, with their words, in the order of the tree.</summary>
    public static IEnumerable<(string Path, Command Command)> Leaves(Command command, string path = "") =>
        command.Subcommands.Count == 0
            ? [(path, command)]
            : command.Subcommands.Where(inner => !inner.Hidden).SelectMany(inner => Leaves(inner, path.Length == 0 ? inner.Name : $"{path} {inner.Name}"));

    /// <summary>Markdown.</summary>
    public static string Of(RootCommand root, Func<string, string> exampleOf)
    {
        var page = new StringBuilder();
        page.Append("# Commands\n\nWritten from the program itself by its tests (`UNDERCROFT_DOCS=1`); do not edit by hand. Whatever a command prints, `--json` prints as one JSON value.\n\n");
        page.Append("Exit codes: 0 done; 1 refused or impossible; 2 wrong usage. On 1 and 2 standard output is empty, standard error says what, why and what to do, and nothing has changed;\n");
        page.Append("only `verify` prints what it found and exits 1 where something is wrong. Quantities carry units (`50g`, `2oz`, `20C`, `68F`, `473ml`, `65%`); a bare number is refused.\n\n");
        page.Append("Dates: `2015`, `2015-06`, `2015-06-30`, `2015~` (about), `2015-21` (spring), `[2014..2016]` (some day between), `../2012` (not later than); plainly also `May 2015`, `summer 2015`, `05/2015`.\n\n## For every command\n\n");
        Options(page, root.Options.Where(option => option.Recursive));
        foreach (var (path, command) in Leaves(root))
        {
            page.Append($"## {path}\n\n{command.Description}\n\n");
            foreach (var argument in command.Arguments)
                page.Append($"- `{argument.Name.ToUpperInvariant()}`{(argument.Arity.MinimumNumberOfValues == 0 ? " (may be left out)" : "")}: {argument.Description}\n");
            Options(page, command.Options);
            page.Append($"```\nundercroft {exampleOf(path)}\n```\n\n");
        }

        return page.ToString().TrimEnd('\n') + "\n";
    }

    private static void Options(StringBuilder page, IEnumerable<Option> options)
    {
        foreach (var option in options.Where(option => !option.Hidden && option.Name is not ("--help" or "--version")))
        {
            var value = option.ValueType == typeof(bool) ? "" : $" {option.HelpName ?? "VALUE"}";
            page.Append($"- `{option.Name}{value}`{(option.Required ? " (needed)" : "")}: {option.Description}\n");
        }

        page.Append('\n');
    }
}
