using System.CommandLine;
using Spectre.Console;
using Undercroft.Forecasts.Places;
using Undercroft.Shell;

namespace Undercroft.Keeping.Watering;

/// <summary><c>condition</c>: bring leaf to another moisture by weight, and write down how it went.</summary>
public static class ConditionCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var id = Door.Package();
        var to = new Option<string?>("--to") { Description = "Target moisture of the whole mass, such as 14%.", HelpName = "PCT" };
        var humidity = new Option<string?>("--to-humidity") { Description = "Or the humidity that it should come to when closed, such as 60%, the usual target.", HelpName = "PCT" };
        var from = new Option<string?>("--from") { Description = "Its moisture now; left out, what the forecast says.", HelpName = "PCT" };
        var net = new Option<string?>("--net") { Description = "Leaf in it now; left out, what is on record.", HelpName = "MASS" };
        var before = new Option<string?>("--before") { Description = "Done: what the scale showed before.", HelpName = "MASS" };
        var after = new Option<string?>("--after") { Description = "Done: what it showed afterwards.", HelpName = "MASS" };
        var leaf = new Option<bool>("--leaf-alone") { Description = "Done: the leaf alone was weighed." };
        var read = new Option<string?>("--humidity") { Description = "Done: the humidity inside, afterwards.", HelpName = "PCT" };
        var on = Door.On();
        return line.Command("condition", "Plan how to wet or dry leaf by weight; or, with --before and --after, write a step of it down.", async call =>
        {
            if ((call.Value(before), call.Value(after)) is (not null, not null))
            {
                using var cellars = call.Cellars();
                var kept = await Conditioning.Of(cellars, call.Present, call.Value(id)!, new ConditionDone(call.Value(before)!, call.Value(after)!, call.Value(leaf), call.Value(read), On: call.Value(on)));
                return (KeptAnswer.Of(kept, call.Present(kept.After)) with { Event = EventName.Of(kept.Events[0]) }).ToAnswer();
            }

            if (call.Value(before) is not null || call.Value(after) is not null || call.Value(read) is not null || call.Value(leaf))
                throw new WrongUsage("A step that was done needs both --before and --after.");
            using var open = call.Cellars();
            var cellar = await open.LearnAsync(await open.ReadAsync());
            var plan = WaterPlan.Of(cellar, cellar.FindPackage(call.Value(id)!), new WaterAsk(call.Value(to), call.Value(humidity), call.Value(from), call.Value(net)), call.Present(cellar).Today);
            return new Answer(plan, page => Print(page, plan));
        }, id, to, humidity, from, net, before, after, leaf, read, on);
    }

    private static void Print(IAnsiConsole page, WaterPlan plan)
    {
        page.WriteLine($"{plan.Id}: {plan.Verdict}");
        foreach (var reason in plan.Reasons)
            Point(page, reason);
        Section(page, "How", plan.How);
        Section(page, "Stop when, whichever comes first,", plan.StopWhen);
        Section(page, "Weigh again", [.. plan.WeighAgain.Select(step => $"{step.On}: {step.What}")]);
        Section(page, "Take care", plan.Cautions);
        page.WriteLine();
        page.WriteLine($"Would narrow it most: {plan.NarrowedBy}.");
        if (plan.Act is "add" or "dry")
            page.WriteLine($"Write it down: undercroft condition {plan.Id} --before MASS --after MASS");
    }

    private static void Section(IAnsiConsole page, string head, IReadOnlyList<string> lines)
    {
        if (lines.Count == 0)
            return;
        page.WriteLine();
        page.WriteLine(head);
        foreach (var line in lines)
            Point(page, line);
    }

    private static void Point(IAnsiConsole page, string text) => page.Write(new Padder(new Text(text)).Padding(2, 0, 0, 0));
}
