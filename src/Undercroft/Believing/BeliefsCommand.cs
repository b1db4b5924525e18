using System.CommandLine;
using Spectre.Console;
using Undercroft.Shell;

namespace Undercroft.Believing;

/// <summary><c>beliefs</c>: what people say, and what the whole package says.</summary>
public static class BeliefsCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var codes = new Argument<string[]>("belief") { Description = "Which, such as glass-perfect; else all.", Arity = ArgumentArity.ZeroOrMore };
        var place = new Option<string?>("--place") { Description = "A place of the cellar, or a kind of room (else a cupboard).", HelpName = "PLACE" };
        var views = new ViewOptions();
        return line.Command("beliefs", "Examine what people of the trade say: what is right, what it leaves out, by how much.", async call =>
        {
            using var cellars = call.CellarsOrNew();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var found = BeliefsAnswer.Of(cellar, today, call.Value(codes) ?? [], call.Value(place));
            return new Answer(found, page => Print(page, found));
        }, codes, place, views.AsOf, views.KnownOn);
    }

    private static void Print(IAnsiConsole page, BeliefsAnswer found)
    {
        page.Write(new Text(found.Verdict + "\n"));
        page.Write(new Text($"Common practice, no source; the numbers hold for mixed leaf in a {found.Place}.\n"));
        foreach (var belief in found.Beliefs)
        {
            page.WriteLine();
            page.Write(new Text($"{belief.Code}: “{belief.Says}”\n"));
            foreach (var text in new[] { $"Right: {belief.Right}", $"Left out: {belief.LeavesOut}" })
                page.Write(new Padder(new Text(text)).Padding(2, 0, 0, 0));
            foreach (var figure in belief.Figures)
            {
                page.Write(new Padder(new Text(
                    $"{figure.What}: {BeliefsAnswer.Number(figure.Whole)}{BeliefsAnswer.Unit(figure)}{(figure.Shortcut is { } said ? $" (the belief: {BeliefsAnswer.Number(said)})" : "")}")).Padding(4, 0, 0, 0));
            }
        }
    }
}
