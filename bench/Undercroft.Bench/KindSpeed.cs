using System.Diagnostics;
using System.Globalization;
using Undercroft.Forecasts;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Drawing;
using Undercroft.Forecasts.Story;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Bench;

/// <summary>What the gas of every kind of the catalogue costs to follow, a draw at a time: rigid ones beside those that give way or let air flow.</summary>
internal static class KindSpeed
{
    private const int Draws = 256;
    private static readonly DateOnly Today = new(2026, 5, 16);

    /// <summary>Arguments: codes of kinds; without any, all. One line each: what it is, µs of CPU a draw over ten and thirty years, best of several rounds.</summary>
    public static int Run(string[] codes)
    {
        var kinds = codes.Length == 0 ? ContainerKinds.All : [.. codes.Select(code => ContainerKinds.Find(code) ?? throw new ArgumentException($"No kind {code}."))];
        Console.WriteLine("kind | sort | 10 years, µs a draw | 30 years, µs a draw");
        foreach (var kind in kinds)
        {
            var (ten, thirty) = (Best(Of(kind, 10)), Best(Of(kind, 30)));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kind.Code} | {Sort(kind)} | {ten:0} | {thirty:0}"));
        }

        return 0;
    }

    private static string Sort(ContainerKind kind)
    {
        var flows = kind.Paths.Append(kind.Failure.WhenFailed).Any(path => path.Median.Viscous > 0);
        return (kind.Flexible ? "gives way" : "rigid") + (flows ? ", air flows" : "") + (kind.ResidualPressure is null ? "" : ", evacuated");
    }

    /// <summary>A package of the kind, closed today: the course that a forecast with its gas runs.</summary>
    private static Course Of(ContainerKind kind, int years)
    {
        var cellar = new ShelfQuestion(kind.Code, "burley", Mass.FromGrams(50), 0.15, "cupboard").ToCellar(Today);
        var story = PackageStory.Of(cellar, cellar.Here.Single(), Today);
        var end = PlaceBelief.TodayIndex + (365 * years);
        var drawn = CourseDraws.Of(cellar, story, new ForecastAsk(Today, years, Draws), new SeededDraws(1, Draws), PlaceBelief.TodayIndex, end, withGas: true);
        return new(
            Draws, drawn.Leaf.DryKg, drawn.Leaf.Leaf, drawn.Leaf.Moisture, drawn.Stays,
            [.. Enumerable.Range(1, 4 * years).Select(quarter => PlaceBelief.TodayIndex + (int)(quarter * 91.25))], [new Limit.MoistureBelow(0.12)]) { CountsMouldDays = false };
    }

    private static double Best(Course course)
    {
        EnsembleEngine.Run(course);
        var best = double.PositiveInfinity;
        for (var round = 0; round < 5; round++)
        {
            var before = Process.GetCurrentProcess().TotalProcessorTime;
            EnsembleEngine.Run(course);
            best = Math.Min(best, (Process.GetCurrentProcess().TotalProcessorTime - before).TotalMicroseconds);
        }

        return best / Draws;
    }
}
