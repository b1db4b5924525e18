using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Forecasts.Comparing;
using Undercroft.Shell;

namespace Undercroft.Comparing;

/// <summary><c>compare</c>: container kinds side by side for one lot.</summary>
public static class CompareCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var kinds = new Argument<string[]>("kind") { Description = "Container kinds, as listed by kinds; else a spread of usual ones that can be closed at home.", Arity = ArgumentArity.ZeroOrMore };
        var leaf = new Option<string?>("--leaf") { Description = "Leaf kind (else mixed leaf).", HelpName = "KIND" };
        var mass = new Option<string?>("--mass") { Description = "The whole lot, such as 250g (else 100g).", HelpName = "MASS" };
        var place = new Option<string?>("--place") { Description = "A place of the cellar, or a kind of room such as cupboard (else somewhere indoors).", HelpName = "PLACE" };
        var years = new Option<double>("--years") { Description = "Horizon.", HelpName = "N", DefaultValueFactory = _ => 10 };
        var moisture = new Option<string?>("--moisture") { Description = "Wet basis now, such as 16% (else as people usually pack it).", HelpName = "PERCENT" };
        var cut = new Option<string?>("--cut") { Description = "Cut: decides how much goes into one.", HelpName = "CUT" };
        var draws = new Option<int>("--draws") { Description = "Size of the ensemble.", HelpName = "N", DefaultValueFactory = _ => 256 };
        var seed = new Option<ulong>("--seed") { Description = "The same seed gives the same answer.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var views = new ViewOptions();
        return line.Command("compare", "Put container kinds side by side for one lot: what keeps it, for how long, at what cost.", async call =>
        {
            using var cellars = call.CellarsOrNew();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var query = new CompareQuery(
                call.Value(mass), call.Value(years), call.Value(leaf), call.Value(place), call.Value(moisture), call.Value(cut), call.Value(kinds) ?? [], call.Value(draws), call.Value(seed));
            var found = query.Answer(cellar, today);
            return new Answer(CompareAnswer.Of(found), page => Print(page, found));
        }, kinds, leaf, mass, place, years, moisture, cut, draws, seed, views.AsOf, views.KnownOn);
    }

    private static void Print(IAnsiConsole page, Comparison found)
    {
        page.Write(new Text(found.Verdict + "\n"));
        foreach (var reason in found.Reasons)
            page.Write(new Padder(new Text($"because {reason}")).Padding(2, 0, 0, 0));
        page.Write(new Text($"Next, by {found.Next.On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}: {found.Next.What}\n"));
        if (found.NarrowedBy is { } narrowing)
            page.Write(new Text(string.Create(CultureInfo.InvariantCulture, $"What would narrow it most: {narrowing.Measurement} (from {narrowing.SpreadNow:0.0} to about {narrowing.SpreadAfter:0.0} points of moisture).\n")));
        page.WriteLine();
        page.Write(new Text($"{found.Where}; at the horizon, middle (5–95 %):\n"));
        var table = new Table().Border(TableBorder.None).AddColumn(new TableColumn("Kind").NoWrap()).AddColumn("Moisture %").AddColumn("Activity").AddColumn("Oxygen kPa").AddColumn("In range");
        foreach (var outcome in found.Outcomes)
        {
            table.AddRow(
                outcome.Kind.Code, CompareText.Range(outcome.Moisture, "0"), CompareText.Range(outcome.Activity, "0.00"), CompareText.Range(outcome.Oxygen, "0"),
                CompareText.Percent(outcome.Forecast.InRange));
        }

        page.Write(table);
        page.WriteLine();
        table = new Table().Border(TableBorder.None).AddColumn(new TableColumn("Kind").NoWrap()).AddColumn("No.").AddColumn("O2 ml/g·yr").AddColumn("Cost/yr").AddColumn("Litres").AddColumn("See in").AddColumn("Pressed").AddColumn("Pack kept");
        foreach (var outcome in found.Outcomes)
        {
            table.AddRow(
                outcome.Kind.Code, outcome.Containers.ToString(CultureInfo.InvariantCulture), CompareText.TwoDigits(outcome.OxygenMlPerGYear.P50),
                outcome.CostPerYear is { } cost ? CompareText.TwoDigits(cost) + (outcome.Kind.Cost!.Value.Currency is { } own ? " " + own : "") : "–", CompareText.TwoDigits(outcome.Litres), Tick(outcome.Kind.SeeThrough), Tick(outcome.Kind.PressesLeaf),
                Tick(outcome.Kind.KeepsFactoryPack));
        }

        page.Write(table);
        page.WriteLine();
        page.WriteLine("Cost in dollars or euros, much the same here, unless a currency stands beside it.");
        page.WriteLine("Why a single transmission number misleads:");
        foreach (var sentence in found.WhyOneNumberMisleads)
            page.Write(new Padder(new Text(sentence)).Padding(2, 0, 0, 0));
        page.WriteLine();
        page.WriteLine("Rules of practice, and whether physics agrees here:");
        foreach (var rule in found.Practice)
            page.Write(new Padder(new Text($"{rule.Rule.Says} Physics {CompareText.Word(rule.Agrees)}: {rule.Physics}.")).Padding(2, 0, 0, 0));
        page.WriteLine();
        foreach (var (what, evidence) in CompareAnswer.RestsOn)
            page.Write(new Text($"{what}: {evidence.Tag}, {evidence.Remark}.\n"));
        page.WriteLine("What one kind rests on: undercroft kinds CODE");
    }

    private static string Tick(bool yes) => yes ? "yes" : "no";
}
