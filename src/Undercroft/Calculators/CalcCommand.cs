using System.CommandLine;
using Spectre.Console;
using Undercroft.Shell;
using Undercroft.Shell.Logs;

namespace Undercroft.Calculators;

/// <summary><c>calc</c>: small questions that need no cellar.</summary>
public static class CalcCommand
{
    /// <summary>Every calculator, made anew: a new one is a line here and a note in <see cref="CalculatorNotes"/>.</summary>
    internal static IReadOnlyList<Calculator> All(WorkbookSheets? workbook = null) =>
    [
        AirCommands.Air(),
        AirCommands.WarmAir(),
        MeanKineticCommand.Of(workbook),
        LeafCommands.Water(),
        LeafCommands.Isotherm(),
        LeafCommands.Humectant(),
        FilmCommands.Film(),
        FilmCommands.Laminate(),
        FilmCommands.Pinhole(),
        FilmCommands.Strip(),
        VesselCommands.Headspace(),
        VesselCommands.Pressure(),
        BulgeCommand.Bulge(),
        BulgeCommand.Tightness(),
        HygrometerCommands.Salt(),
        HygrometerCommands.Hygrometer(),
    ];

    /// <summary>The command.</summary>
    /// <param name="line">The command line.</param>
    /// <param name="workbook">Reads workbooks; null where none are read.</param>
    public static Command In(CommandLine line, WorkbookSheets? workbook = null)
    {
        ArgumentNullException.ThrowIfNull(line);
        return CommandLine.Group("calc", "Small questions that need no cellar.", [.. All(workbook).Select(calculator => calculator.ToCommand(line))]);
    }

    /// <summary>An option that must be given.</summary>
    internal static Option<string> Needed(string name, string description, string example) =>
        new(name) { Description = $"{description} Such as {example}.", HelpName = example, Required = true };

    /// <summary>An option that may be left out.</summary>
    internal static Option<string?> Maybe(string name, string description, string example) =>
        new(name) { Description = $"{description} Such as {example}.", HelpName = example };

    /// <summary>An option that may be given several times, one value each.</summary>
    internal static Option<string[]> Several(string name, string description, string example, bool required) =>
        new(name) { Description = $"{description} Such as {example}; may be repeated.", HelpName = example, Required = required, Arity = ArgumentArity.OneOrMore };

    /// <summary>An answer that needed no waiting.</summary>
    internal static ValueTask<Answer> Answer(object json, Action<IAnsiConsole> print) => ValueTask.FromResult(new Answer(json, print));
}
