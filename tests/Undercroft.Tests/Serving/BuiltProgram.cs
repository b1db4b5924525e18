using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Undercroft.Tests.Serving;

/// <summary>The program as it was built, started from a foreign directory.</summary>
public sealed partial class BuiltProgram : IAsyncDisposable
{
    private readonly Process process;

    private BuiltProgram(Process process, Uri address)
    {
        this.process = process;
        Address = address;
    }

    /// <summary>Where its page listens.</summary>
    public Uri Address { get; }

    /// <summary>The executable of the same configuration as these tests.</summary>
    public static string Path
    {
        get
        {
            var tests = new DirectoryInfo(AppContext.BaseDirectory.TrimEnd(System.IO.Path.DirectorySeparatorChar));
            var name = OperatingSystem.IsWindows() ? "undercroft.exe" : "undercroft";
            return System.IO.Path.Combine(tests.Parent!.Parent!.FullName, "Undercroft", tests.Name, name);
        }
    }

    /// <summary>Starts <c>serve</c> on a free port and waits until it says where it listens.</summary>
    public static Task<BuiltProgram> Serve(string dataFolder, params string[] more) => ServeAt(dataFolder, "http://127.0.0.1:0", more);

    /// <summary>Starts <c>serve</c> at an address and waits until it says where it listens.</summary>
    public static async Task<BuiltProgram> ServeAt(string dataFolder, string urls, params string[] more)
    {
        var process = Start(["serve", "--data", dataFolder, "--urls", urls, .. more], []);
        var said = new List<string>();
        while (await process.StandardError.ReadLineAsync() is { } line)
        {
            said.Add(line);
            if (OpenAt().Match(line) is { Success: true } found)
                return new(process, new(found.Groups["address"].Value));
        }

        await process.WaitForExitAsync();
        process.Dispose();
        throw new InvalidOperationException("The program ended before it listened: " + string.Join(Environment.NewLine, said));
    }

    /// <summary>Runs a command to its end.</summary>
    public static Task<(int ExitCode, string Out, string Error)> Run(params string[] words) => Run(words, []);

    /// <summary>Runs a command to its end with variables of its own.</summary>
    public static async Task<(int ExitCode, string Out, string Error)> Run(string[] words, Dictionary<string, string> environment)
    {
        using var process = Start(words, environment);
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return (process.ExitCode, await output, await error);
    }

    public async ValueTask DisposeAsync()
    {
        if (!process.HasExited)
            process.Kill();
        await process.WaitForExitAsync();
        process.Dispose();
    }

    private static Process Start(IEnumerable<string> words, Dictionary<string, string> environment)
    {
        var start = new ProcessStartInfo(Path, words)
        {
            WorkingDirectory = System.IO.Path.GetPathRoot(AppContext.BaseDirectory)!,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        // What would move or configure a host that listened to its surroundings.
        start.Environment["ASPNETCORE_URLS"] = "http://0.0.0.0:0";
        start.Environment["ASPNETCORE_ENVIRONMENT"] = "Development";
        start.Environment["DOTNET_ENVIRONMENT"] = "Development";
        foreach (var (name, value) in environment)
            start.Environment[name] = value;
        return Process.Start(start)!;
    }

    [GeneratedRegex(@"open at (?<address>https?://\S+)")]
    private static partial Regex OpenAt();
}
