
namespace Undercroft.Calculators;

/// <summary><c>calc salt</c> and <c>calc hygrometer</c>.</summary>
internal static class HygrometerCommands
{
    public static Calculator Salt()
    {
        var salt = CalcCommand.Needed("--salt", "Formula of the salt.", "NaCl");
        var temperature = CalcCommand.Needed("--temperature", "Of the box.", "20C");
        return new Calculator("salt", "Humidity over a saturated salt, to check a hygrometer.", asked =>
        {
            var (found, point) = Hygrometers.Salt(asked.Value(salt)!.Trim(), Written.Temperature("--temperature", asked.Value(temperature)!));
            return CalcCommand.Answer(found, Shown.Lines(
                found.UncertaintyPct is { } points
                    ? $"{found.HumidityPct.As("0.0")} % relative humidity, ±{points.As("0.0")} points."
                    : $"{found.HumidityPct.As("0.0")} % relative humidity; the source gives no uncertainty here.",
                $"Published [{point.Source}]. A small closed box, wet salt with some solid left, temperature steady within 1 °C; hobby practice waits 6 to 24 hours (no source).",
                "Caution: salts are not food. Keep them from leaf, children, pets and metal; lithium chloride, nitrates and bromides are harmful when swallowed, ammonium nitrate feeds fire."));
        }, salt, temperature);
    }

    public static Calculator Hygrometer()
    {
        var point = CalcCommand.Several("--point", "A reference: true humidity = shown humidity, once or twice.", "33.1%=36.0%", required: true);
        var reading = CalcCommand.Needed("--reading", "What the hygrometer shows now.", "60%");
        return new Calculator("hygrometer", "Correct a hygrometer from one or two reference points.", asked =>
        {
            var points = asked.Value(point)!.Select(text =>
            {
                var (truth, shown) = Written.Pair("--point", text, '=', "true humidity = shown humidity, such as 75.5%=73.0%");
                return (Written.Humidity("--point", truth), Written.Humidity("--point", shown));
            }).ToList();
            var found = Hygrometers.Corrected(points, Written.Humidity("--reading", asked.Value(reading)!));
            return CalcCommand.Answer(found, Shown.Lines(
                $"True humidity about {found.CorrectedPct.As("0.0")} %.",
                $"true = {found.Gain.As("0.###")} · shown {(found.OffsetPct < 0 ? "−" : "+")} {Math.Abs(found.OffsetPct).As("0.0")} points; common practice, no source."));
        }, point, reading);
    }
}
