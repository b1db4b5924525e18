using System.CommandLine;
using Undercroft.Shell;

namespace Undercroft.Keeping.Measuring;

/// <summary><c>weigh</c>, <c>humidity</c>, <c>look</c>, <c>measure</c>.</summary>
public static class MeasureCommands
{
    /// <summary>The commands.</summary>
    public static Command[] In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return [Weigh(line), Humidity(line), Look(line), Container(line)];
    }

    private static Command Weigh(CommandLine line)
    {
        var id = Door.Package();
        var mass = new Argument<string>("mass") { Description = "What the scale showed, such as 612.3g; the whole package unless --net." };
        var net = new Option<bool>("--net") { Description = "The leaf alone was weighed." };
        var scale = new Option<string?>("--scale") { Description = "Last step of the scale, such as 0.1g.", HelpName = "MASS" };
        var on = Door.On();
        return line.Command("weigh", "Write down what a scale showed.", call => Door.Keep(call, call.Value(id)!,
            (package, _, present) => Measure.Weighed(package, present, call.Value(mass)!, call.Value(net), call.Value(scale), call.Value(on))), id, mass, net, scale, on);
    }

    private static Command Humidity(CommandLine line)
    {
        var id = Door.Package();
        var humidity = new Argument<string>("humidity") { Description = "What the hygrometer in the closed package showed, such as 62%." };
        var temperature = new Option<string?>("--temperature") { Description = "At which temperature, such as 20C.", HelpName = "TEMPERATURE" };
        var on = Door.On();
        return line.Command("humidity", "Write down a humidity read inside a package.", call => Door.Keep(call, call.Value(id)!,
            (package, _, present) => Measure.Humidity(package, present, call.Value(humidity)!, call.Value(temperature), call.Value(on))), id, humidity, temperature, on);
    }

    private static Command Look(CommandLine line)
    {
        var id = Door.Package();
        var findings = new Argument<string[]>("findings")
        {
            Description = $"What was seen: {string.Join(", ", Ledger.CodeWords.All<Ledger.Events.Finding>())}. None means that all is well.",
            Arity = ArgumentArity.ZeroOrMore,
        };
        var bulge = new Option<string?>("--bulge") { Description = "Height of a dome over the rim, such as 4mm.", HelpName = "LENGTH" };
        var feel = new Option<string?>("--feel") { Description = $"How the leaf felt: {string.Join(", ", Ledger.CodeWords.All<Ledger.Events.Feel>())}.", HelpName = "FEEL" };
        var note = Door.Note();
        var on = Door.On();
        return line.Command("look", "Write down what a look at a package found.", call => Door.Keep(call, call.Value(id)!,
            (package, _, present) => Measure.Looked(package, present, call.Value(findings) ?? [], call.Value(bulge), call.Value(feel), call.Value(on), call.Value(note))),
            id, findings, bulge, feel, note, on);
    }

    private static Command Container(CommandLine line)
    {
        var id = Door.Package();
        var empty = new Option<string?>("--empty") { Description = "One like it, empty and without its lid, such as 212g; with --full.", HelpName = "MASS" };
        var full = new Option<string?>("--full") { Description = "The same one full of water to the brim, such as 698g.", HelpName = "MASS" };
        var holds = new Option<string?>("--holds") { Description = "Or what it holds to the brim, such as 486ml.", HelpName = "VOLUME" };
        var tare = new Option<string?>("--tare") { Description = "Its own, empty with its lid, such as 231.4g.", HelpName = "MASS" };
        var kind = new Option<string?>("--container") { Description = "What it is, where that was not known or was wrong, such as jar-473.", HelpName = "KIND" };
        var on = Door.On();
        return line.Command("measure", "Write down what the container of a package holds, weighs empty, or is. Never fill water into one with leaf in it: measure another like it.", call => Door.Keep(call, call.Value(id)!,
            (package, cellar, present) => Measure.Contained(
                package, cellar, present, new(call.Value(empty), call.Value(full), call.Value(holds), call.Value(tare), call.Value(kind)), call.Value(on))),
            id, empty, full, holds, tare, kind, on);
    }
}
