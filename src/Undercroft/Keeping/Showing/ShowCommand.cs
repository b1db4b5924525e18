using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Keeping.Showing;

/// <summary><c>show</c>: what stands where.</summary>
public static class ShowCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var id = new Argument<string?>("id") { Description = "One package; else all that are here.", Arity = ArgumentArity.ZeroOrOne };
        var views = new ViewOptions();
        return line.Command("show", "Show packages: what, how much, in what, where, how old.", async call =>
        {
            var view = views.Of(call);
            using var cellars = call.Cellars();
            var cellar = await cellars.ReadAsync(view);
            var today = view.AsOf ?? call.Present(cellar).Today;
            var lines = ShowPackages.Of(cellar, today, call.Value(id));
            return new Answer(new { packages = lines }, page => Print(page, lines));
        }, id, views.AsOf, views.KnownOn);
    }

    private static void Print(IAnsiConsole page, IReadOnlyList<PackageLine> lines)
    {
        if (lines.Count == 0)
        {
            page.WriteLine("Nothing stands here yet. Begin with: undercroft add --blend … --net 50g --container jar-237");
            return;
        }

        foreach (var place in lines.GroupBy(line => line.Place ?? "Place unknown"))
        {
            page.WriteLine($"{place.Key} ({place.Count()})");
            var table = new Table().Border(TableBorder.None).HideHeaders()
                .AddColumn("").AddColumn(new TableColumn("").NoWrap()).AddColumn("").AddColumn(new TableColumn("").RightAligned()).AddColumn("").AddColumn("");
            foreach (var line in place)
            {
                table.AddRow(
                    new Text("  " + line.Id), new Text(Shortened(line.Blend ?? "blend unknown", 26)), new Text(line.Container ?? "container unknown"),
                    new Text(Grams(line)), new Text(line.LeafAge?.ToString() ?? "age unknown"),
                    new Text(line.Removed ?? (line.Opened is null ? "closed" : "open")));
            }

            page.Write(table);
        }

        var known = lines.Where(line => line.NetG is not null).ToArray();
        var unknown = lines.Count - known.Length;
        page.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{lines.Count} {(lines.Count == 1 ? "package" : "packages")}, {Range(known.Sum(line => line.NetLowG!.Value), known.Sum(line => line.NetHighG!.Value))} on record{(unknown > 0 ? $"; {unknown} of unknown weight" : "")}."));
        foreach (var line in lines)
        {
            foreach (var doubt in line.Doubts)
                page.WriteLine($"{line.Id}: {doubt}");
        }
    }

    private static string Grams(PackageLine line) =>
        line is { NetLowG: { } low, NetHighG: { } high } ? Range(low, high) : "? g";

    private static string Range(double low, double high) => PackageWords.Range(Mass.FromGrams(low), Mass.FromGrams(high));

    private static string Shortened(string text, int most) => text.Length <= most ? text : text[..(most - 1)] + "…";
}
