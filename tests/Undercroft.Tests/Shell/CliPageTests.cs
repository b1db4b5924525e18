using System.CommandLine;
using Undercroft.Shell;
using Undercroft.Tests.House;
using Xunit;

namespace Undercroft.Tests.Shell;

public sealed class CliPageTests
{
    private static readonly string File = Path.Combine(Repository.Root, "docs", "cli.md");

    private static readonly RootCommand Root = Commands.In(new CommandLine(Terminal.OfProcess()));

    [Fact]
    public void The_page_of_commands_is_that_of_the_program()
    {
        var page = CliPage.Of(Root, Examples.Of);
        if (Environment.GetEnvironmentVariable("UNDERCROFT_DOCS") == "1")
            System.IO.File.WriteAllText(File, page);
        Assert.True(
            System.IO.File.Exists(File) && System.IO.File.ReadAllText(File).ReplaceLineEndings("\n") == page,
            "docs/cli.md is not what the program says. Run these tests once with UNDERCROFT_DOCS=1 and commit the page.");
    }

    [Fact]
    public void Every_command_option_and_argument_is_described()
    {
        var all = All(Root).ToArray();
        Assert.True(all.Length > 40, "The tree was not read.");
        foreach (var command in all)
        {
            Assert.False(string.IsNullOrWhiteSpace(command.Description), $"{command.Name} has no description.");
            foreach (var symbol in command.Options.Cast<Symbol>().Concat(command.Arguments))
                Assert.False(string.IsNullOrWhiteSpace(symbol.Description), $"{command.Name} {symbol.Name} has no description.");
        }
    }

    [Fact]
    public void Every_example_parses_as_its_command()
    {
        foreach (var (path, command) in CliPage.Leaves(Root))
        {
            var parsed = Root.Parse(Examples.WordsOf(path));
            Assert.True(parsed.Errors.Count == 0, $"{path}: {string.Join(' ', parsed.Errors.Select(error => error.Message))}");
            Assert.Same(command, parsed.CommandResult.Command);
        }
    }

    private static IEnumerable<Command> All(Command command) => [command, .. command.Subcommands.SelectMany(All)];
}
