using System.CommandLine;
using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Calculators;

/// <summary><c>calc air</c> and <c>calc warm-air</c>.</summary>
internal static class AirCommands
{
    public static Calculator Air()
    {
        var temperature = CalcCommand.Needed("--temperature", "Of the air.", "25C");
        var humidity = CalcCommand.Needed("--humidity", "Relative humidity.", "60%");
        var pressure = CalcCommand.Maybe("--pressure", "Total pressure (else by altitude, else 101325Pa).", "95461Pa");
        var altitude = CalcCommand.Maybe("--altitude", "Above sea level, in the standard atmosphere.", "500m");
        var over = Over();
        return new Calculator("air", "What moist air holds: vapour, dew point, wet bulb.", asked =>
        {
            if (asked.Value(pressure) is not null && asked.Value(altitude) is not null)
                throw new WrongUsage("Give --pressure or --altitude, not both.");
            var total = asked.Value(pressure) is { } pascals ? Written.Pressure("--pressure", pascals)
                : StandardAtmosphere.At(asked.Value(altitude) is { } metres ? Written.Altitude("--altitude", metres) : new Length(0));
            var found = MoistAir.Of(
                Written.Temperature("--temperature", asked.Value(temperature)!), Written.Humidity("--humidity", asked.Value(humidity)!), total, SurfaceOf(asked.Value(over)!));
            return CalcCommand.Answer(found, Shown.Lines(
                found.DewPointC is { } dew
                    ? $"Dew point {dew.As("0.0")} °C: surfaces colder than that get wet."
                    : "Too dry to have a dew point above −100 °C.",
                $"Vapour pressure {found.VapourPressurePa.As("0")} Pa of {found.SaturationPressurePa.As("0")} Pa at saturation; wet bulb {found.WetBulbC.As("0.0")} °C.",
                $"{found.AbsoluteHumidityGPerM3.As("0.00")} g of water in a cubic metre, {found.MixingRatioGPerKg.As("0.00")} g per kg of dry air, at {found.PressurePa.As("0")} Pa."));
        }, temperature, humidity, pressure, altitude, over);
    }

    public static Calculator WarmAir()
    {
        var from = CalcCommand.Needed("--from", "Temperature and humidity of the air.", "0C/90%");
        var to = CalcCommand.Needed("--to", "Temperature that it is brought to.", "20C");
        var over = Over();
        return new Calculator("warm-air", "Humidity of air after warming or cooling, no water added.", asked =>
        {
            var (temperature, humidity) = Written.Climate("--from", asked.Value(from)!);
            var found = MoistAir.Warmed(temperature, humidity, Written.Temperature("--to", asked.Value(to)!), SurfaceOf(asked.Value(over)!));
            return CalcCommand.Answer(found, Shown.Lines(
                found.Condenses
                    ? $"Condenses: it would be {found.HumidityPct.As("0.0")} %, so water settles on what is that cold."
                    : $"{found.HumidityPct.As("0.0")} % relative humidity.",
                found.DewPointC is { } dew ? $"Dew point {dew.As("0.0")} °C." : null,
                "A real room adds water of its own; leaf in a jar behaves otherwise, see calc isotherm."));
        }, from, to, over);
    }

    private static Option<string> Over()
    {
        var over = new Option<string>("--over") { Description = "Saturation over water, or over ice below 0.01 °C.", HelpName = "water|ice", DefaultValueFactory = _ => "water" };
        over.AcceptOnlyFromAmong("water", "ice");
        return over;
    }

    private static Surface SurfaceOf(string word) => word == "ice" ? Surface.Ice : Surface.Water;
}
