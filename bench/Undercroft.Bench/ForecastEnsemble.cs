using System.Diagnostics;
using System.Globalization;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Bench;

/// <summary>How long a cellar's forecast takes: packages × draws × years in four periodic places, quarterly rows and their exact quantiles.</summary>
internal static class ForecastEnsemble
{
    private const double R = PhysicalConstants.GasConstant;

    public static int Run(string[] args)
    {
        var packages = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 20;
        var draws = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 256;
        var years = args.Length > 2 ? int.Parse(args[2], CultureInfo.InvariantCulture) : 30;
        for (var round = 0; round < 5; round++)
        {
            using var process = Process.GetCurrentProcess();
            var (wall, cpu) = (Stopwatch.StartNew(), process.TotalProcessorTime);
            var checksum = Forecast(packages, draws, years);
            process.Refresh();
            var used = (process.TotalProcessorTime - cpu).TotalSeconds;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"round {round}: wall {wall.Elapsed.TotalSeconds:0.000} s, cpu {used:0.000} s, {used / packages / draws * 1e6:0.0} µs a trajectory, checksum {checksum:R}"));
        }

        return 0;
    }

    private static double Forecast(int packages, int draws, int years)
    {
        SinusoidClimate[] climates =
        [
            new(12, 4, 1, -1.8, 0.6, 0.08, 1), new(21, 3, 2, -1.8, 0.45, 0.1, 1), new(15, 8, 5, -1.8, 0.5, 0.12, 1), new(20, 8, 4, -2.2, 0.5, 0.15, 0.2),
        ];
        var places = climates.Select(each => ClimateTable.Daily(each, 365)).ToArray();
        var days = Enumerable.Range(1, years * 4).Select(quarter => (int)(quarter * 91.25)).ToArray();
        var sums = new double[packages];
        Parallel.For(0, packages, p => sums[p] = Package(p, draws, years, places[p % 4], days));
        return sums.Sum();
    }

    private static double Package(int number, int draws, int years, ClimateTable place, int[] days)
    {
        var random = new Random(number);
        double Spread(double low, double high) => low * Math.Pow(high / low, random.NextDouble());
        double[] LogNormal(double sd) => [.. Enumerable.Range(0, draws).Select(_ => Math.Exp(sd * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(Math.Tau * random.NextDouble())))];
        var dry = Spread(0.02, 0.2);
        var volume = Spread(2e-5, 5e-4);
        var oxygen = volume / (R * 296.15 * Spread(0.1, 10_000) * 86400);
        var water = dry * 0.3 / (Spread(10, 70_000) * 86400 * 2300 * PhysicalConstants.MolarMassOfWater);
        ExchangePath path = new("path", new(water, Spread(20_000, 45_000)), new(oxygen, Spread(20_000, 50_000)), new(4 * oxygen, Spread(20_000, 50_000)), new(0.3 * oxygen, Spread(20_000, 50_000)));
        Stay stay = new(
            0, years * 365, place, new HeadspaceDraws.Rigid(volume),
            [new(path, LogNormal(0.5), LogNormal(0.5), LogNormal(0.5), LogNormal(0.5), 1, double.NegativeInfinity)],
            new((PerDraw)LogNormal(0.5).Select(each => each * 1e-3 / 86400).ToArray(), 296.15, 2, 0.9, UptakeBasis.PerMole, PerKilogram: false),
            RoomAir.Ordinary, [CourseEvent.Sealed.InTheRoom]);
        var leaf = new GabIsotherm(Spread(0.06, 0.11), Spread(3, 20), 0.86, 0);
        var result = EnsembleEngine.Run(new(
            draws, dry, [leaf], leaf.MoistureAt(new(0.62)).DryBasis, [stay], days, [new Limit.MoistureBelow(0.12)]));
        Span<double> three = stackalloc double[3];
        var sum = 0.0;
        for (var row = 0; row < days.Length; row++)
        {
            foreach (var field in (ReadOnlySpan<double[][]>)[result.MoistureWetBasis, result.Oxygen, result.CarbonDioxide, result.Total])
            {
                Quantile.Of(field[row], [0.05, 0.5, 0.95], three);
                sum += three[1];
            }
        }

        return sum;
    }
}
