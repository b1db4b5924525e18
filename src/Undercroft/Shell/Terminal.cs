using Spectre.Console;

namespace Undercroft.Shell;

/// <summary>What surrounds one run of the program: where it prints, what time it is, where it stands. Tests give their own.</summary>
/// <param name="Out">Standard output.</param>
/// <param name="Error">Standard error.</param>
/// <param name="Clock">The present, where no <c>--today</c> is given.</param>
/// <param name="Environment">Reads an environment variable.</param>
/// <param name="WorkingDirectory">Where relative paths start.</param>
public sealed record Terminal(
    TextWriter Out, TextWriter Error, TimeProvider Clock, Func<string, string?> Environment, string WorkingDirectory)
{
    /// <summary>Columns that printed answers keep to when nobody says how wide the window is.</summary>
    public const int PlainWidth = 80;

    /// <summary>Reads one line that nobody should see; null at the end of the input. The text asks for it.</summary>
    public Func<string, string?> ReadSecret { get; init; } = _ => null;

    /// <summary>The real one.</summary>
    public static Terminal OfProcess() => new(
        Console.Out, Console.Error, TimeProvider.System, System.Environment.GetEnvironmentVariable, Directory.GetCurrentDirectory())
    {
        ReadSecret = SecretOfProcess,
    };

    /// <summary>A console for tables and colour on standard output: plain text of 80 columns when the output goes to a file, a pipe or a test.</summary>
    public IAnsiConsole Page()
    {
        var plain = !ReferenceEquals(Out, Console.Out) || Console.IsOutputRedirected;
        var console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Out = new AnsiConsoleOutput(plain ? new TrimmedLines(Out) : Out),
            Ansi = plain ? AnsiSupport.No : AnsiSupport.Detect,
            ColorSystem = plain ? ColorSystemSupport.NoColors : ColorSystemSupport.Detect,
            Interactive = InteractionSupport.No,
        });
        if (plain)
            console.Profile.Width = PlainWidth;
        return console;
    }

    /// <summary>A path as the person wrote it, made absolute from where they stand.</summary>
    public string FullPath(string path) => Path.GetFullPath(path, WorkingDirectory);

    private static string? SecretOfProcess(string question)
    {
        if (Console.IsInputRedirected)
            return Console.In.ReadLine();
        Console.Error.Write(question);
        var typed = new System.Text.StringBuilder();
        while (Console.ReadKey(intercept: true) is var key && key.Key != ConsoleKey.Enter)
        {
            if (key.Key == ConsoleKey.Backspace)
                typed.Length = Math.Max(0, typed.Length - 1);
            else if (!char.IsControl(key.KeyChar))
                typed.Append(key.KeyChar);
        }

        Console.Error.WriteLine();
        return typed.ToString();
    }
}
