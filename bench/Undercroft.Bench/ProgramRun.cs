using System.Diagnostics;

namespace Undercroft.Bench;

/// <summary>The program as built, run as a person runs it.</summary>
internal static class ProgramRun
{
    /// <summary>Where <c>dotnet build -c Release src/Undercroft</c> leaves it.</summary>
    internal static string Program { get; } = Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "../../Undercroft/release/undercroft" + (OperatingSystem.IsWindows() ? ".exe" : "")));

    /// <summary>One run to its end. CPU and memory are looked at every few milliseconds: the last look counts.</summary>
    /// <exception cref="InvalidOperationException">It refused.</exception>
    internal static LedgerTiming Of(params string[] words) => Of(Program, words);

    /// <summary>One run of any program to its end.</summary>
    /// <exception cref="InvalidOperationException">It refused.</exception>
    internal static LedgerTiming Of(string program, IReadOnlyList<string> words)
    {
        using var run = new Process { StartInfo = new ProcessStartInfo(program, words) { RedirectStandardOutput = true } };
        var wall = Stopwatch.StartNew();
        run.Start();
        var said = run.StandardOutput.ReadToEndAsync();
        var (peak, cpu) = (0L, TimeSpan.Zero);
        while (!run.WaitForExit(5))
        {
            try
            {
                run.Refresh();
                (peak, cpu) = (Math.Max(peak, run.PeakWorkingSet64), run.TotalProcessorTime);
            }
            catch (InvalidOperationException)
            {
                // It ended in between.
            }
        }

        var took = wall.Elapsed;
        _ = said.GetAwaiter().GetResult();
        return run.ExitCode == 0 ? new(took.TotalMilliseconds, cpu.TotalMilliseconds, peak / 1e6) : throw new InvalidOperationException($"{string.Join(' ', words)} ended with {run.ExitCode}.");
    }
}
