using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Forecasts.Due;
using Undercroft.Shell;

namespace Undercroft.Due;

/// <summary><c>due</c>: what needs a look.</summary>
public static class DueCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var minutes = new Option<double>("--minutes") { Description = "How long the round may take.", HelpName = "N", DefaultValueFactory = _ => 15 };
        var money = new Option<bool>("--money") { Description = "Rank by what was paid instead of by grams." };
        var seed = new Option<ulong>("--seed") { Description = "Of the forecasts.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var views = new ViewOptions();
        return line.Command("due", "List what needs a look, by place, with what to check and what counts as bad.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var answer = DueList.Of(cellar, today, call.Value(minutes), call.Value(money) ? RankedBy.Money : RankedBy.Grams, call.Value(seed));
            return new Answer(answer, page => Print(page, answer));
        }, minutes, money, seed, views.AsOf, views.KnownOn);
    }

    private static void Print(IAnsiConsole page, DueAnswer answer)
    {
        page.WriteLine(answer.Verdict);
        foreach (var place in answer.Items.GroupBy(item => item.Place ?? "Place unknown"))
        {
            page.WriteLine();
            page.WriteLine(place.Key);
            foreach (var item in place)
            {
                page.Write(new Padder(new Text(string.Create(CultureInfo.InvariantCulture,
                    $"{item.Rank}. {item.Id}  {item.Blend ?? "blend unknown"}: {item.Reason} ({item.DueWords}, {100 * item.Share:0}% of this list's risk)"))).Padding(2, 0, 0, 0));
                page.Write(new Padder(new Text($"{item.Check}. Bad: {item.BadIf}.")).Padding(5, 0, 0, 0));
            }
        }

        if (answer.Items.Count > 0)
        {
            page.WriteLine();
            page.WriteLine($"Ranked by {answer.RankedBy} that may be lost within a year and can still be saved.");
            page.WriteLine("Write down what you see: undercroft look ID, undercroft weigh ID MASS.");
        }
    }
}
