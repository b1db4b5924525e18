using System.CommandLine;
using Undercroft.Ledger;
using Undercroft.Shell;

namespace Undercroft.Demo;

/// <summary><c>demo</c>: writes an invented household into an empty data folder.</summary>
public static class DemoCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return line.Command("demo", "Write the demo cellar, an invented household, into an empty data folder.", async call =>
        {
            using var cellars = call.CellarsOrNew();
            var cellar = await WriteTo(cellars);
            return new Answer(
                new { packages = cellar.Here.Count(), lots = cellar.Lots.Count, places = cellar.Places.Count },
                page => page.Write(new Spectre.Console.Text(
                    $"An invented household: {cellar.Here.Count()} packages of {cellar.Lots.Count} lots in {cellar.Places.Count} places, as of {DemoHousehold.Day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)}.\n"
                    + $"Look around: undercroft due --data {call.DataFolder}\nA cellar of your own goes into a folder of its own: undercroft add --data my-cellar\n")));
        });
    }

    /// <summary>Writes the demo.</summary>
    /// <exception cref="Refusal">The cellar is not empty: a demo never enters a person's data.</exception>
    public static async ValueTask<Cellar> WriteTo(ICellars cellars)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        var change = await cellars.ChangeAsync(cellar => cellar.Version == 0
            ? DemoHousehold.Events()
            : throw new Refusal("This folder holds a cellar already, and a demo never enters it. Name an empty folder with --data."));
        return change.After;
    }
}
