using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Shell;

namespace Undercroft.Catalogue;

/// <summary><c>own film</c> and <c>own container</c>: what a data sheet or a ruler says.</summary>
public static class OwnCommands
{
    /// <summary>The group.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return CommandLine.Group("own", "Films and containers of your own, from data sheet and ruler; forecasts and comparisons take them up.", Film(line), Container(line));
    }

    private static Command Film(CommandLine line)
    {
        var code = Code("film");
        var name = Text("--name", "For people.", "TEXT");
        var water = Text("--water", "Water-vapour rate of the sheet, g/(m²·day).", "1.2");
        var waterTest = Text("--water-test", "Climate of that test.", "38C/90%");
        var oxygen = Text("--oxygen", "Oxygen rate of the sheet, cm³/(m²·day·atm).", "2.5");
        var oxygenTest = Text("--oxygen-test", "Climate of that test.", "23C/0%");
        var foil = new Option<bool>("--foil") { Description = "Foil, metallised or coated: holes and cracks decide, not the polymer." };
        var note = Text("--note", "Where the sheet came from.", "TEXT");
        return line.Command("film", "Describe a film from its data sheet.", async call =>
        {
            using var cellars = call.CellarsOrNew();
            return Said(await DescribeKind.Film(
                cellars,
                new(call.Value(code), call.Value(name), call.Value(water), call.Value(waterTest), call.Value(oxygen), call.Value(oxygenTest), call.Value(foil), call.Value(note)),
                call.Present));
        }, code, name, water, waterTest, oxygen, oxygenTest, foil, note);
    }

    private static Command Container(CommandLine line)
    {
        var code = Code("container");
        var name = Text("--name", "For people.", "TEXT");
        var like = Text("--like", "A kind of the catalogue with such a closure: failures and habits come from it.", "KIND");
        var capacity = Text("--capacity", "Inner volume; taut for pouches and bags.", "750ml");
        var tare = Text("--tare", "Empty, with its closure.", "312g");
        var film = Text("--film", "Film of its wall, the catalogue's or an own one.", "CODE");
        var area = Text("--area", "Of that film, facing the room.", "700cm2");
        var gasket = Text("--gasket", "Material of its gasket, such as silicone, natural-rubber, butyl, nitrile.", "MATERIAL");
        var perimeter = Text("--perimeter", "Of the gasket, once round.", "267mm");
        var height = Text("--height", "Of the gasket's section between lid and rim.", "1.5mm");
        var way = Text("--way", "Through the gasket, from inside to outside.", "6mm");
        var usual = Text("--usual", "How much leaf usually goes in.", "100g");
        var cost = Text("--cost", "Of packing one.", "2.50EUR");
        var note = Text("--note", "Anything else.", "TEXT");
        return line.Command("container", "Describe a container: its volume, and film or gasket where they differ from the kind that it is like.", async call =>
        {
            using var cellars = call.CellarsOrNew();
            return Said(await DescribeKind.Container(
                cellars,
                new(call.Value(code), call.Value(name), call.Value(like), call.Value(capacity), call.Value(tare), call.Value(film), call.Value(area), call.Value(gasket),
                    call.Value(perimeter), call.Value(height), call.Value(way), call.Value(usual), call.Value(cost), call.Value(note)),
                call.Present));
        }, code, name, like, capacity, tare, film, area, gasket, perimeter, height, way, usual, cost, note);
    }

    private static Answer Said(Described described)
    {
        var id = described.Event.Version.ToString(CultureInfo.InvariantCulture);
        return new(new { described.Code, @event = new { type = described.Event.Fact.Type, id }, described.Verdict }, page =>
        {
            page.Write(new Text(described.Verdict + "\n"));
            page.WriteLine($"Written as line {id}; take it back with: undercroft undo {id}");
        });
    }

    private static Argument<string> Code(string of) => new("code") { Description = $"Short name of the {of}: letters, digits, hyphens." };

    private static Option<string?> Text(string name, string description, string example) => new(name) { Description = description, HelpName = example };
}
