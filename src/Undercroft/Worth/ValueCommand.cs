using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Ledger;
using Undercroft.Shell;

namespace Undercroft.Worth;

/// <summary><c>value</c>: paid, to replace, likely sale: three figures, never one.</summary>
public static class ValueCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var id = new Argument<string?>("id") { Description = "A lot, or a package of it; else the whole cellar.", Arity = ArgumentArity.ZeroOrOne };
        var replace = new Option<string?>("--replace") { Description = "State what as much of it would cost now, for all of the lot as it came, such as 60EUR or 50..70EUR.", HelpName = "MONEY" };
        var sale = new Option<string?>("--sale") { Description = "State what it would likely fetch where it may be sold.", HelpName = "MONEY" };
        var note = new Option<string?>("--note") { Description = "Where the figures come from.", HelpName = "TEXT" };
        var views = new ViewOptions();
        return line.Command("value", "Say what was paid, what it would cost to replace and what it would likely fetch, apart.", async call =>
        {
            using var cellars = call.Cellars();
            if (call.Value(replace) is null && call.Value(sale) is null)
            {
                var figures = Figures.Of(await cellars.ReadAsync(views.Of(call)));
                return new Answer(figures, page => Print(page, figures));
            }

            if (views.Of(call) != View.Now)
                throw new WrongUsage("A figure is stated now: --as-of and --known-on only look back.");
            var change = await Valuing.Of(cellars, call.Value(id) ?? throw new WrongUsage("Which lot? Name it, or a package of it, before --replace or --sale."), call.Value(replace), call.Value(sale), call.Value(note), call.Present);
            var written = change.Events[^1];
            var verdict = Figures.Of(change.After).Verdict;
            return new Answer(
                new { @event = new { type = written.Fact.Type, id = written.Version.ToString(CultureInfo.InvariantCulture) }, verdict, doubts = Array.Empty<string>() },
                page => page.Write(new Text($"{verdict}\nWritten as line {written.Version}; take it back with: undercroft undo {written.Version}\n")));
        }, id, replace, sale, note, views.AsOf, views.KnownOn);
    }

    private static void Print(IAnsiConsole page, Figures figures)
    {
        page.Write(new Text(figures.Verdict + "\n"));
        foreach (var (what, figure) in new[] { ("paid for what is still here (derived)", figures.Paid), ("to replace it (as stated)", figures.Replace), ("likely sale (as stated)", figures.Sale) })
            page.Write(new Text($"  {what}: {Figures.Words(figure)}\n"));
        page.Write(new Text(figures.Caution + "\n"));
    }
}
