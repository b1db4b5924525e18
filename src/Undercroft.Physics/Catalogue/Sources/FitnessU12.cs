using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>
/// Course slides on plastic packaging, [FitnessU12]. Slide 18: oxygen in cm³·µm/(m²·day·bar) at 23 °C and 0 % humidity, water in g·µm/(m²·day) at 38 °C and 90 %.
/// The slide prints water "per bar"; the numbers are rates at the 38 °C/90 % difference, as other tables show.
/// </summary>
public static class FitnessU12
{
    private const string Key = "FitnessU12";

    /// <summary>All rows of slide 18.</summary>
    public static IReadOnlyList<MaterialValue> Values { get; } =
    [
        .. Row("ldpe", "low-density polyethylene", 178_000, 178_000, 560, 560, 0.3),
        .. Row("hdpe", "high-density polyethylene", 53_000, 53_000, 145, 145, 0.7),
        .. Row("pp", "polypropylene, cast", 81_000, 81_000, 260, 260, 0.3),
        .. Row("opp", "polypropylene, oriented", 44_000, 44_000, 160, 160, 0.3),
        .. Row("pet", "polyester, oriented", 1_600, 1_600, 800, 800, 0.3),
        .. Row("pvc", "rigid PVC", 3_100, 3_100, 880, 880, 0.3),
        .. Row("pa6", "nylon 6, dry", 2_000, 2_000, 4_300, 4_300, 0.3),
        .. Row("pa66", "nylon 66, dry", 2_000, 2_000, 1_500, 1_500, 0.3),
        .. Row("evoh", "EVOH, dry", 4, 60, 1_300, 3_400, 0.7),
        .. Row("pvdc", "PVDC", 15, 250, 10, 80, 0.7),
        .. Row("mxd6", "nylon MXD6", 250, 250, 2_000, 2_000, 0.3),
        .. Row("cellulose", "cellulose film", 440, 440, 13_700, 13_700, 0.3),
    ];

    /// <summary>Slide 22 (ii), a nylon/polyethylene laminate by its class: water in g/(m²·day) at 23 °C and 85 %.</summary>
    public const double LaminateWater = 1.6;

    /// <summary>Slide 22 (ii): oxygen in cm³/(m²·day·bar) at 23 °C, 75 % humidity.</summary>
    public const double LaminateOxygen = 55;

    /// <summary>Slide 22 (ii): oxygen at 4 °C, 80 % humidity.</summary>
    public const double LaminateOxygenCold = 10;

    /// <summary>Slide 22 (ii): carbon dioxide at 23 °C, 75 % humidity.</summary>
    public const double LaminateCarbonDioxide = 270;

    /// <summary>Slide 22 (i), another such laminate at 23 °C and 35 %: nitrogen over oxygen, 15 over 25.</summary>
    public const double LaminateNitrogenOverOxygen = 15.0 / 25.0;

    private static IEnumerable<MaterialValue> Row(string code, string name, double o2Low, double o2High, double waterLow, double waterHigh, double logSd)
    {
        var evidence = new Evidence(Provenance.Published, Key, "slide 18, flattened text: pairs checked against two other tables");
        yield return new(code, name, Permeant.Oxygen, Permeability.FromCm3MicrometrePerM2DayBar(o2Low), Permeability.FromCm3MicrometrePerM2DayBar(o2High),
            Temperature.FromCelsius(23), "23 °C, 0 % RH", logSd, evidence);
        yield return new(code, name, Permeant.Water, Permeability.FromGramMicrometrePerM2Day(waterLow, WaterTest.Tropical),
            Permeability.FromGramMicrometrePerM2Day(waterHigh, WaterTest.Tropical), Temperature.FromCelsius(38), "38 °C, 90 % RH", logSd, evidence);
    }
}
