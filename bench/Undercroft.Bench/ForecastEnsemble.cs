using System.Diagnostics;
using System.Globalization;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Bench;

/// <summary>How long a cellar's forecast takes, how far it is from the truth, and how an outside solver fares on the same packages.</summary>
internal static class ForecastEnsemble
{
    private static readonly double[] Probabilities = [0.05, 0.5, 0.95];

    /// <summary>Arguments: an ensemble, packages, draws, years, rounds; or "accuracy"; without any the whole table is made and written to docs/performance.md.</summary>
    public static int Run(string[] args)
    {
        (Ensemble Kind, int Packages)[] held = [(Ensemble.E1, 12), (Ensemble.E2, 12), (Ensemble.E3, 24)];
        if (args is ["accuracy"])
        {
            foreach (var (kind, packages) in held)
                Console.WriteLine(Distance(kind, packages));
            return 0;
        }

        if (args.Length > 0)
        {
            int Number(int place, int otherwise) => args.Length > place ? int.Parse(args[place], CultureInfo.InvariantCulture) : otherwise;
            var kind = Enum.Parse<Ensemble>(args[0]);
            for (var round = Number(4, 5); round > 0; round--)
                Console.WriteLine(Line(kind, Number(1, 100), Number(2, 256), Number(3, 30), rounds: 1));
            return 0;
        }

        Report report = new();
        Line(Ensemble.E1, 200, 256, 30, 2);
        report.Table("ensemble | packages | draws | years | wall, s | CPU, s | CPU a trajectory, µs",
        [
            .. new[] { Ensemble.E1, Ensemble.E2, Ensemble.E3 }.SelectMany(kind =>
                new[] { (64, 256, 30), (256, 256, 30), (1024, 256, 30), (64, 1024, 30), (64, 4096, 30), (64, 256, 120) }
                    .Where(size => kind != Ensemble.E3 || size.Item3 <= 30).Select(size => Line(kind, size.Item1, size.Item2, size.Item3, rounds: 3))),
            Line(Ensemble.E1, 1000, 256, 30, 3), Line(Ensemble.E2, 1000, 256, 30, 3), Line(Ensemble.E3, 1000, 256, 30, 3),
        ]);
        var ours = OneThread();
        report.Say($"One thread alone, E1 over 200 packages × 256 draws × 30 years: {ours * 1e6:0.00} µs of CPU a trajectory.");
        report.Table("ensemble | packages held to the fine engine | moisture, points | oxygen, kPa | carbon dioxide, kPa | total, kPa",
            [.. held.Select(each => Distance(each.Kind, each.Packages))]);
        Anchor.Against(report, ours);
        report.Write();
        return 0;
    }

    private static string Line(Ensemble kind, int packages, int draws, int years, int rounds)
    {
        List<(double Wall, double Cpu)> measured = [];
        for (var round = 0; round < rounds; round++)
            measured.Add(Time(kind, packages, draws, years, threads: -1));
        var (wall, cpu) = (measured.Select(each => each.Wall).Order().ElementAt(rounds / 2), measured.Select(each => each.Cpu).Order().ElementAt(rounds / 2));
        return string.Create(CultureInfo.InvariantCulture, $"{kind} | {packages} | {draws} | {years} | {wall:0.00} | {cpu:0.00} | {cpu / packages / draws * 1e6:0.0}");
    }

    private static double OneThread() => Enumerable.Range(0, 3).Select(_ => Time(Ensemble.E1, 200, 256, 30, threads: 1).Cpu / 200 / 256).Order().ElementAt(1);

