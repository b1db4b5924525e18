using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>[SupplierSheets]: finished laminates as packaging suppliers print them, flat and unflexed; conditions often incomplete. Oxygen cm³/(m²·day·atm), water g/(m²·day) at 38 °C, 90 %.</summary>
public static class SupplierSheets
{
    /// <summary>Metallised polyester 12 µm / adhesive / polyethylene 50 µm: oxygen.</summary>
    public const double MetallisedLaminateOxygen = 0.6;

    /// <summary>The same: water.</summary>
    public const double MetallisedLaminateWater = 0.4;

    /// <summary>Polyester/foil/polyethylene: "below" this much oxygen.</summary>
    public const double FoilLaminateOxygen = 0.006;

    /// <summary>Polyester/foil/polyethylene: "below" this much water.</summary>
    public const double FoilLaminateWater = 0.01;

    /// <summary>What 240 flexes on a test machine did to oxide-coated polyester laminates: oxygen 1.8 to 4.9, and 0.4 to 4.5.</summary>
    public static (double Low, double High) FlexingMultiplies => (4.9 / 1.8, 4.5 / 0.4);

    /// <summary>Plain films of one mil as a supplier prints them, for comparison only: oxygen cm³/(100 in²·day), water g/(100 in²·day); the climate of the tests is not stated, the usual one is taken.</summary>
    public static IReadOnlyList<MaterialValue> Values { get; } =
    [
        .. Mil("ldpe", "low-density polyethylene", null, 0.9), .. Mil("hdpe", "high-density polyethylene", null, 0.37, logSd: 0.7),
        .. Mil("pp", "polypropylene, cast", 150, 1), .. Mil("opp", "polypropylene, oriented", 150, 0.33),
        .. Mil("pet", "polyester, oriented", 4.5, 1.5), .. Mil("pvc", "PVC", 11, 2.3),
        .. Mil("pa6", "nylon 6, oriented", 3, 26.5, logSd: 0.7), .. Mil("pa6", "nylon 6, cast", 3.5, 19, logSd: 0.7),
        .. Mil("evoh", "EVOH", 0.006, 1.4, 0.12, 8.0, 0.7),
    ];

    private static IEnumerable<MaterialValue> Mil(string code, string name, double? oxygen, double water, double? oxygenHigh = null, double? waterHigh = null, double logSd = 0.3)
    {
        var printed = new Evidence(Provenance.Published, "SupplierSheets", "film of one mil; climate not stated, the usual one taken");
        if (oxygen is { } rate)
        {
            yield return new(code, name, Permeant.Oxygen, Permeability.FromCm3MilPer100In2DayAtm(rate), Permeability.FromCm3MilPer100In2DayAtm(oxygenHigh ?? rate),
                Temperature.FromCelsius(23), "climate not stated", logSd, printed);
        }

        yield return new(code, name, Permeant.Water, Permeability.FromGramMilPer100In2Day(water, WaterTest.Tropical), Permeability.FromGramMilPer100In2Day(waterHigh ?? water, WaterTest.Tropical),
            Temperature.FromCelsius(38), "climate not stated", logSd, printed);
    }
}
