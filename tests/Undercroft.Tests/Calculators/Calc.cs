using System.Text.Json;
using Undercroft.Calculators;
using Undercroft.Shell;
using Xunit;

namespace Undercroft.Tests.Calculators;

/// <summary>Runs <c>calc</c> as the program does, without a process.</summary>
internal static class Calc
{
    public static (int Exit, string Out, string Error) Run(string words, string? folder = null) => In(folder ?? Path.GetTempPath(), words.Split(' ', StringSplitOptions.RemoveEmptyEntries));

    /// <summary>With words as they come, blanks and all.</summary>
    public static (int Exit, string Out, string Error) RunWords(IEnumerable<string> words) => In(Path.GetTempPath(), words);

    private static (int Exit, string Out, string Error) In(string folder, IEnumerable<string> words)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var terminal = new Terminal(output, error, TimeProvider.System, _ => null, folder);
        var line = new CommandLine(terminal);
        var exit = line.Run(line.Tree(CalcCommand.In(line)), ["calc", .. words]).GetAwaiter().GetResult();
        return (exit, output.ToString(), error.ToString());
    }

    /// <summary>The one JSON value of a call that is done.</summary>
    public static Dictionary<string, JsonElement> Json(string words, string? folder = null)
    {
        var (exit, text, error) = Run(words + " --json", folder);
        Assert.True(exit == 0, $"calc {words}: exit {exit}, {error}");
        return JsonSerializer.Deserialize<Dictionary<string, JsonElement>>(text)!;
    }

    public static double Number(string words, string name) => Json(words)[name].GetDouble();

    /// <summary>A call that is refused or wrongly used: nothing on standard output, a reason without a stack trace on standard error.</summary>
    public static string Refused(string words, int exit, string? folder = null)
    {
        var (found, text, error) = Run(words + " --json", folder);
        Assert.True(found == exit, $"calc {words}: exit {found} instead of {exit}; {text}{error}");
        Assert.Equal("", text);
        Assert.NotEqual("", error.Trim());
        Assert.DoesNotContain("fault of the program", error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
        return error;
    }
}
