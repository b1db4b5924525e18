using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Forecasts.Places;
using Undercroft.Shell;

namespace Undercroft.Keeping.Troubles;

/// <summary><c>trouble</c> and <c>identify</c>.</summary>
public static class TroubleCommands
{
    /// <summary>The commands.</summary>
    public static Command[] In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return [Trouble(line), Identifying(line)];
    }

    private static Command Trouble(CommandLine line)
    {
        var tree = new Argument<string>("what") { Description = $"{string.Join(", ", TroubleTrees.All.Select(known => known.Code))}." };
        var answers = new Argument<string[]>("answers") { Description = "Answers so far, in order; left out, the first question is asked.", Arity = ArgumentArity.ZeroOrMore };
        var package = new Option<string?>("--package") { Description = "Which package it is about; then its records are asked too.", HelpName = "ID" };
        var keep = new Option<bool>("--keep") { Description = "Write down what was seen and decided, with the day of the next look. Needs --package." };
        return line.Command("trouble", "Questions for what was found: mould or crystals, a bulge, beetles; after heat, a power cut, a flood, a move.", async call =>
        {
            var asked = TroubleTrees.Of(call.Value(tree)!);
            var given = call.Value(answers) ?? [];
            using var cellars = call.CellarsOrNew();
            if (call.Value(keep))
            {
                var id = call.Value(package) ?? throw new WrongUsage("To keep it, name the package: --package ID.");
                var kept = await TroubleTrees.Keep(cellars, call.Present, id, asked, given);
                return (KeptAnswer.Of(kept, call.Present(kept.After)) with { Event = EventName.Of(kept.Events[0]) }).ToAnswer();
            }

            var cellar = await cellars.LearnAsync(await cellars.ReadAsync());
            var said = TroubleTrees.Say(asked, given, cellar, call.Value(package) is { } named ? cellar.FindPackage(named) : null, call.Present(cellar).Today);
            return new Answer(said, page => Print(page, said, call.Value(package)));
        }, tree, answers, package, keep);
    }

    private static Command Identifying(CommandLine line)
    {
        var code = new Option<string?>("--code") { Description = "What is left of its code, ? for what cannot be read, such as 2G?JX.", HelpName = "CODE" };
        var container = new Option<string?>("--container") { Description = "What it is in, such as jar-473.", HelpName = "KIND" };
        var place = new Option<string?>("--place") { Description = "Where it was found.", HelpName = "PLACE" };
        var cut = new Option<string?>("--cut") { Description = "As it looks: ribbon, flake …", HelpName = "CUT" };
        var gross = new Option<string?>("--gross") { Description = "What a scale shows, whole.", HelpName = "MASS" };
        var views = new ViewOptions();
        return line.Command("identify", "Rank which package an unlabelled jar may be, with what speaks for and against each.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var found = Identify.Of(cellar, new Unlabelled(call.Value(code), call.Value(container), call.Value(place), call.Value(cut), call.Value(gross)), today);
            return new Answer(found, page => Print(page, found));
        }, code, container, place, cut, gross, views.AsOf, views.KnownOn);
    }

    private static void Print(IAnsiConsole page, TroubleSaid said, string? package)
    {
        page.WriteLine(said.End?.Verdict ?? said.Question!);
        foreach (var known in said.Evidence)
            Point(page, known);
        if (said.End is { } end)
        {
            Point(page, end.Reason);
            page.WriteLine();
            foreach (var step in end.Do)
                Point(page, "- " + step);
            page.WriteLine();
            page.Write(new Text($"Take care: {end.Caution}\n"));
            page.WriteLine($"So: {end.Decision.Replace('-', ' ')}. Look again on {end.LookAgain}.");
            page.Write(new Text($"Write it down: undercroft trouble {said.Tree} {string.Join(' ', said.Path)} --package {package ?? "ID"} --keep\n"));
            return;
        }

        if (said.How is { } how)
            Point(page, how);
        foreach (var answer in said.Answers)
            Point(page, $"{answer.Code}: {answer.Word}");
        page.WriteLine();
        page.Write(new Text($"First: {said.First}\n"));
        page.Write(new Text($"Answer: undercroft trouble {string.Join(' ', [said.Tree, .. said.Path])} {said.Answers[0].Code}\n"));
    }

    private static void Print(IAnsiConsole page, Identified found)
    {
        page.Write(new Text(found.Verdict + "\n"));
        foreach (var candidate in found.Candidates)
        {
            page.Write(new Text($"{candidate.Id}  {candidate.Share.ToString("0 %", CultureInfo.InvariantCulture)}  {candidate.What}\n"));
            foreach (var word in candidate.For)
                Point(page, "+ " + word);
            foreach (var word in candidate.Against)
                Point(page, "- " + word);
        }

        page.Write(new Text($"None of them: {found.NoneShare.ToString("0 %", CultureInfo.InvariantCulture)}\n"));
        page.Write(new Text($"To tell: {found.Test}\n"));
        page.Write(new Text($"Take care: {found.Caution}\n"));
        page.WriteLine($"Look again on {found.LookAgain}.");
    }

    private static void Point(IAnsiConsole page, string text) => page.Write(new Padder(new Text(text)).Padding(2, 0, 0, 0));
}
