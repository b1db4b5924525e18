using System.CommandLine;
using Undercroft.Shell;

namespace Undercroft.Keeping.Handling;

/// <summary><c>split</c>: one package into several of the same lot.</summary>
public static class SplitCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var id = Door.Package();
        var kind = new Option<string>("--container") { Description = "The kind of the new containers, such as jar-473.", HelpName = "KIND", Required = true };
        var count = new Option<int>("--count") { Description = "How many.", HelpName = "N", Required = true };
        var each = new Option<string?>("--each") { Description = "Leaf in each, such as 110g; else all of it is shared out.", HelpName = "MASS" };
        var place = new Option<string?>("--place") { Description = "Where the new ones stand; else where it stood.", HelpName = "PLACE" };
        var on = Door.On();
        return line.Command("split", "Write down that one package was split into several of the same lot.", async call =>
        {
            using var cellars = call.Cellars();
            var done = await Split.Of(cellars, call.Value(id)!, call.Value(kind), call.Value(count), call.Value(each), call.Value(place), call.Value(on), call.Present);
            var ids = done.Ids.Select(each => each.ToString()).ToArray();
            var written = EventName.Of(done.Change.Events[^1]);
            var verdict = KeptAnswer.VerdictOn(done.Change.After, done.Ids[0], call.Present(done.Change.After));
            return new Answer(
                new { ids, @event = written, verdict, doubts = Array.Empty<string>() },
                page => page.Write(new Spectre.Console.Text($"{string.Join(", ", ids)}: {verdict}\nWrite each ID on body and lid. Written as line {written.Id}; take all of it back with: undercroft undo {written.Id}\n")));
        }, id, kind, count, each, place, on);
    }
}
