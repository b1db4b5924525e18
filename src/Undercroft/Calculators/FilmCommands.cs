using System.CommandLine;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Calculators;

/// <summary><c>calc film</c>, <c>calc laminate</c>, <c>calc pinhole</c> and <c>calc strip</c>.</summary>
internal static class FilmCommands
{
    public static Command Film(CommandLine line)
    {
        var water = CalcCommand.Maybe("--water", "Water-vapour rate of the data sheet, g/(m²·day).", "0.9");
        var oxygen = CalcCommand.Maybe("--oxygen", "Oxygen rate of the data sheet, cm³/(m²·day·atm).", "150");
        var test = CalcCommand.Needed("--test", "Climate of the test.", "38C/90%");
        var area = CalcCommand.Needed("--area", "Of the film.", "300cm2");
        var temperature = CalcCommand.Needed("--temperature", "Where it is kept.", "20C");
        var inside = CalcCommand.Maybe("--inside", "Humidity inside (water).", "65%");
        var outside = CalcCommand.Maybe("--outside", "Humidity outside (water).", "45%");
        var oxygenInside = CalcCommand.Maybe("--oxygen-inside", "Oxygen inside as a share of one atmosphere (else 0%).", "0%");
        var activation = CalcCommand.Maybe("--activation", "Activation energy of the permeance, kJ/mol (else none).", "33.5");
        return line.Command("film", "What a film passes at home, from its data sheet.", call =>
        {
            if (call.Value(water) is null == call.Value(oxygen) is null)
                throw new WrongUsage("Give either --water or --oxygen: a data sheet states them for different tests.");
            var (testTemperature, testHumidity) = Written.Climate("--test", call.Value(test)!);
            var of = Written.Area("--area", call.Value(area)!);
            var at = Written.Temperature("--temperature", call.Value(temperature)!);
            var energy = call.Value(activation) is { } stated ? 1000 * Written.Number("--activation", stated) : 0;
            if (call.Value(water) is { } grams)
            {
                if (call.Value(oxygenInside) is not null)
                    throw new WrongUsage("--oxygen-inside belongs to --oxygen, not to --water.");
                if (call.Value(inside) is not { } within || call.Value(outside) is not { } around)
                    throw new WrongUsage("--water needs --inside and --outside: the difference of humidity drives the water.");
                var found = Barriers.WaterThrough(
                    Written.NumberAboveZero("--water", grams), new WaterTest(testTemperature, testHumidity), of, at,
                    Written.Humidity("--inside", within), Written.Humidity("--outside", around), energy);
                return CalcCommand.Answer(found, Shown.Lines(
                    found.WaterMgPerDay >= 0
                        ? $"About {found.WaterMgPerDay.Rounded()} mg of water a day go out."
                        : $"About {(-found.WaterMgPerDay).Rounded()} mg of water a day come in.",
                    $"{(found.WaterMgPerDay * 0.36525).Rounded()} g in a year through the film alone; seals and creases come on top.",
                    "Data sheet and measurement differ by 17 to 74 % (published)."));
            }

            if (call.Value(inside) is not null || call.Value(outside) is not null)
                throw new WrongUsage("--inside and --outside belong to --water, not to --oxygen.");
            var passed = Barriers.OxygenThrough(
                Written.NumberAboveZero("--oxygen", call.Value(oxygen)!), testTemperature, of, at,
                call.Value(oxygenInside) is { } share ? Written.Share("--oxygen-inside", share, "a share") : 0, energy);
            return CalcCommand.Answer(passed, Shown.Lines(
                passed.OxygenMlPerDay >= 0
                    ? $"About {passed.OxygenMlPerDay.Rounded()} ml of oxygen a day come in."
                    : $"About {(-passed.OxygenMlPerDay).Rounded()} ml of oxygen a day go out.",
                $"{(passed.OxygenMlPerDay * 365.25).Rounded()} ml in a year through the film alone; seals and creases come on top.",
                "Nylon and EVOH pass more when humid: their test humidity must match the humidity at that layer."));
        }, water, oxygen, test, area, temperature, inside, outside, oxygenInside, activation);
    }

