using System.Globalization;
using System.Text;
using Undercroft.Ledger;

namespace Undercroft.Bench;

/// <summary>How fast the ledger is, against SQLite alone: <c>-- ledger</c> prints the section of <c>docs/performance.md</c>, <c>-- ledger FILE</c> puts it there.</summary>
internal static class LedgerSpeed
{
    private const string From = "<!-- ledger: from here -->";
    private const string To = "<!-- ledger: to here -->";
    private static readonly int[] Sizes = [400, 25_000, 100_000, 400_000];
    private static readonly int[] Readings = [250_000, 1_000_000, 4_000_000];

    internal static async Task<int> Run(string[] args)
    {
        var root = Directory.CreateTempSubdirectory("undercroft-bench-").FullName;
        try
        {
            var section = await Section(root);
            Console.WriteLine(section);
            if (args is [var file])
                Put(file, section, From, To);
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
        text.AppendLine("| lines | `undercroft totals`, the whole process: wall, CPU | opened and folded in a process that did so before: wall, CPU | CPU a line, whole process |");
        text.AppendLine("|---|---|---|---|");
        var appended = root;
        foreach (var size in Sizes)
        {
            var folder = await LedgerOpening.Made(root, size);
            appended = folder.Path;
            var fresh = Best([.. Enumerable.Range(0, 5).Select(_ => Fresh(folder.Path))]);
            await LedgerOpening.OpenAndFold(folder);
            var again = Best([await LedgerOpening.OpenAndFold(folder), await LedgerOpening.OpenAndFold(folder), await LedgerOpening.OpenAndFold(folder)]);
            Add($"| {size} | {fresh.WallMs:0} ms, {fresh.CpuMs:0} ms | {again.WallMs:0} ms, {again.CpuMs:0} ms | {1000 * fresh.CpuMs / size:0.0} µs |");
        }

        var (ours, bare) = (await LedgerOpening.Appends(DataFolder.Existing(appended), 400), await LedgerOpening.BareAppends(root, 400));
        text.AppendLine("");
        text.AppendLine("| one durable append | median | 95 % |");
        text.AppendLine("|---|---|---|");
        Add($"| to a ledger of {Sizes[^1]} lines | {ours[200]:0.00} ms | {ours[380]:0.00} ms |");
        Add($"| bare prepared insert | {bare[200]:0.00} ms | {bare[380]:0.00} ms |");
        text.AppendLine("");
        text.AppendLine("| lines in one append | CPU | bare prepared insert, CPU | ratio |");
        text.AppendLine("|---|---|---|---|");
        foreach (var size in Sizes)
        {
            var (all, plain) = await LedgerOpening.Together(root, size);
            Add($"| {size} | {all.CpuMs:0} ms | {plain.CpuMs:0} ms | {all.CpuMs / plain.CpuMs:0.0} |");
        }

        text.AppendLine("");
        text.AppendLine("| readings | import with its line: wall, CPU | bare prepared insert: wall, CPU | ratio of CPU | read back as one array: wall, CPU |");
        text.AppendLine("|---|---|---|---|---|");
        foreach (var size in Readings)
        {
            var (import, plain, back) = await LedgerReadings.Import(root, size);
            Add($"| {size} | {import.WallMs:0} ms, {import.CpuMs:0} ms | {plain.WallMs:0} ms, {plain.CpuMs:0} ms | {import.CpuMs / plain.CpuMs:0.0} | {back.WallMs:0} ms, {back.CpuMs:0} ms |");
        }

        return text.ToString();

        void Add(FormattableString line) => text.AppendLine(line.ToString(CultureInfo.InvariantCulture));
    }

    private static LedgerTiming Best(LedgerTiming[] runs) => new(runs.Min(run => run.WallMs), runs.Min(run => run.CpuMs), runs.Max(run => run.PeakMb));

    /// <summary>A question that needs the whole ledger, asked of the program as it is built: start, open, fold, answer.</summary>
    private static LedgerTiming Fresh(string path) => ProgramRun.Of("totals", "--data", path, "--json");

    /// <summary>Replaces what stands between two marks of a file.</summary>
    internal static void Put(string file, string section, string begin, string end)
    {
        var text = File.ReadAllText(file);
        var (from, to) = (text.IndexOf(begin, StringComparison.Ordinal), text.IndexOf(end, StringComparison.Ordinal));
        if (from < 0 || to < from)
            throw new InvalidOperationException($"{file} has no place for it between '{begin}' and '{end}'.");
        File.WriteAllText(file, text[..(from + begin.Length)] + "\n" + section + text[to..]);
    }
}
