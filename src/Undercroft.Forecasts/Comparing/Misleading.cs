using System.Globalization;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Physics.Air;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Comparing;

/// <summary>Three sentences on why one transmission number says little, with the numbers of the comparison at hand.</summary>
internal static class Misleading
{
    /// <summary>Written for this place and these kinds.</summary>
    /// <param name="outcomes">As compared.</param>
    /// <param name="place">Where.</param>
    public static IReadOnlyList<string> Sentences(IReadOnlyList<KindOutcome> outcomes, PlaceBelief place) => [Climate(outcomes, place), Ranking(outcomes), Closure(outcomes)];

    private static string Climate(IReadOnlyList<KindOutcome> outcomes, PlaceBelief place)
    {
        var inside = outcomes[0].Forecast.Activity.P50[0];
        var at = Temperature.FromCelsius(place.MeanCelsius);
        var here = Math.Abs(inside - (place.MeanHumidity / 100)) * SaturationPressure.OverWater(at).Pascals;
        var times = here < 1 ? "any number of" : Number(WaterTest.Tropical.Difference.Pascals / here);
        return $"A data sheet speaks of one gas, one climate and one square metre: its 38 °C and 90 % drive {times} times the water that {Number(place.MeanCelsius)} °C and {Number(place.MeanHumidity)} % around such leaf do, and its pure oxygen {Number(1 / PhysicalConstants.OxygenInDryAir)} times the oxygen of air.";
    }

    /// <summary>The two kinds whose ratios for oxygen and for water lie furthest apart.</summary>
    private static string Ranking(IReadOnlyList<KindOutcome> outcomes)
    {
        var pair = (from one in outcomes
                    from other in outcomes
                    let oxygen = one.OxygenMlPerGYear.P50 / other.OxygenMlPerGYear.P50
                    let water = one.WaterMgPerGYear.P50 / other.WaterMgPerGYear.P50
                    where oxygen > 1 && !ReferenceEquals(one, other)
                    orderby oxygen / water descending
                    select (one, other, oxygen, water)).FirstOrDefault();
        if (pair.one is not null && pair.oxygen / pair.water > 1.5)
        {
            var than = pair.water >= 1 ? $"but only {Number(pair.water)} times the water" : $"but only {Number(100 * pair.water)} % of the water";
            return $"Gases rank differently: per gram of leaf the {pair.one.Kind.Name} lets in {Number(pair.oxygen)} times the oxygen that the {pair.other.Kind.Name} does, {than}.";
        }

        double Ratio(Permeant permeant) => Materials.Find("ldpe", permeant)!.Middle.MolMPerM2SPa / Materials.Find("pa6", permeant)!.Middle.MolMPerM2SPa;
        return $"Gases rank differently: at equal thickness polyethylene passes {Number(Ratio(Permeant.Oxygen))} times the oxygen of nylon, but only {Number(100 * Ratio(Permeant.Water))} % of its water (published).";
    }

    private static string Closure(IReadOnlyList<KindOutcome> outcomes)
    {
        var kind = outcomes.Select(outcome => outcome.Kind).FirstOrDefault(HasFilmAndMore) ?? ContainerKinds.Find("bag-zip")!;
        var film = kind.Paths.Where(IsFilm).Sum(path => path.Median.Water.AtReference);
        var past = kind.Paths.Where(path => !IsFilm(path)).ToArray();
        return $"It leaves out the closure, the size and the luck: in a middle {kind.Name} the {past[0].Median.Name} passes {Number(past.Sum(path => path.Median.Water.AtReference) / film)} times the water of the film, a gram in a small package loses more than a gram in a large one, and one closure in so many is simply bad.";
    }

    private static bool HasFilmAndMore(ContainerKind kind) => kind.Paths.Any(IsFilm) && !kind.Paths.All(IsFilm);

    private static bool IsFilm(PathKind path) => path.Median.Name.StartsWith("film", StringComparison.Ordinal);

    /// <summary>Two significant digits, as much as such a ratio is worth.</summary>
    internal static string Number(double value)
    {
        if (!(value > 0 && double.IsFinite(value)))
            return value.ToString("0", CultureInfo.InvariantCulture);
        var step = Math.Pow(10, Math.Floor(Math.Log10(value)) - 1);
        var rounded = Math.Round(value / step) * step;
        return rounded.ToString(rounded switch { < 0.1 => "0.###", < 10 => "0.#", < 1000 => "0", _ => "#,0" }, CultureInfo.InvariantCulture);
    }
}
