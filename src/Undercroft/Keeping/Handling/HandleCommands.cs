using System.CommandLine;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger.Amounts;
using Undercroft.Shell;

namespace Undercroft.Keeping.Handling;

/// <summary><c>open</c>, <c>close</c>, <c>take</c>, <c>water</c>, <c>move</c>, <c>repack</c>, <c>remove</c>.</summary>
public static class HandleCommands
{
    /// <summary>The commands.</summary>
    public static Command[] In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return
        [
            Simple(line, "open", "Write down that a package was opened.", Handle.Opened),
            Simple(line, "close", "Write down that a package was closed again.", Handle.Closed),
            WithMass(line, "take", "Write down leaf taken out.", "How much, such as 12g.", Handle.Taken),
            WithMass(line, "water", "Write down water added to the leaf, or dried away.", "How much, such as 2.3g; -4g was dried away.", Handle.Watered),
            Move(line),
            Repack(line),
            Remove(line),
        ];
    }

    private static Command Simple(CommandLine line, string name, string description, Func<Ledger.Package, Present, string?, string?, Said> say)
    {
        var (id, on, note) = (Door.Package(), Door.On(), Door.Note());
        return line.Command(name, description, call => Door.Keep(call, call.Value(id)!,
            (package, _, present) => say(package, present, call.Value(on), call.Value(note))), id, on, note);
    }

    private static Command WithMass(CommandLine line, string name, string description, string what, Func<Ledger.Package, Present, string, string?, string?, Said> say)
    {
        var (id, on, note) = (Door.Package(), Door.On(), Door.Note());
        var mass = new Argument<string>("mass") { Description = what };
        return line.Command(name, description, call => Door.Keep(call, call.Value(id)!,
            (package, _, present) => say(package, present, call.Value(mass)!, call.Value(on), call.Value(note))), id, mass, on, note);
    }

    private static Command Move(CommandLine line)
    {
        var (id, on, note) = (Door.Package(), Door.On(), Door.Note());
        var place = new Argument<string>("place") { Description = "Where to: a name, a path such as house/shelf, or an ID." };
        return line.Command("move", "Write down that a package was moved.", call => Door.Keep(call, call.Value(id)!,
            (package, cellar, present) => Handle.Moved(package, cellar, present, call.Value(place)!, call.Value(on), call.Value(note))), id, place, on, note);
    }

    private static Command Repack(CommandLine line)
    {
        var (id, on, note) = (Door.Package(), Door.On(), Door.Note());
        var container = new Option<string>("--container") { Description = "The new container's kind, such as jar-237.", HelpName = "KIND", Required = true };
        var tare = new Option<string?>("--tare") { Description = "It, empty with its lid, such as 212g.", HelpName = "MASS" };
        var gross = new Option<string?>("--gross") { Description = "The whole package now.", HelpName = "MASS" };
        var net = new Option<string?>("--net") { Description = "The leaf that went in.", HelpName = "MASS" };
        return line.Command("repack", "Write down that leaf went into another container.", call => Door.Keep(call, call.Value(id)!,
            (package, cellar, present) => Handle.Repacked(
                package, present, AddPackages.ContainerOf(cellar, call.Value(container), call.Value(tare), SaidBy.Weighed), call.Value(gross), call.Value(net), call.Value(on), call.Value(note))),
            id, container, tare, gross, net, on, note);
    }

    private static Command Remove(CommandLine line)
    {
        var (id, on, note) = (Door.Package(), Door.On(), Door.Note());
        var way = new Option<string>("--as") { Description = "finished, given, sold, discarded or lost.", HelpName = "HOW", Required = true };
        var received = new Option<string?>("--for") { Description = "Money received, such as 20EUR.", HelpName = "MONEY" };
        return line.Command("remove", "Write down that a package left the cellar. Selling or posting may need a licence: ask the authority and the carrier first.", call => Door.Keep(call, call.Value(id)!,
            (package, _, present) => Handle.Removed(package, present, call.Value(way)!, call.Value(on), call.Value(received), call.Value(note))), id, way, received, on, note);
    }
}