    public static Command Laminate(CommandLine line)
    {
        var layer = CalcCommand.Several("--layer", "Transmission of one layer, all in one unit.", "140", required: true);
        return line.Command("laminate", "Transmission of layers behind each other.", call =>
        {
            var found = Barriers.InSeries([.. call.Value(layer)!.Select(text => Written.NumberAboveZero("--layer", text))]);
            return CalcCommand.Answer(found, Shown.Lines(
                $"{found.Transmission.Rounded()} in the unit of the layers.",
                "Only for homogeneous layers: foil and metallised film are decided by pinholes, and such a laminate enters as one measured layer."));
        }, layer);
    }

    public static Command Pinhole(CommandLine line)
    {
        var diameter = CalcCommand.Needed("--diameter", "Of the hole.", "10um");
        var length = CalcCommand.Needed("--length", "Through the wall.", "0.2mm");
        var temperature = CalcCommand.Needed("--temperature", "Of the air.", "25C");
        var oxygenInside = CalcCommand.Maybe("--oxygen-inside", "Oxygen inside as a share of one atmosphere (else 0%).", "0%");
        return line.Command("pinhole", "Oxygen through a small hole at equal total pressure.", call =>
        {
            var found = Barriers.ThroughPinhole(
                Written.Length("--diameter", call.Value(diameter)!), Written.LengthOrZero("--length", call.Value(length)!),
                Written.Temperature("--temperature", call.Value(temperature)!),
                call.Value(oxygenInside) is { } share ? Written.Share("--oxygen-inside", share, "a share") : 0);
            return CalcCommand.Answer(found, Shown.Lines(
                $"About {found.OxygenMlPerDay.Rounded()} ml of oxygen a day.",
                $"{(found.OxygenMlPerDay * 365.25).Rounded()} ml in a year; {found.Regime} flow. Under a vacuum the same hole passes far more."));
        }, diameter, length, temperature, oxygenInside);
    }

    public static Command Strip(CommandLine line)
    {
        var diameter = CalcCommand.Maybe("--diameter", "Of a round vessel.", "80mm");
        var sides = CalcCommand.Maybe("--sides", "Of a rectangular vessel.", "110mmx80mm");
        var turns = CalcCommand.Needed("--turns", "How often round.", "2");
        var stretch = CalcCommand.Needed("--stretch", "Length after stretching over before.", "2");
        var overlap = CalcCommand.Maybe("--overlap", "Unstretched end (else 20mm).", "20mm");
        return line.Command("strip", "Length of stretch film to cut for a seam.", call =>
        {
            if (call.Value(diameter) is null == call.Value(sides) is null)
                throw new WrongUsage("Give either --diameter or --sides.");
            var around = call.Value(diameter) is { } round
                ? Written.Length("--diameter", round) * Math.PI
                : Around(call.Value(sides)!);
            var found = Barriers.Strip(
                around, Written.NumberAboveZero("--turns", call.Value(turns)!), Written.NumberAboveZero("--stretch", call.Value(stretch)!),
                call.Value(overlap) is { } end ? Written.LengthOrZero("--overlap", end) : Length.FromMillimetres(20));
            return CalcCommand.Answer(found, Shown.Lines(
                $"Cut {found.LengthMm.As("0")} mm.",
                "Stretch film bridges a seam and slows gas; it is no hermetic seal, and nobody has measured it over years."));
        }, diameter, sides, turns, stretch, overlap);
    }

    private static Length Around(string text)
    {
        var (left, right) = Written.Pair("--sides", text.Replace('×', 'x').Replace('X', 'x'), 'x', "two lengths, such as 110mmx80mm");
        return (Written.Length("--sides", left) + Written.Length("--sides", right)) * 2;
    }
}
