using System.CommandLine;
using System.CommandLine.Parsing;
using Undercroft.Ledger;

namespace Undercroft.Shell;

/// <summary>The command line: a tree of commands, one way to print an answer, one way to refuse.</summary>
/// <remarks>
/// Exit codes: 0 done, 1 refused or impossible, 2 wrong usage. On 1 and 2 standard output stays empty and standard error says what, why and
/// what to do.
/// </remarks>
public sealed class CommandLine(Terminal terminal)
{
    // A word such as "@home" is a word, never the name of a file to read more words from.
    private static readonly ParserConfiguration Plainly = new() { ResponseFileTokenReplacer = null };

    private readonly CommonOptions common = new();

    /// <summary>What a server hands to the commands that it runs; null on a terminal.</summary>
    public Handed? Handed { get; init; }

    /// <summary>What ended a run that was not done; null for one that was, or that was wrongly called.</summary>
    public Exception? Ended { get; private set; }

    /// <summary>A command that answers.</summary>
    /// <param name="name">The word.</param>
    /// <param name="description">One line for <c>--help</c>.</param>
    /// <param name="answer">The door: reads the call, asks the use case, shapes the answer. Holds no rule.</param>
    /// <param name="symbols">Its options, arguments and subcommands.</param>
    public Command Command(string name, string description, Func<Call, ValueTask<Answer>> answer, params Symbol[] symbols)
    {
        var command = Group(name, description, symbols);
        command.SetAction(async (parsed, _) =>
        {
            var call = new Call(terminal, parsed, common) { Handed = Handed };
            var said = await answer(call);
            if (call.Json)
                await terminal.Out.WriteLineAsync(JsonText.Of(said.Json));
            else
                said.Print(terminal.Page());
            return said.ExitCode;
        });
        return command;
    }

    /// <summary>A word that only holds other commands.</summary>
    public static Command Group(string name, string description, params Symbol[] symbols)
    {
        var command = new Command(name, description);
        foreach (var symbol in symbols)
        {
            switch (symbol)
            {
                case Option option: command.Options.Add(option); break;
                case Argument argument: command.Arguments.Add(argument); break;
                case Command inner: command.Subcommands.Add(inner); break;
                default: throw new ArgumentException($"{symbol.GetType()} cannot be part of a command.", nameof(symbols));
            }
        }

        return command;
    }

    /// <summary>The whole tree under one root.</summary>
    public RootCommand Tree(params Command[] commands)
    {
        var root = new RootCommand("Undercroft: keep pipe tobacco well for one to thirty years.");
        common.AddTo(root);
        foreach (var command in commands)
            root.Subcommands.Add(command);
        return root;
    }

    /// <summary>Parses, runs, prints; maps every refusal to its exit code.</summary>
    public async Task<int> Run(RootCommand root, IReadOnlyList<string> words)
    {
        var parsed = root.Parse(words, Plainly);
        if (parsed.Errors.Count > 0 || UnknownOption(parsed) is not null)
            return Usage(parsed);
        try
        {
            return await parsed.InvokeAsync(new InvocationConfiguration
            {
                EnableDefaultExceptionHandler = false,
                Output = terminal.Out,
                Error = terminal.Error,
            });
        }
        catch (Refusal refusal)
        {
            Ended = refusal;
            await terminal.Error.WriteLineAsync(refusal.Message);
            return 1;
        }
        catch (AggregateException several) when (several.InnerException is Refusal refusal)
        {
            Ended = refusal;
            await terminal.Error.WriteLineAsync(refusal.Message); // refused in parallel, for the same reason each time
            return 1;
        }
        catch (WrongUsage usage)
        {
            await terminal.Error.WriteLineAsync(usage.Message);
            return 2;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            Ended = failure;
            await terminal.Error.WriteLineAsync($"The file system refused: {failure.Message} Nothing was changed; see to the folder's permissions and space, then try again.");
            return 1;
        }
        catch (Exception fault) when (terminal.Environment("UNDERCROFT_TRACE") is null)
        {
            Ended = fault;
            await terminal.Error.WriteLineAsync(
                $"A fault of the program itself: {fault.GetType().Name}: {fault.Message} Nothing was written by this command. " +
                "Run it again with UNDERCROFT_TRACE=1 to see where, and report that.");
            return 1;
        }
    }

    /// <summary>A mistyped option that the parser took for an argument, such as <c>show --asof</c>; null where there is none. After a bare <c>--</c> anything may stand.</summary>
    private static string? UnknownOption(ParseResult parsed) => parsed.Tokens.TakeWhile(token => token.Type != TokenType.DoubleDash)
        .FirstOrDefault(token => token.Type == TokenType.Argument && token.Value.StartsWith("--", StringComparison.Ordinal) && !IsValue(parsed, token))?.Value;

    /// <summary>True for the one value of an option, which may look like anything: <c>--note=--</c>.</summary>
    private static bool IsValue(ParseResult parsed, Token token) => parsed.CommandResult.Children.OfType<OptionResult>()
        .Any(option => option.Option.Arity.MaximumNumberOfValues == 1 && option.Tokens.Any(each => ReferenceEquals(each, token)));

    private int Usage(ParseResult parsed)
    {
        if (parsed.Errors.Count == 0)
            terminal.Error.WriteLine($"'{UnknownOption(parsed)}' is not an option of this command.");
        foreach (var error in parsed.Errors)
            terminal.Error.WriteLine(error.Message);
        var path = string.Join(' ', parsed.CommandResult.Command.Parents.OfType<Command>().Reverse()
            .Append(parsed.CommandResult.Command).Where(command => command is not RootCommand).Select(command => command.Name));
        terminal.Error.WriteLine($"See: undercroft {(path.Length > 0 ? path + " " : "")}--help");
        return 2;
    }
}
