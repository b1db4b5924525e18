using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Places.Hygrometers;

/// <summary><c>place check-hygrometer</c>.</summary>
public static class CheckHygrometerCommand
{
    /// <summary>The command, for the group <c>place</c>.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var place = new Argument<string?>("name") { Description = "The place where the hygrometer stands; leave it out to be told how a check is done.", Arity = ArgumentArity.ZeroOrOne };
        var point = new Option<string[]>("--point") { Description = "A salt or a true humidity, and what was shown: NaCl=73%. Once or twice.", HelpName = "NaCl=73%" };
        var temperature = new Option<string?>("--temperature") { Description = "Of the jar with the salt.", HelpName = "20C" };
        var on = new Option<string?>("--on") { Description = "Day of the check; readings count as corrected from it on. Default: today.", HelpName = "DATE" };
        var sensor = new Option<string?>("--sensor") { Description = "Which sensor, where the place has several.", HelpName = "NAME" };
        return line.Command("check-hygrometer", "Correct a hygrometer from one or two saturated salts, dated; without a point, how to do it.", async call =>
        {
            var warmth = CheckHygrometer.TemperatureOf(call.Value(temperature));
            if (call.Value(point) is not { Length: > 0 } points)
                return HowTo(warmth ?? Temperature.FromCelsius(20));
            if (call.Value(place) is not { } named)
                throw new WrongUsage("Name the place where the hygrometer stands: undercroft place check-hygrometer Closet --point NaCl=73% --temperature 20C");
            using var cellars = call.Cellars();
            var account = await CheckHygrometer.Write(cellars, named, [.. points.Select(CheckHygrometer.Point)], warmth, call.Value(on), call.Value(sensor), call.Present);
            return new Answer(account, page => Print(page, account));
        }, place, point, temperature, on, sensor);
    }

    private static Answer HowTo(Temperature temperature)
    {
        var salts = Procedure.Salts(temperature);
        return new(new { temperatureC = temperature.Celsius, steps = Procedure.Steps, cautions = Procedure.Cautions, salts }, page =>
        {
            void Line(string text) => page.Write(new Text(text + "\n"));
            Line("Two salts, MgCl2 and NaCl, check a hygrometer where leaf lives. Steps are common practice, no source:");
            for (var step = 0; step < Procedure.Steps.Count; step++)
                Line($"{(step + 1).ToString(CultureInfo.InvariantCulture)}. {Procedure.Steps[step]}");
            Line(string.Create(CultureInfo.InvariantCulture, $"At {temperature.Celsius:0.#} °C a right hygrometer shows:"));
            foreach (var salt in salts)
                Line("  " + Procedure.Word(salt));
            foreach (var caution in Procedure.Cautions)
                Line("Caution: " + caution);
        });
    }

    private static void Print(IAnsiConsole page, HygrometerAccount account)
    {
        void Line(string text) => page.Write(new Text(text + "\n"));
        Line(account.Verdict);
        foreach (var point in account.Points)
            Line(string.Create(CultureInfo.InvariantCulture, $"  {point.Salt ?? "stated"}: {point.TruePct:0.0} %{(point.UncertaintyPct is { } points ? $" ±{points:0.0}" : "")} true, {point.ShownPct:0.#} % shown{(point.Source is { } source ? $" [{source}]" : "")}"));
        Line(string.Create(CultureInfo.InvariantCulture, $"true = {account.Gain:0.###} · shown {(account.OffsetPct < 0 ? "−" : "+")} {Math.Abs(account.OffsetPct):0.0} points; add 1 to 2 points for drift and hysteresis over a year (common practice, no source)."));
        Line(account.Points.Count == 1 ? "One point corrects the level alone; a second salt would tell the slope." : "Check it again in a year.");
        Line($"Written as line {account.Event}; take it back with: undercroft undo {account.Event}");
    }
}
