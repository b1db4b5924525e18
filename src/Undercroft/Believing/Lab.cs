using Undercroft.Forecasts;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Comparing;
using Undercroft.Ledger;
using Undercroft.Physics.Air;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Believing;

/// <summary>Where beliefs are examined: mixed leaf in one place, with the same engine that answers everything else.</summary>
/// <param name="cellar">Whose places.</param>
/// <param name="today">The present.</param>
/// <param name="place">A place of the cellar or a kind of room; null for a cupboard.</param>
internal sealed class Lab(Cellar cellar, DateOnly today, string? place)
{
    private const int Draws = 64;
    private readonly Dictionary<string, KindOutcome> compared = [];
    private PlaceBelief? where;

    /// <summary>Leaf, and the humidity that it is in balance with.</summary>
    public const double LeafHumidity = 0.65;

    /// <summary>Of mixed leaf at 22 °C.</summary>
    public static Isotherm Leaf => LeafKinds.Find("mixture")!.Isotherm;

    /// <summary>The place.</summary>
    public PlaceBelief Place => where ??= PlaceOf();

    /// <summary>Its mean temperature.</summary>
    public Temperature At => Temperature.FromCelsius(Place.MeanCelsius);

    /// <summary>Saturation pressure there, Pa.</summary>
    public double Saturation => SaturationPressure.OverWater(At).Pascals;

    /// <summary>Vapour pressure difference between leaf at 65 % and the room, Pa.</summary>
    public double Drive => Math.Max(1, (LeafHumidity - (Place.MeanHumidity / 100)) * Saturation);

    /// <summary>A hundred grams (or a tin's fifty) over ten years in a kind, good and bad closures.</summary>
    public KindOutcome In(string code, double grams = 100)
    {
        var key = FormattableString.Invariant($"{code} {grams}");
        if (!compared.TryGetValue(key, out var outcome))
        {
            var question = LotQuestion.At(cellar, place ?? "cupboard", Mass.FromGrams(grams), null, null, 0.15);
            outcome = Comparer.Of(cellar, question, [code], new ForecastAsk(today, 10, Draws) { WithNarrowing = false, WaterOnly = true })[0];
            compared[key] = outcome;
        }

        return outcome;
    }

    /// <summary>Water that a sound middle specimen loses in a year here, g.</summary>
    public double LossPerYear(string code) =>
        HoldingTime.WaterConductance(ContainerKinds.Find(code)!.Paths, At) * Drive * PhysicalConstants.MolarMassOfWater * 1000 * 365.25 * 86400;

    /// <summary>Moisture of leaf in balance with a humidity, wet basis percent.</summary>
    public static double Moist(string leaf, double humidity) => LeafKinds.Find(leaf)!.Isotherm.MoistureAt(new WaterActivity(humidity)).WetBasisPercent;

    /// <summary>Humidity in balance with leaf of a moisture, percent.</summary>
    public static double Balance(string leaf, double percent) => 100 * LeafKinds.Find(leaf)!.Isotherm.ActivityAt(Moisture.FromWetBasisPercent(percent)).Fraction;

    private PlaceBelief PlaceOf()
    {
        var question = LotQuestion.At(cellar, place ?? "cupboard", Mass.FromGrams(100), null, null, null);
        var asked = new ShelfQuestion("jar-473", Room: question.Room, Place: question.Place).ToCellar(today, cellar);
        return PlaceBelief.Of(asked, asked.Here.Single().Place);
    }
}
