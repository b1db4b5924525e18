using System.Diagnostics;
using System.Globalization;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Bench;

/// <summary>How long a cellar's forecast takes: packages × draws × years in four periodic places, quarterly rows and their exact quantiles.</summary>
internal static class ForecastEnsemble
{
    private const double R = PhysicalConstants.GasConstant;

    /// <summary>Arguments: packages, draws, years, rounds; without any the table of docs/performance.md is printed.</summary>
    public static int Run(string[] args)
    {
        if (args.Length > 0)
        {
            int Number(int place, int otherwise) => args.Length > place ? int.Parse(args[place], CultureInfo.InvariantCulture) : otherwise;
            var (packages, draws, years) = (Number(0, 20), Number(1, 256), Number(2, 30));
            for (var round = Number(3, 5); round > 0; round--)
                Console.WriteLine(Line(packages, draws, years, rounds: 1, warm: false));
            return 0;
        }

        Console.WriteLine("| packages | draws | years | wall, s | CPU, s | CPU a trajectory, µs |");
        Console.WriteLine("|---|---|---|---|---|---|");
        foreach (var (packages, draws, years) in new[] { (16, 256, 30), (64, 256, 30), (256, 256, 30), (16, 1024, 30), (16, 4096, 30), (16, 256, 7), (16, 256, 120) })
            Console.WriteLine(Line(packages, draws, years, rounds: 3, warm: true));
        Anchor();
        return 0;
    }

    private static string Line(int packages, int draws, int years, int rounds, bool warm)
    {
        if (warm)
            Forecast(packages, Math.Min(draws, 64), years);
        List<(double Wall, double Cpu)> measured = [];
        for (var round = 0; round < rounds; round++)
        {
            using var process = Process.GetCurrentProcess();
            var (wall, cpu) = (Stopwatch.StartNew(), process.TotalProcessorTime);
            Forecast(packages, draws, years);
            process.Refresh();
            measured.Add((wall.Elapsed.TotalSeconds, (process.TotalProcessorTime - cpu).TotalSeconds));
        }

        var (time, used) = (measured.Select(each => each.Wall).Order().ElementAt(rounds / 2), measured.Select(each => each.Cpu).Order().ElementAt(rounds / 2));
        return string.Create(
            CultureInfo.InvariantCulture, $"| {packages} | {draws} | {years} | {time:0.00} | {used:0.00} | {used / packages / draws * 1e6:0.0} |");
    }

