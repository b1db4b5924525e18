using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Calculators;

/// <summary><c>calc water</c>, <c>calc isotherm</c> and <c>calc humectant</c>.</summary>
internal static class LeafCommands
{
    public static Calculator Water()
    {
        var mass = CalcCommand.Needed("--mass", "Of the leaf as it is.", "50g");
        var from = CalcCommand.Needed("--from", "Moisture now, wet basis.", "10%");
        var to = CalcCommand.Needed("--to", "Moisture wanted, wet basis.", "14%");
        return new Calculator("water", "Water that brings leaf to another moisture.", asked =>
        {
            var wanted = Written.Moisture("--to", asked.Value(to)!);
            var found = LeafWater.ToReach(Written.Mass("--mass", asked.Value(mass)!), Written.Moisture("--from", asked.Value(from)!), wanted);
            return CalcCommand.Answer(found, Shown.Lines(
                found.WaterG >= 0 ? $"Add {found.WaterG.Rounded()} g of water." : $"Let it lose {(-found.WaterG).Rounded()} g of water.",
                $"The leaf then weighs {found.FinalMassG.Rounded()} g.",
                wanted.WetBasisPercent > 18 ? "Caution: above 18 % the activity can pass 0.70, where mould grows within months. Such leaf is not for long storage." : null));
        }, mass, from, to);
    }

    public static Calculator Isotherm()
    {
        var leaf = CalcCommand.Needed("--leaf", "Sort of leaf.", "burley");
        var humidity = CalcCommand.Maybe("--humidity", "Of the air in balance.", "75%");
        var moisture = CalcCommand.Maybe("--moisture", "Of the leaf, wet basis.", "18%");
        var temperature = CalcCommand.Maybe("--temperature", "Of both (else 22C).", "22C");
        return new Calculator("isotherm", "Moisture of leaf in balance with a humidity, or the reverse.", asked =>
        {
            if (asked.Value(humidity) is null == asked.Value(moisture) is null)
                throw new WrongUsage("Give either --humidity or --moisture: the other one is the answer.");
            var kind = LeafWater.Kind(asked.Value(leaf)!);
            var at = asked.Value(temperature) is { } warm ? Written.Temperature("--temperature", warm) : new Temperature(SorptionShift.ReferenceKelvin);
            var found = asked.Value(humidity) is { } air
                ? LeafWater.InBalanceWith(kind, Written.Humidity("--humidity", air), at)
                : LeafWater.InBalanceWith(kind, Written.Moisture("--moisture", asked.Value(moisture)!), at);
            return CalcCommand.Answer(found, Shown.Lines(
                asked.Value(humidity) is null
                    ? $"About {found.HumidityPct.As("0")} % relative humidity."
                    : $"About {found.MoistureWetBasisPct.As("0.0")} % moisture on wet basis ({found.MoistureDryBasisPct.As("0.0")} % on dry basis).",
                $"{kind.Name} at {at.Celsius.As("0.#")} °C; {kind.Evidence.Tag}: {kind.Evidence.Remark}.",
                found.HumidityPct is < 50 or > 85 ? "Outside 50 to 85 %, where the curve was fitted: for orientation only." : null,
                found.HumidityPct > 70 ? "Caution: leaf in balance with more than 70 % can grow mould within months." : null));
        }, leaf, humidity, moisture, temperature);
    }

    public static Calculator Humectant()
    {
        var glycerol = CalcCommand.Needed("--glycerol", "Mass share in water.", "50%");
        return new Calculator("humectant", "Humidity over a solution of glycerol in water.", asked =>
        {
            var found = LeafWater.OverGlycerol(Written.Share("--glycerol", asked.Value(glycerol)!, "a mass share"));
            return CalcCommand.Answer(found, Shown.Lines(
                $"{found.HumidityPct.As("0")} % relative humidity over the solution, near 25 °C; ±2.",
                "Norrish's equation with K = 1.16 (published).",
                found.HumidityPct < 100 * NorrishSolution.LowestTrustedActivity ? "Below 30 % the equation is for orientation only." : null));
        }, glycerol);
    }
}
