using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;

namespace Undercroft.Calculators;

/// <summary><c>calc bulge</c> and <c>calc tightness</c>.</summary>
internal static class BulgeCommand
{
    private const double Worrying = 20; // kPa, assumption: tins dome, lids start to move

    public static Calculator Bulge()
    {
        var from = CalcCommand.Needed("--from", "Temperature when it was closed.", "20C");
        var to = CalcCommand.Needed("--to", "Temperature now.", "35C");
        var fromAltitude = CalcCommand.Maybe("--from-altitude", "Where it was closed (else 0m).", "0m");
        var toAltitude = CalcCommand.Maybe("--to-altitude", "Where it stands; 2400m for the cabin of an aircraft (else 0m).", "1500m");
        var activity = CalcCommand.Maybe("--activity", "Of the leaf inside (else dry air).", "0.6");
        var vacuum = CalcCommand.Maybe("--vacuum", "Pulled at closing, below the air outside (else none).", "15inHg");
        var gas = CalcCommand.Maybe("--gas", "Carbon dioxide set free inside (else none).", "10mg");
        var headspace = CalcCommand.Maybe("--headspace", "Gas space inside, for --gas.", "100ml");
        var lid = CalcCommand.Maybe("--lid", "Diameter of the lid, for its force.", "80mm");
        return new Calculator("bulge", "Why a lid stands up or is drawn in: heat, altitude, vacuum, gas; the force on it.", asked =>
        {
            Length Altitude(string name, string? text) => text is null ? new Length(0) : Written.Altitude(name, text);
            var found = Bulges.Of(
                Written.Temperature("--from", asked.Value(from)!), Written.Temperature("--to", asked.Value(to)!), Altitude("--from-altitude", asked.Value(fromAltitude)),
                Altitude("--to-altitude", asked.Value(toAltitude)), asked.Value(activity) is { } water ? Written.Activity("--activity", water) : new WaterActivity(0),
                asked.Value(vacuum) is { } pulled ? Written.PressureOrZero("--vacuum", pulled) : new Pressure(0),
                asked.Value(gas) is { } made ? Written.MassOrZero("--gas", made) : new Mass(0),
                asked.Value(headspace) is { } space ? Written.Volume("--headspace", space) : null, asked.Value(lid) is { } across ? Written.Length("--lid", across) : null);
            return CalcCommand.Answer(found, Shown.Lines(
                found.GaugeKPa >= 0
                    ? $"{found.GaugeKPa.As("0.0")} kPa above the air outside: {(found.GaugeKPa < 1 ? "the lid lies flat" : "a tin domes, a pouch puffs")}."
                    : $"{(-found.GaugeKPa).As("0.0")} kPa below the air outside: the lid is drawn in.",
                $"Heat {Signed(found.HeatKPa)}, altitude {Signed(found.AltitudeKPa)}, vacuum {Signed(found.VacuumKPa)}, gas {Signed(found.GasKPa)} kPa.",
                found.LidForceN is { } newtons ? $"{Math.Abs(newtons).As("0")} N on the lid, as much as {(Math.Abs(newtons) / 9.80665).As("0.#")} kg would press{(newtons < 0 ? ", inwards" : "")}." : null,
                found.GasForTenKPaMg is { } milligrams ? $"{milligrams.As("0.#")} mg of carbon dioxide in that space would add 10 kPa: a little gas is enough, so a dome is no proof of growth." : null,
                "A bulge can mean heat, altitude, gas from moist or fermented leaf, or growth. It cannot tell which: compare at the same place and temperature, weigh, and read the humidity.",
                "A flat lid proves nothing either: a leaking one stays flat.",
                Math.Abs(found.GaugeKPa) > Worrying
                    ? "Caution: a lid can jump and glass can burst or implode. Eyes protected, pointed away, outdoors, slowly; never heat a closed vessel, and do not taste what was in a bulging one."
                    : null));
        }, from, to, fromAltitude, toAltitude, activity, vacuum, gas, headspace, lid);
    }

    public static Calculator Tightness()
    {
        var volume = CalcCommand.Needed("--volume", "Filled volume of the container.", "120ml");
        var gain = CalcCommand.Needed("--gain", "Mass it gained with a drying agent inside.", "110mg");
        var control = CalcCommand.Maybe("--control", "Mass that one with glass beads gained beside it (else nothing).", "5mg");
        var days = CalcCommand.Needed("--days", "Between the weighings.", "14");
        return new Calculator("tightness", "How tight a container is, from weighing it with a drying agent inside.", asked =>
        {
            var found = Barriers.DesiccantRate(
                Written.Volume("--volume", asked.Value(volume)!), Written.MassOrZero("--gain", asked.Value(gain)!),
                asked.Value(control) is { } beside ? Written.MassOrZero("--control", beside) : new Mass(0), Written.NumberAboveZero("--days", asked.Value(days)!));
            return CalcCommand.Answer(found, Shown.Lines(
                $"{found.WaterMgPerDayL.As("0.#")} mg of water a day and litre: {found.Class.Replace('-', ' ')}.",
                $"Limits from memory: {DesiccantTest.TightLimit.As("0")} for tight, {DesiccantTest.WellClosedLimit.As("0")} for well closed, over ten containers; one alone only hints.",
                "Leaf works as a gauge too: weigh a filled container twice, months apart.",
                "Caution: calcium chloride heats up with water and burns skin and eyes; keep drying agents from children, pets and leaf."));
        }, volume, gain, control, days);
    }

    private static string Signed(double kilopascals) => (kilopascals < 0 ? "−" : "+") + Math.Abs(kilopascals).As("0.0");
}
