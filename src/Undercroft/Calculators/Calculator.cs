using System.CommandLine;
using Undercroft.Shell;

namespace Undercroft.Calculators;

/// <summary>What a person put into a calculator, whichever door it came through.</summary>
/// <param name="Parsed">The options as read.</param>
/// <param name="FullPath">Where a file of that name lies; refuses where a door takes none.</param>
/// <param name="Warnings">What is odd and done all the same.</param>
internal sealed record Asked(ParseResult Parsed, Func<string, string> FullPath, TextWriter Warnings)
{
    /// <summary>The value of an option.</summary>
    public T? Value<T>(Option<T> option) => Parsed.GetValue(option);
}

/// <summary>A small question that needs no cellar: one use case with a command, a page and an address for programs.</summary>
/// <param name="Name">Its word, such as <c>air</c>.</param>
/// <param name="Question">One line.</param>
/// <param name="Work">Reads what was asked and answers.</param>
/// <param name="Options">What is put in.</param>
internal sealed record Calculator(string Name, string Question, Func<Asked, ValueTask<Answer>> Work, params Option[] Options)
{
    /// <summary>Formula, sources and a worked example.</summary>
    public CalculatorNote Note => CalculatorNotes.Of(Name);

    /// <summary>The same for the terminal.</summary>
    public Command ToCommand(CommandLine line) => line.Command(Name, Question, call => Work(new Asked(call.Parsed, call.Terminal.FullPath, call.Terminal.Error)), Options);

    /// <summary>The options that a page or an address takes: no file of the machine that serves it.</summary>
    public IEnumerable<Option> Fields => Options.Where(option => option.Name is not ("--file" or "--unit"));

    /// <summary>The answer to fields of a form or an address.</summary>
    /// <param name="fields">Name without dashes, and what was put in; blank ones are passed over.</param>
    /// <param name="warnings">What is odd and done all the same.</param>
    /// <exception cref="Undercroft.Ledger.Refusal">Impossible.</exception>
    /// <exception cref="WrongUsage">A field that is missing, unknown or not to be combined.</exception>
    public ValueTask<Answer> Answer(IEnumerable<KeyValuePair<string, string>> fields, TextWriter warnings)
    {
        List<string> words = [];
        foreach (var (name, value) in fields)
        {
            if (Fields.All(option => option.Name != "--" + name))
                throw new WrongUsage($"'{name}' is not a field here. There are: {string.Join(", ", Fields.Select(option => option.Name[2..]))}.");
            words.AddRange(value.Split('\n').Select(line => line.Trim()).Where(line => line.Length > 0).Select(line => $"--{name}={line}"));
        }

        var command = new Command(Name, Question);
        foreach (var option in Options)
            command.Options.Add(option);
        var parsed = command.Parse(words);
        if (parsed.Errors.Count > 0)
            throw new WrongUsage(string.Join(' ', parsed.Errors.Select(error => error.Message)));
        return Work(new Asked(parsed, name => throw new WrongUsage($"{name} cannot be read from here."), warnings));
    }
}
