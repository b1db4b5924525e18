using System.CommandLine;
using System.Globalization;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;
using Undercroft.Shell.Logs;

namespace Undercroft.Calculators;

/// <summary><c>calc mkt</c>.</summary>
internal static class MeanKineticCommand
{
    /// <summary>The calculator.</summary>
    /// <param name="workbook">Reads workbooks; null where none are read.</param>
    public static Calculator Of(WorkbookSheets? workbook)
    {
        var temperature = CalcCommand.Several("--temperature", "A temperature, with a weight (hours, days) after *.", "20C*2", required: false);
        var file = CalcCommand.Maybe("--file", "A logger's file: text with a time and a temperature in each row.", "shelf.csv");
        var unit = new Option<string?>("--unit") { Description = "Unit of the file's temperatures where it does not say.", HelpName = "C|F" };
        unit.AcceptOnlyFromAmong("C", "F");
        var sensor = CalcCommand.Maybe("--sensor", "Which of several sensors in the file.", "T2");
        return new Calculator("mkt", "Mean kinetic temperature: the steady one that ages as much.", async asked =>
        {
            var stated = asked.Value(temperature) ?? [];
            if (stated.Length > 0 == asked.Value(file) is not null)
                throw new WrongUsage("Give either --temperature (once or more) or --file.");
            if (stated.Length > 0)
            {
                if (asked.Value(unit) is not null)
                    throw new WrongUsage("--unit belongs to --file: write the unit behind each temperature, such as 68F*2.");
                return Said(MeanKinetic.Of([.. stated.Select(Spell)]), null);
            }

            var log = LogReader.Read(LogSource.File(asked.FullPath(asked.Value(file)!)), new LogAnswers(Unit: asked.Value(unit)?[0], Sensor: asked.Value(sensor)), workbook);
            var figures = MeanKinetic.Of(log);
            foreach (var note in log.Notes)
                await asked.Warnings.WriteLineAsync(note);
            return Said(figures, $"{log.Count.ToString(CultureInfo.InvariantCulture)} readings of '{log.Form.Columns[0].Heading}'.");
        }, temperature, file, unit, sensor);
    }

    private static Answer Said(MeanKineticFigures found, string? rests) => new(found, Shown.Lines(
        $"{found.MeanKineticTemperatureC.As("0.0")} °C mean kinetic temperature; the plain mean is {found.MeanC.As("0.0")} °C.",
        rests,
        "Activation energy 83.144 kJ/mol (published for medicines; for leaf an assumption): good for ranking places."));

    private static (Temperature Temperature, double Weight) Spell(string text)
    {
        if (!text.Contains('*'))
            return (Written.Temperature("--temperature", text), 1);
        var (warm, weight) = Written.Pair("--temperature", text, '*', "a temperature and a weight, such as 20C*2");
        return (Written.Temperature("--temperature", warm), Written.NumberAboveZero("--temperature", weight));
    }
}
