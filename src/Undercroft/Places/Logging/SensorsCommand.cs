using System.CommandLine;
using Spectre.Console;
using Undercroft.Shell;

namespace Undercroft.Places.Logging;

/// <summary><c>place sensors</c>.</summary>
public static class SensorsCommand
{
    /// <summary>The command, for the group <c>place</c>.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var place = new Argument<string?>("name") { Description = "The place; all of them where none is named.", Arity = ArgumentArity.ZeroOrOne };
        var views = new ViewOptions();
        return line.Command("sensors", "Which loggers still speak, and which are stale or stuck, each judged by its own interval.", async call =>
        {
            using var cellars = call.Cellars();
            var view = views.Of(call);
            var cellar = await cellars.ReadAsync(view);
            var now = Sensors.NowOf(view, call.Present(cellar));
            var sensors = await Sensors.Of(cellars, cellar, call.Value(place), now);
            return new Answer(new { sensors }, page =>
            {
                if (sensors.Count == 0)
                    page.Write(new Text("No logger has been read yet: undercroft import logger FILE --place NAME\n"));
                foreach (var sensor in sensors)
                    page.Write(new Text($"{sensor.Place}{(sensor.Sensor is { } name ? $" ({name})" : "")}: {sensor.Verdict}{(sensor.CorrectedSince is { } day ? $" Humidity corrected since {day}." : "")}\n"));
            });
        }, place, views.AsOf, views.KnownOn);
    }
}
