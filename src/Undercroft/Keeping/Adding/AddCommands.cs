using System.CommandLine;
using Undercroft.Shell;

namespace Undercroft.Keeping.Adding;

/// <summary><c>add</c> and <c>place add</c>.</summary>
public static class AddCommands
{
    /// <summary><c>add</c>.</summary>
    public static Command Add(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var blend = Text("--blend", "What you call it.", "TEXT");
        var leaf = Text("--leaf", "Leaf kinds, such as burley or \"flue-cured 70%, burley 30%\".", "KINDS");
        var cut = Text("--cut", "ribbon, flake, plug …", "CUT");
        var net = Text("--net", "Leaf in each package: 50g, ~50g, 40g..60g.", "MASS");
        var all = Text("--all", "Or leaf in all of them together, shared out evenly: one purchase of 400g into 4 jars.", "MASS");
        var gross = Text("--gross", "Each package whole, as it was closed.", "MASS");
        var tare = Text("--tare", "Each package empty, with its lid.", "MASS");
        var moisture = Text("--moisture", "Wet basis at closing, such as 17%.", "PERCENT");
        var container = Text("--container", "Kind, such as jar-473, or only jar, clamp, tin, pouch, bag; undercroft kinds containers lists them.", "KIND");
        var count = new Option<int>("--count") { Description = "How many alike.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var made = Text("--made", "When the leaf was made or tinned: 2015, 2015~, [2014..2016], ../2012.", "DATE");
        var closed = Text("--sealed", "When the package was closed.", "DATE");
        var opened = new Option<bool>("--opened") { Description = "It stands open now." };
        var place = Text("--place", "Where it stands; a new name makes a place.", "PLACE");
        var paid = Text("--paid", "For all of it, such as 24EUR.", "MONEY");
        var by = Text("--said-by", "Who says so: label, receipt, weighed, memory, guess.", "WHO");
        var note = Door.Note();
        return line.Command("add", "Add packages that stand on the shelf. Every part is optional.", async call =>
        {
            using var cellars = call.CellarsOrNew();
            var request = new AddRequest(
                call.Value(blend), call.Value(leaf), call.Value(cut), call.Value(net), call.Value(gross), call.Value(tare), call.Value(moisture),
                call.Value(container), call.Value(count), call.Value(made), call.Value(closed), call.Value(opened), call.Value(place), call.Value(paid),
                call.Value(note), call.Value(by), call.Value(all));
            var added = await AddPackages.To(cellars, request, call.Present);
            return AnswerOf(added, call.Present(added.After));
        }, blend, leaf, cut, net, all, gross, tare, moisture, container, count, made, closed, opened, place, paid, by, note);
    }

    /// <summary><c>place add</c>.</summary>
    public static Command PlaceAdd(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var name = new Argument<string>("name") { Description = "What you call it." };
        var inside = Text("--inside", "The place that holds it.", "PLACE");
        var room = Text("--room", "Kind of room, such as cupboard or basement; undercroft kinds rooms lists them.", "KIND");
        var altitude = Text("--altitude", "Above sea level, such as 500m.", "LENGTH");
        var temperature = Text("--temperature", "Band over the year, such as 16C..21C.", "BAND");
        var humidity = Text("--humidity", "Band over the year, such as 40%..60%.", "BAND");
        return line.Command("add", "Add a place: a house, a room, a shelf, a box.", async call =>
        {
            using var cellars = call.CellarsOrNew();
            var added = await AddPlace.To(
                cellars, call.Value(name)!, call.Value(inside), call.Value(room), call.Value(altitude), call.Value(temperature), call.Value(humidity), call.Present);
            return new Answer(
                new { id = added.Id.ToString(), name = added.Path, @event = EventName.Of(added.Event) },
                page => page.Write(new Spectre.Console.Text($"{added.Id}: {added.Path}. {added.Known}\n")));
        }, name, inside, room, altitude, temperature, humidity);
    }

    private static Answer AnswerOf(Added added, Present present)
    {
        var verdict = KeptAnswer.VerdictOn(added.After, added.Ids[0], present);
        var ids = added.Ids.Select(id => id.ToString()).ToArray();
        return new(
            new { ids, @event = EventName.Of(added.Event), newPlace = added.NewPlace, verdict, doubts = added.Doubts },
            page =>
            {
                page.Write(new Spectre.Console.Text($"{string.Join(", ", ids)}: {verdict}\n"));
                if (added.NewPlace is { } place)
                    page.Write(new Spectre.Console.Text($"'{place}' is a new place. Say what sort of room it is and the forecast narrows: undercroft place add {Typed(place)} --room KIND (undercroft kinds rooms lists them)\n"));
                foreach (var doubt in added.Doubts)
                    page.Write(new Spectre.Console.Text($"Odd, and kept: {doubt}\n"));
                page.Write(new Spectre.Console.Text($"Write {(ids.Length == 1 ? "this ID" : "these IDs")} on body and lid. Keep leaf from children and pets.\n"));
            });
    }

    /// <summary>A place by its path, as it is typed for <c>place add</c>.</summary>
    private static string Typed(string path)
    {
        var names = path.Split(" › ");
        return names.Length == 1 ? Quoted(path) : $"{Quoted(names[^1])} --inside {Quoted(string.Join('/', names[..^1]))}";

        static string Quoted(string word) => word.All(char.IsLetterOrDigit) ? word : $"\"{word}\"";
    }

    private static Option<string?> Text(string name, string description, string help) => new(name) { Description = description, HelpName = help };
}
