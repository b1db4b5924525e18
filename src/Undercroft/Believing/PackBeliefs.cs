using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Believing;

/// <summary>Beliefs about films, bags, jars and tins.</summary>
internal static class PackBeliefs
{
    private const double StretchSaid = 150; // cm³/(m²·day), check value of the belief
    private const double BagSaid = 400; // the same

    public static IReadOnlyList<Belief> All { get; } =
    [
        new("stretch-film",
            "Stretch film passes 150 and a polyethylene bag 400 cm³/(m²·day) of oxygen, so stretch film is a small factor better, for oxygen and moisture alike.",
            "Unstretched and per area, a thick wax–polyolefin film passes less oxygen than thin polyethylene.",
            "Closure, thickness, area per gram, which gas, temperature and driving force: on a tin the film is only a band over a seam that leaks past it, drawn to half its thickness; a bag is decided by its zip.",
            lab =>
            {
                var (wrapped, bag) = (lab.In("tin-slip-wrapped", 50), lab.In("bag-zip"));
                var ldpe = Materials.Find("ldpe", Permeant.Oxygen)!.Middle;
                var asThick = ldpe.MolMPerM2SPa / Permeance.FromCm3PerM2DayAtm(BagSaid).MolPerM2SPa * 1e6;
                return
                [
                    new("oxygen per gram: zip bag over wrapped tin", BagSaid / StretchSaid, bag.OxygenMlPerGYear.P50 / wrapped.OxygenMlPerGYear.P50, ""),
                    new("water per gram: zip bag over wrapped tin", BagSaid / StretchSaid, bag.WaterMgPerGYear.P50 / wrapped.WaterMgPerGYear.P50, ""),
                    new("water per area, unstretched: polyethylene of 70 µm over stretch film", BagSaid / StretchSaid,
                        Films.Polyethylene70.Water.Permeance.MolPerM2SPa / Films.Stretch.Water.Permeance.MolPerM2SPa, ""),
                    new("polyethylene that passes 400 would have to be", 70, asThick, "µm thick"),
                ];
            }),
        new("foil-pouch",
            "A foil pouch is two orders of magnitude better than a vacuum pouch.",
            "Flat foil laminate passes that much less, of oxygen even more.",
            "Foil is decided by its heat seal, its creases and by bad seals, and those are no better than the other pouch's.",
            lab =>
            {
                var (foil, vacuum) = (lab.In("pouch-foil"), lab.In("pouch-vacuum"));
                return
                [
                    new("water: vacuum pouch over foil pouch, middle", 100, vacuum.WaterMgPerGYear.P50 / foil.WaterMgPerGYear.P50, ""),
                    new("water: vacuum pouch over foil pouch, the unlucky twentieth", 100, vacuum.WaterMgPerGYear.P95 / foil.WaterMgPerGYear.P95, ""),
                    new("oxygen: vacuum pouch over foil pouch, middle", 100, vacuum.OxygenMlPerGYear.P50 / foil.OxygenMlPerGYear.P50, ""),
                    new("foil pouches dry within ten years", 0, 100 * foil.Forecast.DryDay.Probability, "%"),
                ];
            }),
        new("glass-perfect",
            "Glass is perfect.",
            "The wall is: nothing passes glass.",
            "The lid. Its gasket passes a little oxygen for ever, and some lids never close or let go.",
            lab =>
            {
                var jar = lab.In("jar-473");
                return
                [
                    new("oxygen through the lid", 0, jar.OxygenMlPerGYear.P50 * 100, "ml a year into a jar with 100 g"),
                    new("oxygen, the unlucky twentieth", 0, jar.OxygenMlPerGYear.P95 * 100, "ml a year into a jar with 100 g"),
                    new("jars dry within ten years", 0, 100 * jar.Forecast.DryDay.Probability, "%"),
                ];
            }),
        new("tinted-glass",
            "Tinted glass stops nearly all ultraviolet, so leaf needs amber jars.",
            "Amber glass for medicines passes at most 10 % from 290 to 450 nm (published, for 2 mm as a rule); clear glass stops little above 340 nm.",
            "Light has to arrive first: no light times any glass is no light, and in the dark a clear jar shows the leaf. Visible light passes amber too.",
            _ =>
            [
                new("ultraviolet through 3 mm where 2 mm pass 10 %", 10, 100 * Glass.Through(0.10, 2, 3), "%"),
                new("visible light through clear glass", null, 100 * Glass.ClearTransmission, "%"),
            ]),
        new("one-number",
            "Compare films by one number.",
            "Within one material and one test, thicker is tighter.",
            "Water and oxygen are different properties and can rank oppositely; a rate holds at its test climate; area, closure, creases and order of layers count.",
            lab =>
            [
                new("oxygen: polyethylene over nylon, equal thickness", 1, Ratio("ldpe", "pa6", Permeant.Oxygen), ""),
                new("water: polyethylene over nylon, equal thickness", 1, Ratio("ldpe", "pa6", Permeant.Water), ""),
                new("water at the data sheet's 38 °C and 90 % over that here", 1, WaterTest.Tropical.Difference.Pascals / lab.Drive
                    * ArrheniusFactor.Between(WaterTest.Tropical.Temperature, lab.At, Materials.FindEnergy("ldpe", Permeant.Water)!.JoulesPerMole), ""),
            ]),
        new("airtight-plastic",
            "What feels tight is airtight.",
            "A pouch that stays hard has no open leak.",
            "Water passes plastic far faster than air does: edges dry while the pouch still feels tight.",
            lab =>
            [
                new("water over nitrogen through a nylon/polyethylene pouch, mole for mole", 1, Films.NylonPolyethylene.Water.Permeance.MolPerM2SPa / Films.NylonPolyethylene.Nitrogen.Permeance.MolPerM2SPa, ""),
                new("vacuum pouches dry within ten years", 0, 100 * lab.In("pouch-vacuum").Forecast.DryDay.Probability, "%"),
            ]),
        new("double-bag",
            "Double bagging doubles the life.",
            "Two whole bags, one in the other with two zips, about do.",
            "A second film under the same fold or clip only helps the film's part, and the zip passes most.",
            lab =>
            {
                var bag = ContainerKinds.Find("bag-zip")!;
                var film = bag.Paths.Where(path => path.Median.Name == "film").Sum(path => ArrheniusFactor.At(lab.At, path.Median.Water));
                var all = HoldingTime.WaterConductance(bag.Paths, lab.At);
                return [new("life with doubled film and one zip", 2, all / (all - (film / 2)), "times"), new("share of the water that goes through the film", 100, 100 * film / all, "%")];
            }),
        new("sealed-tin",
            "A sealed tin never changes weight.",
            "A sound double seam passes next to nothing.",
            "Seams differ by type, and some fail: weigh.",
            lab =>
            [
                new("pull-tab tins dry within ten years", 0, 100 * lab.In("tin-pull-50", 50).Forecast.DryDay.Probability, "%"),
                new("rectangular vacuum tins dry within ten years", 0, 100 * lab.In("tin-rectangular-50", 50).Forecast.DryDay.Probability, "%"),
            ]),
        new("film-over-rust",
            "Film over a rusty tin saves it.",
            "Film keeps splashes off.",
            "It traps damp under itself; rust goes on, and a hole through the wall is no seam to bridge.",
            lab => [new("wrapped slip-lid tins dry within ten years, rust or not", 0, 100 * lab.In("tin-slip-wrapped", 50).Forecast.DryDay.Probability, "%")]),
    ];

    private static double Ratio(string one, string other, Permeant permeant) =>
        Materials.Find(one, permeant)!.Middle.MolMPerM2SPa / Materials.Find(other, permeant)!.Middle.MolMPerM2SPa;
}
