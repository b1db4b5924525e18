using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Drawing;
using Undercroft.Forecasts.Story;
using Undercroft.Ledger;
using Undercroft.Physics.Air;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Forecasts.Comparing;

/// <summary>What the ways out of a package pass at most, in the very draws of its forecast: good and bad closures, over the horizon.</summary>
/// <remarks>
/// Oxygen with none left inside, so that no assumed appetite of the leaf enters; water for a fixed difference of 20 points of humidity. Both at the mean temperature of
/// the place, per gram of leaf as packed. Breathing by temperature and weather is left out: it adds little where a path counts at all.
/// </remarks>
internal static class Supply
{
    private const double PointsOfHumidity = 0.20;
    private const double SecondsPerYear = 365.25 * 86400;

    /// <summary>Oxygen in ml (20 °C, one atmosphere) and water in mg, per gram and year.</summary>
    /// <param name="cellar">With the one package.</param>
    /// <param name="package">Which.</param>
    /// <param name="ask">Horizon, draws, seed.</param>
    /// <param name="each">Leaf in it.</param>
    public static (Spot Oxygen, Spot Water) Of(Cellar cellar, Package package, ForecastAsk ask, Mass each)
    {
        var story = PackageStory.Of(cellar, package, ask.Today);
        var end = PlaceBelief.TodayIndex + Grid.Of(ask.Years)[^1];
        var drawn = CourseDraws.Of(cellar, story, ask, new SeededDraws(ask.Seed, ask.Draws), PlaceBelief.TodayIndex, end, withGas: true);
        var stay = drawn.Stays[^1];
        var place = PlaceBelief.Of(cellar, story.Chapters[^1].Place);
        var at = Temperature.FromCelsius(place.MeanCelsius);
        var oxygen = Flows(stay, ask.Draws, end, at, path => path.Oxygen, path => path.Median.Oxygen);
        var water = Flows(stay, ask.Draws, end, at, path => path.Water, path => path.Median.Water);
        var toMillilitres = RoomAir.Ordinary.Oxygen * place.Pressure.Pascals * SecondsPerYear * PhysicalConstants.GasConstant * 293.15 / 101325 * 1e6 / each.Grams;
        var toMilligrams = PointsOfHumidity * SaturationPressure.OverWater(at).Pascals * SecondsPerYear * PhysicalConstants.MolarMassOfWater * 1e6 / each.Grams;
        return (Quantiles(oxygen, toMillilitres), Quantiles(water, toMilligrams));
    }

    private static double[] Flows(Stay stay, int draws, int end, Temperature at, Func<PathDraws, PerDraw> factor, Func<PathDraws, Conductance> median)
    {
        var flows = new double[draws];
        foreach (var path in stay.Paths)
        {
            var middle = ArrheniusFactor.At(at, median(path));
            for (var i = 0; i < draws; i++)
                flows[i] += middle * factor(path)[i] * Math.Clamp((end - path.FromDay[i]) / (end - stay.FromDay), 0, 1);
        }

        return flows;
    }

    private static Spot Quantiles(double[] flows, double unit)
    {
        Span<double> three = stackalloc double[3];
        Quantile.Of(flows, [0.05, 0.5, 0.95], three);
        return new(three[0] * unit, three[1] * unit, three[2] * unit);
    }
}
