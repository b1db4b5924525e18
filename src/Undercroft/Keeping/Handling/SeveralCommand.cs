using System.CommandLine;
using System.Globalization;
using Undercroft.Keeping.Showing;
using Undercroft.Ledger;
using Undercroft.Shell;

namespace Undercroft.Keeping.Handling;

/// <summary><c>several</c>: one fact written about several packages at once, chosen by their IDs or by what they have in common.</summary>
public static class SeveralCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var act = new Argument<string>("act") { Description = $"{string.Join(", ", ManyPackages.Acts.Select(known => known.Code))}." };
        var ids = new Argument<string[]>("ids") { Description = "Their IDs; else all that the options below have in common.", Arity = ArgumentArity.ZeroOrMore };
        var words = Text("--words", "Those with these words in name, leaf, cut, container, place or ID.", "TEXT");
        var leaf = Text("--leaf", "Those with this leaf, such as burley; unknown where nobody said.", "KIND");
        var where = Text("--where", "Those that stand there or in places inside it.", "PLACE");
        var age = Text("--age", "Those whose leaf is at least so many years old.", "YEARS");
        var state = Text("--state", $"Those in this state: {string.Join(", ", PackageFilter.States.Where(known => known.Code is not ("gone" or "all")).Select(known => known.Code))}.", "STATE");
        var lot = Text("--lot", "Those of this lot.", "ID");
        var place = Text("--place", "Where to, for a move.", "PLACE");
        var container = Text("--container", "What they are packed in, for packed-in: jar-473, or only jar, clamp, tin, pouch, bag.", "KIND");
        var (on, note) = (Door.On(), Door.Note());
        return line.Command("several", "Write one thing down about several packages at once: all of it or nothing, taken back as a whole.", async call =>
        {
            using var cellars = call.Cellars();
            var (named, filtered) = (call.Value(ids) ?? [], new[] { words, leaf, where, age, state, lot }.Any(option => call.Value(option) is not null));
            if (named.Length > 0 == filtered)
                throw new WrongUsage("Which packages? Name their IDs, or say what they have in common, such as --where Attic: one of the two.");
            IReadOnlyList<Package> chosen = [];
            var change = await ManyPackages.Write(
                cellars,
                cellar => chosen = named.Length > 0
                    ? [.. named.Distinct().Select(id => cellar.FindPackage(id))]
                    : new PackageFilter(
                        call.Value(words), call.Value(leaf), call.Value(where) is { } shelf ? cellar.FindPlace(shelf).Id.ToString() : null, call.Value(age), call.Value(state),
                        call.Value(lot) is { } typed ? cellar.FindLot(typed).Id.ToString() : null).Of(cellar, call.Present(cellar).Today),
                new SaidOfMany(call.Value(act), call.Value(place), call.Value(container), call.Value(on), call.Value(note)), call.Present);
            string[] written = [.. chosen.Select(package => package.Id.ToString())];
            var last = EventName.Of(change.Events[^1]);
            var verdict = string.Create(CultureInfo.InvariantCulture, $"Written down for {written.Length} {(written.Length == 1 ? "package" : "packages")}.");
            return new Answer(
                new { ids = written, @event = last, verdict, doubts = Array.Empty<string>() },
                page => page.Write(new Spectre.Console.Text($"{verdict} {string.Join(", ", written.Take(12))}{(written.Length > 12 ? " …" : "")}\nWritten up to line {last.Id}; take all of it back with: undercroft undo {last.Id}\n")));
        }, act, ids, words, leaf, where, age, state, lot, place, container, on, note);
    }

    private static Option<string?> Text(string name, string description, string help) => new(name) { Description = description, HelpName = help };
}
