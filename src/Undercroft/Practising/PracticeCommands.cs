using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Shell;

namespace Undercroft.Practising;

/// <summary><c>practice show</c>, <c>practice on</c>, <c>practice off</c>: rules of practice, each with a switch.</summary>
public static class PracticeCommands
{
    /// <summary>The group.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return CommandLine.Group("practice", "Rules of practice: why, how they are known, whether physics agrees, and a switch for each.", Show(line), Switch(line, "on", true), Switch(line, "off", false));
    }

    private static Command Show(CommandLine line)
    {
        var place = new Option<string?>("--place") { Description = "Where physics is asked: a place, or a kind of room (else a cupboard).", HelpName = "PLACE" };
        var views = new ViewOptions();
        return line.Command("show", "The rules as they stand, and the unlined tins that come out within five years, with the jars they need.", async call =>
        {
            using var cellars = call.CellarsOrNew();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var found = PracticeAnswer.Of(cellar, today, call.Value(place));
            return new Answer(found, page => Print(page, found));
        }, place, views.AsOf, views.KnownOn);
    }

    private static Command Switch(CommandLine line, string word, bool on)
    {
        var rule = new Argument<string>("rule") { Description = "Its code, as practice show lists it." };
        var note = new Option<string?>("--note") { Description = "Why, in words.", HelpName = "TEXT" };
        return line.Command(word, on ? "Let a rule count again." : "Switch a rule off: it no longer counts here.", async call =>
        {
            using var cellars = call.CellarsOrNew();
            var written = await PracticeAnswer.Switch(cellars, call.Value(rule)!, on, call.Value(note), call.Present);
            var id = written.Version.ToString(CultureInfo.InvariantCulture);
            return new Answer(new { @event = new { type = written.Fact.Type, id }, on }, page =>
            {
                page.WriteLine($"{call.Value(rule)!.Trim()} is {word} now.");
                page.WriteLine($"Written as line {id}; take it back with: undercroft undo {id}");
            });
        }, rule, note);
    }

    private static void Print(IAnsiConsole page, PracticeAnswer found)
    {
        page.Write(new Text(found.Verdict + "\n"));
        foreach (var rule in found.Rules)
        {
            page.WriteLine();
            page.Write(new Text($"{rule.Code}{(rule.On ? "" : " (off)")}: {rule.Says}\n"));
            page.Write(new Padder(new Text($"Why: {rule.Reason} [{rule.Provenance}: {rule.Remark}]")).Padding(2, 0, 0, 0));
            if (rule.Physics is { } physics)
                page.Write(new Padder(new Text($"Physics {Word(rule.PhysicsAgrees)}: {physics}")).Padding(2, 0, 0, 0));
        }

        if (found.TinsOut.Count == 0)
            return;
        page.WriteLine();
        page.WriteLine("Unlined and paper-walled tins, out by:");
        foreach (var tin in found.TinsOut)
        {
            page.Write(new Padder(new Text(string.Create(CultureInfo.InvariantCulture,
                $"{tin.OutBy}{(tin.DateKnown ? "" : "?")}  {tin.Id}  {tin.Blend ?? "blend unknown"}{(tin.Place is { } place ? $", {place}" : "")}: {tin.NetG:0} g into {tin.Jar}{(tin.Overdue ? " (overdue)" : "")}"))).Padding(2, 0, 0, 0));
        }

        page.Write(new Text($"Jars needed: {string.Join(", ", found.JarsNeeded.Select(jars => $"{jars.Count.ToString(CultureInfo.InvariantCulture)} × {jars.Kind}"))}.\n"));
    }

    /// <summary>In a word.</summary>
    internal static string Word(bool? agrees) => agrees switch
    {
        true => "agrees",
        false => "does not agree",
        null => "has no say",
    };
}
