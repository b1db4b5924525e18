using System.Globalization;
using System.Text;
using System.Runtime.Intrinsics;

namespace Undercroft.Bench;

/// <summary>What the benchmark found, on the screen and in the page of the documents that it owns a part of.</summary>
internal sealed class Report
{
    private const string Begin = "<!-- forecast engine: written by the benchmark -->";
    private const string End = "<!-- forecast engine: end -->";
    private readonly StringBuilder text = new();

    public Report() => Say(Machine());

    /// <summary>When and on what.</summary>
    public static string Machine()
    {
        var width = Vector512.IsHardwareAccelerated ? 512 : Vector256.IsHardwareAccelerated ? 256 : 128;
        var load = File.Exists("/proc/loadavg") ? File.ReadAllText("/proc/loadavg").Split(' ')[0] : "unknown";
        return string.Create(CultureInfo.InvariantCulture,
            $"Measured on {TimeProvider.System.GetUtcNow():d MMMM yyyy}, {Processor()}, {Environment.ProcessorCount} processors, vectors of {width} bits, .NET {Environment.Version}; load of the machine as it began: {load}.");
    }

    public void Say(string line)
    {
        Console.WriteLine(line);
        text.AppendLine().AppendLine(line);
    }

    public void Table(string head, IEnumerable<string> lines)
    {
        text.AppendLine();
        Print($"| {head} |");
        Print($"|{string.Concat(Enumerable.Repeat("---|", head.Split('|').Length))}");
        foreach (var line in lines)
            Print($"| {line} |");

        void Print(string line)
        {
            Console.WriteLine(line);
            text.AppendLine(line);
        }
    }

    /// <summary>Puts it between its marks.</summary>
    public void Write()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Undercroft.slnx")))
            folder = folder.Parent;
        if (folder is null)
            return;
        var page = Path.Combine(folder.FullName, "docs", "performance.md");
        var old = File.ReadAllText(page);
        var (from, to) = (old.IndexOf(Begin, StringComparison.Ordinal), old.IndexOf(End, StringComparison.Ordinal));
        if (from < 0 || to < from)
            throw new InvalidOperationException($"{page} has lost its marks.");
        File.WriteAllText(page, old[..(from + Begin.Length)] + Environment.NewLine + text + Environment.NewLine + old[to..]);
    }

    private static string Processor() => File.Exists("/proc/cpuinfo")
        ? File.ReadLines("/proc/cpuinfo").FirstOrDefault(line => line.StartsWith("model name", StringComparison.Ordinal))?.Split(':')[1].Trim() ?? "unknown processor"
        : "unknown processor";
}
