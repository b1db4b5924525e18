using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Calculators;

/// <summary><c>calc headspace</c> and <c>calc pressure</c>.</summary>
internal static class VesselCommands
{
    public static Calculator Headspace()
    {
        var container = CalcCommand.Needed("--container", "Inner volume.", "473ml");
        var leaf = CalcCommand.Needed("--leaf", "Mass of leaf in it.", "100g");
        var moisture = CalcCommand.Needed("--moisture", "Of the leaf, wet basis.", "13%");
        var temperature = CalcCommand.Maybe("--temperature", "When it was closed (else 22C).", "22C");
        return new Calculator("headspace", "Gas and oxygen in a container with leaf.", asked =>
        {
            var found = Vessels.Headspace(
                Written.Volume("--container", asked.Value(container)!), Written.Mass("--leaf", asked.Value(leaf)!), Written.Moisture("--moisture", asked.Value(moisture)!),
                asked.Value(temperature) is { } warm ? Written.Temperature("--temperature", warm) : new Temperature(SorptionShift.ReferenceKelvin));
            return CalcCommand.Answer(found, Shown.Lines(
                $"{found.GasMl.As("0")} ml of gas, of which {found.OxygenMl.As("0.0")} ml ({found.OxygenMg.As("0.0")} mg) oxygen.",
                $"{(found.OxygenMl / Written.Mass("--leaf", asked.Value(leaf)!).Grams).As("0.00")} ml of oxygen per gram: a half-empty jar does not dry the leaf, it gives each gram more oxygen.",
                "Pores of the leaf count as gas. Density of dry leaf 1.45 g/cm³: from memory."));
        }, container, leaf, moisture, temperature);
    }

    public static Calculator Pressure()
    {
        var from = CalcCommand.Needed("--from", "Temperature when it was closed.", "20C");
        var to = CalcCommand.Needed("--to", "Temperature at the destination.", "40C");
        var fromAltitude = CalcCommand.Maybe("--from-altitude", "Where it was closed (else 0m).", "0m");
        var toAltitude = CalcCommand.Maybe("--to-altitude", "Of the destination (else 0m).", "1500m");
        var activity = CalcCommand.Maybe("--activity", "Of the leaf inside (else dry air).", "0.6");
        return new Calculator("pressure", "Pressure in a rigid closed vessel after warming or a move.", asked =>
        {
            var found = Vessels.Pressure(
                Written.Temperature("--from", asked.Value(from)!), Written.Temperature("--to", asked.Value(to)!),
                asked.Value(fromAltitude) is { } start ? Written.Altitude("--from-altitude", start) : new Length(0),
                asked.Value(toAltitude) is { } end ? Written.Altitude("--to-altitude", end) : new Length(0),
                asked.Value(activity) is { } water ? Written.Activity("--activity", water) : new WaterActivity(0));
            return CalcCommand.Answer(found, Shown.Lines(
                found.GaugeKPa >= 0
                    ? $"{found.GaugeKPa.As("0.0")} kPa above the air outside."
                    : $"{(-found.GaugeKPa).As("0.0")} kPa below the air outside.",
                "A tight, rigid vessel; real lids give way before glass does. A little carbon dioxide from the leaf adds to it.",
                Math.Abs(found.GaugeKPa) > 20
                    ? "Caution: tins bulge and glass can burst or implode. Open slowly, away from the face, and never heat a closed vessel."
                    : null));
        }, from, to, fromAltitude, toAltitude, activity);
    }
}