    /// <summary>The fine engine on the middle specimens of the same packages: its time, and how far the ensemble engine is from it.</summary>
    private static void Anchor()
    {
        const int Packages = 12;
        const int Years = 30;
        var days = Enumerable.Range(1, Years * 4).Select(quarter => (int)(quarter * 91.25)).ToArray();
        var (fine, moisture, oxygen, carbonDioxide, total) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (var p = 0; p < Packages; p++)
        {
            var climate = Climates[p % 4];
            var (course, model) = Middle(p, ClimateTable.Daily(climate, 365), Years, days);
            var fast = EnsembleEngine.Run(course);
            var cpu = Stopwatch.StartNew();
            var start = PackageState.Sealed(model, new(course.StartMoisture[0]), Enumerable.Range(0, 24).Average(hour => climate.At(hour / 24.0).Kelvin), new(climate.Pascals));
            var rows = FineEngine.Run(model, start, climate, [.. days.SelectMany(day => Enumerable.Range(0, 24).Select(hour => day + ((hour + 0.5) / 24)))]).Rows;
            fine += cpu.Elapsed.TotalSeconds;
            for (var row = 0; row < days.Length; row++)
            {
                var hours = rows.Skip(row * 24).Take(24).ToArray();
                moisture = Math.Max(moisture, 100 * Math.Abs(hours.Average(hour => hour.Moisture.WetBasis) - fast.MoistureWetBasis[row][0]));
                oxygen = Math.Max(oxygen, Math.Abs(hours.Average(hour => hour.Oxygen.Pascals) - fast.Oxygen[row][0]) / 1000);
                carbonDioxide = Math.Max(carbonDioxide, Math.Abs(hours.Average(hour => hour.CarbonDioxide.Pascals) - fast.CarbonDioxide[row][0]) / 1000);
                total = Math.Max(total, Math.Abs(hours.Average(hour => hour.Total.Pascals) - fast.Total[row][0]) / 1000);
            }
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"\nFine engine, one thread, the day's swing resolved: {fine / Packages * 1e3:0} ms a trajectory of {Years} years."));
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"Largest distance of the ensemble engine from it over {Packages} packages: moisture {moisture:0.0000} points, oxygen {oxygen:0.0000} kPa, carbon dioxide {carbonDioxide:0.0000} kPa, total {total:0.0000} kPa."));
    }

    private static readonly SinusoidClimate[] Climates =
    [
        new(12, 4, 1, -1.8, 0.6, 0.08, 1), new(21, 3, 2, -1.8, 0.45, 0.1, 1), new(15, 8, 5, -1.8, 0.5, 0.12, 1), new(20, 8, 4, -2.2, 0.5, 0.15, 0.2),
    ];

    private static double Forecast(int packages, int draws, int years)
    {
        var places = Climates.Select(each => ClimateTable.Daily(each, 365)).ToArray();
        var days = Enumerable.Range(1, years * 4).Select(quarter => (int)(quarter * 91.25)).ToArray();
        var sums = new double[packages];
        Parallel.For(0, packages, p => sums[p] = Package(p, draws, years, places[p % 4], days));
        return sums.Sum();
    }

    private static double Package(int number, int draws, int years, ClimateTable place, int[] days)
    {
        Random random = new(number);
        double[] LogNormal(double sd) => [.. Enumerable.Range(0, draws).Select(_ => Math.Exp(sd * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(Math.Tau * random.NextDouble())))];
        var (course, _) = Middle(number, place, years, days);
        var stay = course.Stays[0];
        stay = stay with
        {
            Paths = [new(stay.Paths[0].Median, LogNormal(0.5), LogNormal(0.5), LogNormal(0.5), LogNormal(0.5), 1, double.NegativeInfinity)],
            Uptake = stay.Uptake with { Rate = LogNormal(0.5).Select(each => each * 1e-3 / 86400).ToArray() },
        };
        var bands = EnsembleEngine.Bands(course with { Draws = draws, Stays = [stay] }, [0.05, 0.5, 0.95], withActivity: false);
        var sum = bands.MoistureWetBasis.Quantiles[1].Sum() + bands.Oxygen.Quantiles[1].Sum() + bands.CarbonDioxide.Quantiles[1].Sum() + bands.Total.Quantiles[1].Sum();
        return sum;
    }

    /// <summary>The middle specimen of a package, from a bag of ten days to a jar of two hundred years.</summary>
    private static (Course Course, PackageModel Model) Middle(int number, ClimateTable place, int years, int[] days)
    {
        Random random = new(number + 1_000_000);
        double Spread(double low, double high) => low * Math.Pow(high / low, random.NextDouble());
        var (dry, volume) = (Spread(0.02, 0.2), Spread(2e-5, 5e-4));
        var oxygen = volume / (R * 296.15 * Spread(0.1, 10_000) * 86400);
        var water = dry * 0.3 / (Spread(10, 70_000) * 86400 * 2300 * PhysicalConstants.MolarMassOfWater);
        ExchangePath path = new(
            "path", new(water, Spread(20_000, 45_000)), new(oxygen, Spread(20_000, 50_000)), new(4 * oxygen, Spread(20_000, 50_000)), new(0.3 * oxygen, Spread(20_000, 50_000)));
        GabIsotherm leaf = new(Spread(0.06, 0.11), Spread(3, 20), 0.86, 0);
        Stay stay = new(
            0, years * 365, place, new HeadspaceDraws.Rigid(volume), [PathDraws.Of(path, 1)],
            new(1e-3 / 86400, 296.15, 2, 0.9, UptakeBasis.PerMole, PerKilogram: false), RoomAir.Ordinary, [CourseEvent.Sealed.InTheRoom]);
        Course course = new(1, dry, [leaf], leaf.MoistureAt(new(0.62)).DryBasis, [stay], days, [new Limit.MoistureBelow(0.12)]);
        PackageModel model = new(
            new(dry), leaf, new Headspace.Rigid(new(volume)), [path], new(1e-3 / 86400, 296.15, 2, 0.9, UptakeBasis.PerMole), RoomAir.Ordinary);
        return (course, model);
    }
}
