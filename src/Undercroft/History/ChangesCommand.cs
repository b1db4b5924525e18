using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.History;

/// <summary><c>changes</c>: what changed since a day, such as a year ago.</summary>
public static class ChangesCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var since = new Option<string?>("--since") { Description = "The earlier day as YYYY-MM-DD (else a year ago).", HelpName = "DATE" };
        var until = new Option<string?>("--until") { Description = "The later day (else today).", HelpName = "DATE" };
        var known = new Option<bool>("--known") { Description = "Compare what the ledger said on those days, instead of what was so by today's knowledge." };
        return line.Command("changes", "Show what changed since a day: what came, went, moved, was opened, and how much leaf there is.", async call =>
        {
            using var cellars = call.Cellars();
            var today = call.Present(await cellars.ReadAsync()).Today;
            var found = await ChangesSince.Of(cellars, ViewOptions.Day(call.Value(since)) ?? today.AddYears(-1), ViewOptions.Day(call.Value(until)) ?? today, call.Value(known));
            return new Answer(found, page => Print(page, found));
        }, since, until, known);
    }

    private static void Print(IAnsiConsole page, ChangesFound found)
    {
        page.WriteLine(found.Verdict);
        page.WriteLine($"Leaf on record: {Range(found.Before)} then, {Range(found.After)} on {found.Until}.");
        foreach (var (word, packages) in new[] { ("Came", found.Came), ("Went", found.Went), ("Moved", found.Moved), ("Opened", found.Opened), ("Closed", found.Closed), ("Repacked", found.Repacked) })
        {
            if (packages.Count == 0)
                continue;
            page.WriteLine($"{word}:");
            foreach (var package in packages)
                page.Write(new Padder(new Text($"{package.Id}  {package.Blend ?? "blend unknown"}{Way(package)}")).Padding(2, 0, 0, 0));
        }

        page.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{found.Written} {(found.Written == 1 ? "line was" : "lines were")} written down in that time; see undercroft history."));
    }

    private static string Way(ChangedPackage package) => (package.From, package.To) switch
    {
        (null, null) => "",
        (null, { } to) => $": {to}",
        ({ } from, var to) => $": {from} → {to ?? "nobody says where"}",
    };

    private static string Range(LeafAmount amount) => string.Create(CultureInfo.InvariantCulture,
        $"{PackageWords.Range(Mass.FromGrams(amount.LowG), Mass.FromGrams(amount.HighG))} in {amount.Packages} packages{(amount.UnknownPackages > 0 ? $" ({amount.UnknownPackages} of unknown weight)" : "")}");
}
