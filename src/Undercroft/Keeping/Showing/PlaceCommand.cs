using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Shell;

namespace Undercroft.Keeping.Showing;

/// <summary><c>place show</c>: what is believed of a place, and what stands there.</summary>
public static class PlaceCommand
{
    /// <summary>The command.</summary>
    public static Command Show(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var name = new Argument<string>("name") { Description = "The place: a name, a path such as house/shelf, or an ID." };
        var views = new ViewOptions();
        return line.Command("show", "Show a place: its climate as believed, and what stands there.", async call =>
        {
            using var cellars = call.Cellars();
            var shown = ShowPlace.Of(await cellars.ReadAsync(views.Of(call)), call.Value(name)!);
            return new Answer(shown, page => Print(page, shown));
        }, name, views.AsOf, views.KnownOn);
    }

    private static void Print(IAnsiConsole page, PlaceShown place)
    {
        var climate = place.Climate;
        page.WriteLine($"{place.Path}: {place.Verdict}");
        page.WriteLine(place.Room is { } room ? $"Room kind: {room}" : "Room kind: not said. Naming it narrows the forecasts.");
        foreach (var line in new[]
        {
            string.Create(CultureInfo.InvariantCulture, $"  mean {climate.MeanC:0.#} °C (two in three within {climate.MeanSdC:0.#}), summer and winter {Math.Abs(climate.AnnualSwingC):0.#} K either way"),
            string.Create(CultureInfo.InvariantCulture, $"  humidity {climate.MeanHumidityPct:0} % (two in three within {climate.MeanHumiditySdPct:0}), over the year {Math.Abs(climate.HumiditySwingPct):0} points either way"),
            string.Create(CultureInfo.InvariantCulture, $"  air pressure outside {climate.PressureKPa:0.0} kPa"),
        })
        {
            page.WriteLine(line);
        }

        page.WriteLine($"  [{climate.Provenance}{(climate.Source is { } source ? " " + source : "")}: {climate.Remark}]");
        page.WriteLine("No logger readings exist yet: a logger here for a fortnight would say more than all of this.");
        var mass = string.Create(CultureInfo.InvariantCulture, $"{place.LowG:0.#}") is var low && string.Create(CultureInfo.InvariantCulture, $"{place.HighG:0.#}") is var high && low == high ? low : $"{low}–{high}";
        page.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{place.Packages} {(place.Packages == 1 ? "package" : "packages")}, {mass} g by the book{(place.UnknownPackages > 0 ? $"; {place.UnknownPackages} of unknown weight" : "")}."));
    }
}
