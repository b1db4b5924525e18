using Undercroft.Physics.Air;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Believing;

/// <summary>Beliefs about water, humidity and what holds them.</summary>
internal static class WaterBeliefs
{
    private static readonly Moisture Usual = Moisture.FromWetBasisPercent(15);
    private const double SilicaTakes = 0.25; // of its mass, from memory
    private const double WetFilm = 0.05e-3; // m of water left on a washed jar, assumption

    public static IReadOnlyList<Belief> All { get; } =
    [
        new("open-to-check",
            "Opening to check dries the leaf.",
            "Each opening swaps the air, and air inside is moister.",
            "Air holds milligrams, leaf grams. What is lost is aroma and the atmosphere that built up: look through glass, weigh, or open a sample jar.",
            lab => [new("one opening of half a litre", null, AirWater(lab, 0.5e-3), "mg of water"), new("a hundred openings, of 50 g of leaf", null, 100 * AirWater(lab, 0.5e-3) / 1000 / 50 * 100, "points of moisture")]),
        new("half-empty-jar",
            "A half-empty jar dries the leaf.",
            "The air in it takes up some water.",
            "Drying needs exchange. What changes is oxygen per gram.",
            _ =>
            {
                var held = 50.0 * Lab.Moist("mixture", Lab.LeafHumidity) / 100;
                var room = Temperature.FromCelsius(20);
                var inAir = 1000 * Lab.LeafHumidity * SaturationPressure.OverWater(room).Pascals * 1e-3 * PhysicalConstants.MolarMassOfWater * 1000 / (PhysicalConstants.GasConstant * room.Kelvin);
                double Oxygen(double grams) => (1000 - LeafVolume.Of(Mass.FromGrams(grams), Moisture.FromWetBasisPercent(15)).Millilitres) * PhysicalConstants.OxygenInDryAir / grams;
                return
                [
                    new("water in a litre of air at 65 %", null, inAir, "mg"),
                    new("water in 50 g of leaf", null, held * 1000, "mg"),
                    new("oxygen for each gram: 50 g in a litre over 220 g in it", 1, Oxygen(50) / Oxygen(220), ""),
                ];
            }),
        new("seventy-percent",
            "Humidity of 70 %, as for cigars.",
            "Supple leaf feels good.",
            "At 70 % mould grows on tobacco in about half a year (published, Mutasa 1990), and pipe leaf is meant for 13 to 18 %.",
            _ => [new("moisture of mixed leaf at 70 %", null, Lab.Moist("mixture", 0.70), "% wet basis"), new("moisture of flue-cured leaf at 70 %", null, Lab.Moist("flue-cured", 0.70), "% wet basis")]),
        new("twenty-percent",
            "20 % moisture means too wet (or: is as it should be).",
            "For plain leaf it is too wet to store.",
            "Leaf and casing decide: humectant holds water at a lower humidity, and an oven counts other volatiles as water. Read the humidity inside.",
            _ => [new("humidity over burley at 20 %", null, Lab.Balance("burley", 20), "%"), new("humidity over flue-cured leaf at 20 %", null, Lab.Balance("flue-cured", 20), "%"), new("humidity over a treated blend at 20 %", null, Lab.Balance("aromatic", 20), "%")]),
        new("room-humidity",
            "The room's humidity is the leaf's.",
            "In a bad bag it soon is.",
            "In sound glass it has no say for decades.",
            lab =>
            [
                new("way to the room's balance within ten years, zip bag", 100, Approached(lab, "bag-zip"), "%"),
                new("way to the room's balance within ten years, glass jar", 100, Approached(lab, "jar-473"), "%"),
            ]),
        new("humidity-pack",
            "A humidity pack protects from leaks.",
            "It evens out for a while.",
            "It holds grams and hides a leak until it is spent; it may also wet leaf that was meant drier. Weigh the pack.",
            lab =>
            [
                new("pack of 8 g in a zip bag", null, PackKinds.Find("pack-62-8")!.MonthsAgainst(Mass.FromGrams(lab.LossPerYear("bag-zip") / 12)), "months until spent"),
                new("pack of 8 g against a leak of 0.5 g a month", null, PackKinds.Find("pack-62-8")!.MonthsAgainst(Mass.FromGrams(0.5)), "months until spent"),
                new("pack of 60 g in a zip bag", null, PackKinds.Find("pack-62-60")!.MonthsAgainst(Mass.FromGrams(lab.LossPerYear("bag-zip") / 12)), "months until spent"),
            ]),
        new("desiccant",
            "A drying agent protects leaf.",
            "It keeps mould away.",
            "By taking the water that one wants. Keep it from children and pets.",
            _ => [new("50 g at 15 % after 10 g of silica gel", 15, After(50, -10 * SilicaTakes), "% moisture")]),
        new("sterilise",
            "Sterilise everything.",
            "Clean matters.",
            "Leaf is not sterile; dry matters more. A jar put away wet adds water.",
            _ => [new("water that a wet film of 0.05 mm in a jar of 473 ml adds to 100 g", 0, After(100, WetFilm * InnerWall(ContainerKinds.Find("jar-473")!.Capacity.CubicMetres) * 1e6) - Usual.WetBasisPercent, "points of moisture")]),
        new("water-first",
            "Add water before ageing.",
            "Bone-dry leaf hardly changes.",
            "Factory moisture is usually at the upper end already: three points more are mould's ground.",
            _ => [new("humidity over mixed leaf at 15 %", null, Lab.Balance("mixture", 15), "%"), new("humidity over mixed leaf at 18 %", null, Lab.Balance("mixture", 18), "%")]),
        new("grams-are-grams",
            "Grams are grams.",
            "On one day, of one blend.",
            "Water is weight: count and trade on dry mass, or state the moisture.",
            _ => [new("100 g at 22 %, dried to 12 %", 100, 100 * (1 + Moisture.FromWetBasisPercent(12).DryBasis) / (1 + Moisture.FromWetBasisPercent(22).DryBasis), "g, and nothing but water is gone")]),
    ];

    /// <summary>Moisture of leaf of 15 % after taking up water, wet basis percent; both in grams.</summary>
    private static double After(double leaf, double water)
    {
        var dry = leaf / (1 + Usual.DryBasis);
        return new Moisture((leaf + water - dry) / dry).WetBasisPercent;
    }

    /// <summary>Wall and bottom of a cylinder as high as it is wide (assumption), m², that holds so many m³.</summary>
    private static double InnerWall(double cubicMetres)
    {
        var width = Math.Cbrt(4 * cubicMetres / Math.PI);
        return Math.PI * width * width * 1.25;
    }

    private static double AirWater(Lab lab, double cubicMetres) =>
        cubicMetres * lab.Drive * PhysicalConstants.MolarMassOfWater * 1e6 / (PhysicalConstants.GasConstant * lab.At.Kelvin);

    private static double Approached(Lab lab, string code)
    {
        var start = Moisture.FromWetBasisPercent(15);
        var room = RelativeHumidity.FromPercent(lab.Place.MeanHumidity);
        var end = SorptionShift.MoistureAt(Lab.Leaf, room, lab.At).DryBasis;
        var now = HoldingTime.After(3652.5, Lab.Leaf, Mass.FromGrams(85), start, HoldingTime.WaterConductance(ContainerKinds.Find(code)!.Paths, lab.At), lab.At, room).DryBasis;
        return 100 * (start.DryBasis - now) / (start.DryBasis - end);
    }
}
