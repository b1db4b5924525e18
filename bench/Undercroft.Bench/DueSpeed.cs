using System.Globalization;
using System.Text;

namespace Undercroft.Bench;

/// <summary>
/// How long <c>due</c> takes from a cold start to its printed list, beside a .NET program that says hello: <c>-- due</c> prints the section of
/// <c>docs/performance.md</c>, <c>-- due FILE</c> puts it there, <c>-- due make FOLDER PACKAGES [ONE IN SO MANY WEIGHED]</c> leaves the cellar for a profiler.
/// </summary>
internal static class DueSpeed
{
    private const string From = "<!-- due: from here -->";
    private const string To = "<!-- due: to here -->";
    private const int Rounds = 7;
    private static readonly int[] Sizes = [1000, 4000, 16_000];

    private static string Hello { get; } = Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "../../Undercroft.Hello/release/Undercroft.Hello" + (OperatingSystem.IsWindows() ? ".exe" : "")));

    internal static async Task<int> Run(string[] args)
    {
        if (args is ["make", var to, var size, .. var some])
        {
            Console.WriteLine((await DueHouse.Made(to, int.Parse(size, CultureInfo.InvariantCulture), some is [var weighed] ? int.Parse(weighed, CultureInfo.InvariantCulture) : 0)).Path);
            return 0;
        }

        var root = Directory.CreateTempSubdirectory("undercroft-bench-").FullName;
        try
        {
            var section = await Section(root);
            Console.WriteLine(section);
            if (args is [var file])
                LedgerSpeed.Put(file, section, From, To);
            return 0;
        }
        finally
        {
            Directory.Delete(root, recursive: true);
        }
    }

    private static async Task<string> Section(string root)
    {
        var text = new StringBuilder();
        text.AppendLine(Report.Machine());
        text.AppendLine();
        text.AppendLine("| whole process, best of seven | wall, s | CPU, s | CPU above the start, ms a package | peak memory, MB |");
        text.AppendLine("|---|---|---|---|---|");
        var hello = Best(() => ProgramRun.Of(Hello, []));
        Add($"| a .NET program that says hello | {hello.WallMs / 1000:0.00} | {hello.CpuMs / 1000:0.00} | | {hello.PeakMb:0} |");
        var small = await Due(1, 0);
        Add($"| `due`, 1 package | {small.WallMs / 1000:0.00} | {small.CpuMs / 1000:0.00} | | {small.PeakMb:0} |");
        foreach (var size in Sizes)
        {
            var run = await Due(size, 0);
            Add($"| `due`, {size} packages | {run.WallMs / 1000:0.00} | {run.CpuMs / 1000:0.00} | {(run.CpuMs - small.CpuMs) / size:0.00} | {run.PeakMb:0} |");
        }

        var weighed = await Due(Sizes[0], 5);
        Add($"| `due`, {Sizes[0]} packages, every fifth weighed twice | {weighed.WallMs / 1000:0.00} | {weighed.CpuMs / 1000:0.00} | {(weighed.CpuMs - small.CpuMs) / Sizes[0]:0.00} | {weighed.PeakMb:0} |");
        return text.ToString();

        async Task<LedgerTiming> Due(int packages, int every)
        {
            var folder = await DueHouse.Made(root, packages, every);
            return Best(() => ProgramRun.Of("due", "--data", folder.Path, "--today", DueHouse.Today));
        }

        void Add(FormattableString line) => text.AppendLine(line.ToString(CultureInfo.InvariantCulture));
    }

    private static LedgerTiming Best(Func<LedgerTiming> run)
    {
        LedgerTiming[] runs = [.. Enumerable.Range(0, Rounds).Select(_ => run())];
        return new(runs.Min(each => each.WallMs), runs.Min(each => each.CpuMs), runs.Max(each => each.PeakMb));
    }
}
