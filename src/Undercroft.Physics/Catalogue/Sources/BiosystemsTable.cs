using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>
/// [BiosystemsEngineeringTable11_2]: ranges; oxygen and carbon dioxide in cm³·mil/(100 in²·day·atm) at 25 °C, water in g·mil/(100 in²·day) at 38 °C and 90 %.
/// </summary>
public static class BiosystemsTable
{
    private static readonly Evidence Read = new(Provenance.Published, "BiosystemsEngineeringTable11_2", "range as printed; the middle used is geometric");

    /// <summary>All rows used.</summary>
    public static IReadOnlyList<MaterialValue> Values { get; } =
    [
        .. Row("ldpe", "low-density polyethylene", (300, 600), (1200, 3000), (1, 2), 0.3),
        .. Row("hdpe", "high-density polyethylene", (100, 250), (350, 600), (0.3, 0.6), 0.7),
        .. Row("pp", "polypropylene, unoriented", (150, 250), (500, 800), (0.6, 0.7), 0.3),
        .. Row("opp", "polypropylene, oriented", (100, 160), (300, 540), (0.2, 0.5), 0.3),
        .. Row("pet", "polyester", (3, 6), (15, 25), (1, 2), 0.3),
        .. Row("pvc", "rigid PVC", (5, 15), (20, 50), (2, 5), 0.3),
        .. Row("pvc-plasticised", "plasticised PVC (stands for lid compound)", (50, 1500), (200, 8000), (15, 40), 0.9),
        .. Row("pvdc", "PVDC", (0.1, 2), (0.2, 0.5), (0.02, 0.6), 0.7),
        .. Row("pa6", "nylon 6", (2, 3), (10, 12), (10, 20), 0.3),
        .. Row("evoh", "EVOH, dry", (0.0007, 0.1), (0.01, 0.5), null, 0.7),
        .. Row("evoh-wet", "EVOH at 100 % humidity", (0.2, 3), (4, 10), null, 0.7),
        .. Row("ionomer", "ionomer", (300, 450), null, (1.5, 2), 0.3),
        .. Row("eva", "ethylene vinyl acetate", (460, 460), (2800, 2800), (11.5, 11.5), 0.3),
    ];

    private static IEnumerable<MaterialValue> Row(
        string code, string name, (double Low, double High) oxygen, (double Low, double High)? carbonDioxide, (double Low, double High)? water, double logSd)
    {
        yield return Gas(code, name, Permeant.Oxygen, oxygen, logSd);
        if (carbonDioxide is { } range)
            yield return Gas(code, name, Permeant.CarbonDioxide, range, logSd);
        if (water is var (low, high))
        {
            yield return new(code, name, Permeant.Water, Permeability.FromGramMilPer100In2Day(low, WaterTest.Tropical),
                Permeability.FromGramMilPer100In2Day(high, WaterTest.Tropical), Temperature.FromCelsius(38), "38 °C, 90 % RH", logSd, Read);
        }
    }

    private static MaterialValue Gas(string code, string name, Permeant permeant, (double Low, double High) range, double logSd) => new(
        code, name, permeant, Permeability.FromCm3MilPer100In2DayAtm(range.Low), Permeability.FromCm3MilPer100In2DayAtm(range.High),
        Temperature.FromCelsius(25), "25 °C", logSd, Read);
}