    /// <summary>Tables, integration, quantiles and first crossings; the draws themselves are made before the clock starts.</summary>
    private static (double Wall, double Cpu) Time(Ensemble kind, int packages, int draws, int years, int threads)
    {
        const int AtOnce = 64; // drawn together, so that memory stays small
        using var process = Process.GetCurrentProcess();
        var (wall, cpu) = (0.0, 0.0);
        var places = Case.Places(kind, years);
        var sums = new double[packages];
        Measured(() => Parallel.ForEach(places, place => EnsembleEngine.Bands(Case.Of(kind, 0, 32, years, place).Course, Probabilities)));
        for (var first = 0; first < packages; first += AtOnce)
        {
            var from = first;
            var cases = new Case[Math.Min(AtOnce, packages - first)];
            Parallel.For(0, cases.Length, p => cases[p] = Case.Of(kind, from + p, draws, years, places[(from + p) % places.Length]));
            Measured(() => Parallel.For(0, cases.Length, new ParallelOptions { MaxDegreeOfParallelism = threads }, p =>
            {
                var bands = EnsembleEngine.Bands(cases[p].Course, Probabilities, withActivity: false);
                sums[from + p] = bands.MoistureWetBasis.Quantiles[1].Sum() + bands.Oxygen.Quantiles[1].Sum() + bands.CarbonDioxide.Quantiles[1].Sum() + bands.Total.Quantiles[1].Sum();
            }));
        }

        return double.IsNaN(sums.Sum()) ? throw new InvalidOperationException("A band is not a number.") : (wall, cpu);

        void Measured(Action work)
        {
            process.Refresh();
            var (clock, used) = (Stopwatch.StartNew(), process.TotalProcessorTime);
            work();
            process.Refresh();
            (wall, cpu) = (wall + clock.Elapsed.TotalSeconds, cpu + (process.TotalProcessorTime - used).TotalSeconds);
        }
    }

    /// <summary>The middle specimens of packages just timed, amid their ensembles, against the fine engine.</summary>
    private static string Distance(Ensemble kind, int packages)
    {
        const int Years = 30;
        var places = Case.Places(kind, Years);
        var worst = new double[4];
        for (var p = 0; p < packages; p++)
        {
            var each = Case.Of(kind, p, 256, Years, places[p % places.Length]);
            var fast = EnsembleEngine.Run(each.Course);
            var fine = Fine(each, each.Course.OutputDays);
            for (var row = 0; row < fine.Length; row++)
            {
                worst[0] = Math.Max(worst[0], 100 * Math.Abs(fine[row][0] - fast.MoistureWetBasis[row][0]));
                worst[1] = Math.Max(worst[1], Math.Abs(fine[row][1] - fast.Oxygen[row][0]) / 1000);
                worst[2] = Math.Max(worst[2], Math.Abs(fine[row][2] - fast.CarbonDioxide[row][0]) / 1000);
                worst[3] = Math.Max(worst[3], Math.Abs(fine[row][3] - fast.Total[row][0]) / 1000);
            }
        }

        return string.Create(CultureInfo.InvariantCulture, $"{kind} | {packages} | {worst[0]:0.0000} | {worst[1]:0.0000} | {worst[2]:0.0000} | {worst[3]:0.0000}");
    }

    /// <summary>Means of the days by the fine engine: moisture on wet basis, oxygen, carbon dioxide, total.</summary>
    internal static double[][] Fine(Case each, IReadOnlyList<int> days)
    {
        const int PerDay = 24;
        var kelvin = Enumerable.Range(0, PerDay).Average(hour => each.Climate.At((hour + 0.5) / PerDay).Kelvin);
        var start = PackageState.Sealed(each.Middle, each.Leaf.MoistureAt(new(each.StartActivity)), kelvin, new(each.Climate.At(0).Pascals));
        var rows = FineEngine.Run(each.Middle, start, each.Climate, [.. days.SelectMany(day => Enumerable.Range(0, PerDay).Select(hour => day + ((hour + 0.5) / PerDay)))]).Rows;
        return [.. rows.Chunk(PerDay).Select(day => new[]
        {
            day.Average(hour => hour.Moisture.WetBasis), day.Average(hour => hour.Oxygen.Pascals), day.Average(hour => hour.CarbonDioxide.Pascals), day.Average(hour => hour.Total.Pascals),
        })];
    }
}
