using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Calculators;

/// <summary><c>calc film</c>, <c>calc laminate</c>, <c>calc pinhole</c> and <c>calc strip</c>.</summary>
internal static class FilmCommands
{
    public static Calculator Film()
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
        return new Calculator("film", "What a film passes at home, from its data sheet.", asked =>
        {
            if (asked.Value(water) is null == asked.Value(oxygen) is null)
                throw new WrongUsage("Give either --water or --oxygen: a data sheet states them for different tests.");
            var (testTemperature, testHumidity) = Written.Climate("--test", asked.Value(test)!);
            var of = Written.Area("--area", asked.Value(area)!);
            var at = Written.Temperature("--temperature", asked.Value(temperature)!);
            var energy = asked.Value(activation) is { } stated ? 1000 * Written.Number("--activation", stated) : 0;
            if (asked.Value(water) is { } grams)
            {
                if (asked.Value(oxygenInside) is not null)
                    throw new WrongUsage("--oxygen-inside belongs to --oxygen, not to --water.");
                if (asked.Value(inside) is not { } within || asked.Value(outside) is not { } around)
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

            if (asked.Value(inside) is not null || asked.Value(outside) is not null)
                throw new WrongUsage("--inside and --outside belong to --water, not to --oxygen.");
            var passed = Barriers.OxygenThrough(
                Written.NumberAboveZero("--oxygen", asked.Value(oxygen)!), testTemperature, of, at,
                asked.Value(oxygenInside) is { } share ? Written.Share("--oxygen-inside", share, "a share") : 0, energy);
            return CalcCommand.Answer(passed, Shown.Lines(
                passed.OxygenMlPerDay >= 0
                    ? $"About {passed.OxygenMlPerDay.Rounded()} ml of oxygen a day come in."
                    : $"About {(-passed.OxygenMlPerDay).Rounded()} ml of oxygen a day go out.",
                $"{(passed.OxygenMlPerDay * 365.25).Rounded()} ml in a year through the film alone; seals and creases come on top.",
                "Nylon and EVOH pass more when humid: their test humidity must match the humidity at that layer."));
        }, water, oxygen, test, area, temperature, inside, outside, oxygenInside, activation);
    }

    public static Calculator Laminate()
    {
        var layer = CalcCommand.Several("--layer", "Transmission of one layer, all in one unit.", "140", required: true);
        return new Calculator("laminate", "Transmission of layers behind each other.", asked =>
        {
            var found = Barriers.InSeries([.. asked.Value(layer)!.Select(text => Written.NumberAboveZero("--layer", text))]);
            return CalcCommand.Answer(found, Shown.Lines(
                $"{found.Transmission.Rounded()} in the unit of the layers.",
                "Only for homogeneous layers: foil and metallised film are decided by pinholes, and such a laminate enters as one measured layer."));
        }, layer);
    }

    public static Calculator Pinhole()
    {
        var diameter = CalcCommand.Needed("--diameter", "Of the hole.", "10um");
        var length = CalcCommand.Needed("--length", "Through the wall.", "0.2mm");
        var temperature = CalcCommand.Needed("--temperature", "Of the air.", "25C");
        var oxygenInside = CalcCommand.Maybe("--oxygen-inside", "Oxygen inside as a share of one atmosphere (else 0%).", "0%");
        return new Calculator("pinhole", "Oxygen through a small hole at equal total pressure.", asked =>
        {
            var found = Barriers.ThroughPinhole(
                Written.Length("--diameter", asked.Value(diameter)!), Written.LengthOrZero("--length", asked.Value(length)!),
                Written.Temperature("--temperature", asked.Value(temperature)!),
                asked.Value(oxygenInside) is { } share ? Written.Share("--oxygen-inside", share, "a share") : 0);
            return CalcCommand.Answer(found, Shown.Lines(
                $"About {found.OxygenMlPerDay.Rounded()} ml of oxygen a day.",
                $"{(found.OxygenMlPerDay * 365.25).Rounded()} ml in a year; {found.Regime} flow. Under a vacuum the same hole passes far more."));
        }, diameter, length, temperature, oxygenInside);
    }

    public static Calculator Strip()
    {
        var diameter = CalcCommand.Maybe("--diameter", "Of a round vessel.", "80mm");
        var sides = CalcCommand.Maybe("--sides", "Of a rectangular vessel.", "110mmx80mm");
        var turns = CalcCommand.Needed("--turns", "How often round.", "2");
        var stretch = CalcCommand.Needed("--stretch", "Length after stretching over before.", "2");
        var overlap = CalcCommand.Maybe("--overlap", "Unstretched end (else 20mm).", "20mm");
        return new Calculator("strip", "Length of stretch film to cut for a seam.", asked =>
        {
            if (asked.Value(diameter) is null == asked.Value(sides) is null)
                throw new WrongUsage("Give either --diameter or --sides.");
            var around = asked.Value(diameter) is { } round
                ? Written.Length("--diameter", round) * Math.PI
                : Around(asked.Value(sides)!);
            var found = Barriers.Strip(
                around, Written.NumberAboveZero("--turns", asked.Value(turns)!), Written.NumberAboveZero("--stretch", asked.Value(stretch)!),
                asked.Value(overlap) is { } end ? Written.LengthOrZero("--overlap", end) : Length.FromMillimetres(20));
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
