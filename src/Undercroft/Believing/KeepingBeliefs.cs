using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;

namespace Undercroft.Believing;

/// <summary>Beliefs about heat, cold, pressure, mould and looking.</summary>
internal static class KeepingBeliefs
{
    private static readonly Temperature Room = Temperature.FromCelsius(20);
    private static readonly Temperature Freezer = Temperature.FromCelsius(-18);
    private static readonly Pressure Pulled = new(50e3);
    private const double HalvesEveryKelvin = 10; // assumption

    public static IReadOnlyList<Belief> All { get; } =
    [
        new("pop-the-lid",
            "Heat the jar until the lid pops.",
            "Closed warm, it draws a little vacuum as it cools.",
            "It drives aroma off, wets cold spots and risks broken glass. A lid need not be sucked down; the gasket needs clean, even pressure. Never heat a closed jar.",
            _ => [new("pressure left of 101 kPa: closed at 60 °C over leaf, at 20 °C", null, ClosedVessel.PressureAt(new Pressure(101325), Temperature.FromCelsius(60), Room, new WaterActivity(0.6)).Kilopascals, "kPa")]),
        new("dimple",
            "Dimple up means failed; take the band off.",
            "True for food that was processed in the jar.",
            "Leaf jars are not: without a vacuum the dimple says nothing, and the band is all that holds the seal.",
            _ => [new("pull on a lid, 60 mm across the seal, after cooling by 5 K", null, -LidForce.Newtons(ClosedVessel.PressureAt(new Pressure(101325), Room, Temperature.FromCelsius(15), new WaterActivity(0.6)) - new Pressure(101325), Length.FromMillimetres(60)), "N")]),
        new("more-vacuum",
            "More vacuum is better.",
            "Less oxygen, slower change: good for keeping as is.",
            "Not for ageing; it crushes the cut, and edges of plug pierce film. Half a vacuum leaves half the oxygen, and the lid lets some in every year.",
            lab => [new("oxygen left by pulling 50 kPa", 0, 100 * (1 - (Pulled.Pascals / PhysicalConstants.StandardAtmosphere)), "%"), new("oxygen let in a year by a jar's lid, 100 g in 473 ml", 0, lab.In("jar-473").OxygenMlPerGYear.P50 * 100, "ml")]),
        new("bulge",
            "A bulge means gone off (or: means ageing well).",
            "Growth and fermentation make gas.",
            "So do heat and altitude: compare at the same place and temperature. Point it away, eyes protected, open slowly outdoors; do not taste.",
            _ =>
            [
                new("20 to 35 °C, over leaf at 0.60", null, (ClosedVessel.PressureAt(new Pressure(101325), Room, Temperature.FromCelsius(35), new WaterActivity(0.6)) - new Pressure(101325)).Kilopascals, "kPa"),
                new("sea level to 1500 m", null, (StandardAtmosphere.At(new Length(0)) - StandardAtmosphere.At(new Length(1500))).Kilopascals, "kPa"),
                new("carbon dioxide that does as much as that in 100 ml", null, (StandardAtmosphere.At(new Length(0)) - StandardAtmosphere.At(new Length(1500))).Pascals / GasMade.Rise(Mass.FromGrams(1e-3), Volume.FromMillilitres(100), Room).Pascals, "mg"),
            ]),
        new("white-is-bloom",
            "White is bloom (or: white is mould).",
            "Crystals glitter, are rigid and have no threads; mould has threads.",
            "Neither is told by colour alone, and what the crystals are is disputed. When in doubt do not smoke, taste, heat or trade it.",
            _ => []),
        new("best-before",
            "Best before is an age limit (or: old is better).",
            "Leaf changes with age.",
            "Neither. Fading leaf has an end, and years of the trade are lore without a blind study.",
            _ => []),
        new("freezing",
            "Freezing stops everything and harms nothing.",
            "It kills beetles, given days at −18 °C or colder in the core.",
            "It slows, it does not stop: water moves, film gets brittle, thawing wets. Thaw it closed; do not freeze packed glass.",
            _ => [new("pace at −18 °C over that at 20 °C, if it halves every 10 K (assumption)", 0, 100 * Math.Pow(2, (Freezer.Kelvin - Room.Kelvin) / HalvesEveryKelvin), "%")]),
        new("cold-storage",
            "Cold storage cannot hurt.",
            "Cold slows change and beetles.",
            "Taken into a moist room, steel and labels get wet: open only at room temperature.",
            _ => [new("dew point of a room at 22 °C and 65 %, against a jar of 5 °C", 5, DewPoint.OverWater(SaturationPressure.OverWater(Temperature.FromCelsius(22)) * 0.65).Celsius, "°C")]),
        new("oven-cures-mould",
            "An oven or microwave cures mould.",
            "Heat kills growth.",
            "Not toxins, allergens or taste; foil sparks, closed jars burst. Bag it, bin it, wash the jar, replace the lid.",
            _ => []),
        new("inspections-fine",
            "My inspections were fine, so all is fine.",
            "Looking finds faults.",
            "Few looks bound little: no fault in ten still allows a quarter.",
            _ => [new("faulty share that ten faultless jars still allow (95 %)", 0, 100 * (1 - Math.Pow(0.05, 1.0 / 10)), "%"), new("the same after thirty", 0, 100 * (1 - Math.Pow(0.05, 1.0 / 30)), "%")]),
    ];
}
