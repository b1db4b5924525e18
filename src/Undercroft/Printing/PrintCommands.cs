using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Forecasts.Due;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Physics.Quantities;
using Undercroft.Printing.Drawing;
using Undercroft.Shell;

namespace Undercroft.Printing;

/// <summary><c>print</c>: papers that outlive every phone.</summary>
public static class PrintCommands
{
    private const string Advice = "Print at 100 %, not fitted to the page. Laser or pigment ink lasts; thermal print fades within years.";

    /// <summary>The commands.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return CommandLine.Group("print", "Papers as PDF: labels, round, packing, hand-over, claim, provenance.",
            Labelling(line), Round(line), Packing(line), Handing(line), Claim(line), Story(line));
    }

    private static Command Round(CommandLine line)
    {
        var minutes = new Option<double>("--minutes") { Description = "How long the round may take.", HelpName = "N", DefaultValueFactory = _ => 15 };
        var (size, file) = (Size(), Out());
        var views = new ViewOptions();
        return line.Command("round", "Print the round: what needs a look, by shelf, with boxes and lines for a pencil.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var due = DueList.Of(cellar, today, call.Value(minutes));
            return Written(call, call.Value(file)!, RoundSheet.Of(due, PaperSize.Of(call.Value(size)!), today), $"Round of {Many(due.Items.Count)}", "Type it back in at the page under Round, or with undercroft weigh and look.");
        }, minutes, size, file, views.AsOf, views.KnownOn);
    }

    private static Command Packing(CommandLine line)
    {
        var ids = new Argument<string[]>("ids") { Description = "Packages; left out, what stands open, in bags or in unlined tins.", Arity = ArgumentArity.ZeroOrMore };
        var (size, file) = (Size(), Out());
        var views = new ViewOptions();
        return line.Command("packing", "Print a sheet for the day of packing: what, into which jars, in which order.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var chosen = call.Value(ids) is { Length: > 0 } named ? Chosen.Of(cellar, named) : PackingSheet.Waiting(cellar);
            return Written(call, call.Value(file)!, PackingSheet.Of(cellar, chosen, PaperSize.Of(call.Value(size)!), today), $"Packing sheet for {Many(chosen.Count)}", "Write down what was packed with undercroft repack.");
        }, ids, size, file, views.AsOf, views.KnownOn);
    }

    private static Command Handing(CommandLine line)
    {
        var decides = new Option<string?>("--decides") { Description = "Who decides what becomes of it; left out, a line to fill in by hand.", HelpName = "WHO" };
        var ask = new Option<string?>("--ask") { Description = "Who knows about it; left out, a line to fill in by hand.", HelpName = "WHO" };
        var (again, size, file) = (Again(), Size(), Out());
        var views = new ViewOptions();
        return line.Command("handover", "Print a sheet in plain words for whoever is left.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var printed = HandOver.Of(cellar, PaperSize.Of(call.Value(size)!), new HandOverAsk(call.Value(decides), call.Value(ask), Money.Parse(call.Value(again))), today);
            return Written(call, call.Value(file)!, printed, $"Hand-over sheet for {Many(cellar.Here.Count())}", "It says what you own and where: lay it where the right person finds it, and print it anew each year.");
        }, decides, ask, again, size, file, views.AsOf, views.KnownOn);
    }

    private static Command Claim(CommandLine line)
    {
        var ids = new Argument<string[]>("ids") { Description = "Packages; left out, all that are here.", Arity = ArgumentArity.ZeroOrMore };
        var place = new Option<string?>("--place") { Description = "Only what stands there or inside of it.", HelpName = "PLACE" };
        var (again, size, file) = (Again(), Size(), Out());
        var views = new ViewOptions();
        return line.Command("claim", "Print a claim list: every package, what was paid, and apart from it what it would cost again.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var chosen = Chosen.Of(cellar, call.Value(ids) ?? [], call.Value(place));
            var printed = ClaimList.Of(cellar, chosen, PaperSize.Of(call.Value(size)!), Money.Parse(call.Value(again)), today, digest => DataFolder.Existing(call.DataFolder).Photo(digest));
            return Written(call, call.Value(file)!, printed, $"Claim list of {Many(chosen.Count)}", "Keep a copy in another house.");
        }, ids, place, again, size, file, views.AsOf, views.KnownOn);
    }

    private static Command Story(CommandLine line)
    {
        var ids = new Argument<string[]>("ids") { Description = "Packages.", Arity = ArgumentArity.OneOrMore };
        var (size, file) = (Size(), Out());
        var views = new ViewOptions();
        return line.Command("provenance", "Print the story of a package as its records tell it.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var chosen = Chosen.Of(cellar, call.Value(ids)!);
            return Written(call, call.Value(file)!, Provenance.Of(cellar, chosen, PaperSize.Of(call.Value(size)!), today), $"Provenance of {Many(chosen.Count)}", "It is no permission to sell, post or give tobacco away: ask the authority and the carrier first.");
        }, ids, size, file, views.AsOf, views.KnownOn);
    }

    private static Option<string> Size() => new("--paper") { Description = "a4 or letter.", HelpName = "SIZE", DefaultValueFactory = _ => "a4" };

    private static Option<string?> Again() => new("--again") { Description = "What 50 g would cost today, as you reckon, such as 18..30EUR; never mixed with what was paid.", HelpName = "MONEY" };

    private static Command Labelling(CommandLine line)
    {
        var ids = new Argument<string[]>("ids") { Description = "Packages; left out, all that are here.", Arity = ArgumentArity.ZeroOrMore };
        var place = new Option<string?>("--place") { Description = "Only what stands there or inside of it.", HelpName = "PLACE" };
        var sheet = new Option<string>("--sheet") { Description = $"Which labels: {string.Join(", ", LabelSheet.All.Select(known => known.Code))}.", HelpName = "SHEET", DefaultValueFactory = _ => LabelSheet.All[0].Code };
        var start = new Option<int>("--start") { Description = "The first label that is still on the sheet, counted along the rows from 1.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var offset = new Option<string?>("--offset") { Description = "All of it shifted right and down, such as 1.5mm,-0.5mm.", HelpName = "RIGHT,DOWN" };
        var parts = new Option<string>("--parts") { Description = "body, lid or both.", HelpName = "PARTS", DefaultValueFactory = _ => "both" };
        var file = Out();
        var views = new ViewOptions();
        return line.Command("labels", "Print labels with a code for the eye and the same code to scan, for body and lid.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var (right, down) = Shift(call.Value(offset));
            var ask = new LabelAsk(
                LabelSheet.Of(call.Value(sheet)!), call.Value(start), right, down,
                CodeWords.Find<LabelParts>(call.Value(parts)) ?? throw new Refusal($"'{call.Value(parts)}' is none of: {string.Join(", ", CodeWords.All<LabelParts>())}."));
            var chosen = Chosen.Of(cellar, call.Value(ids) ?? [], call.Value(place));
            return Written(call, call.Value(file)!, Labels.Of(cellar, chosen, ask, today), $"Labels for {Many(chosen.Count)}", Advice);
        }, ids, place, sheet, start, offset, parts, file, views.AsOf, views.KnownOn);
    }

    private static Option<string> Out() => new("--out") { Description = "The PDF to write.", HelpName = "FILE", Required = true };

    private static Answer Written(Call call, string named, Printed printed, string what, string advice)
    {
        var path = call.Terminal.FullPath(named);
        OutFile.Write(path, printed.Bytes, "%PDF-"u8);
        return new Answer(new { files = new[] { path }, pages = printed.Pages, replacedSigns = printed.Replaced }, page => Print(page, path, printed, what, advice));
    }

    private static void Print(IAnsiConsole page, string path, Printed printed, string what, string advice)
    {
        page.WriteLine($"{what}: {printed.Pages} {(printed.Pages == 1 ? "page" : "pages")} written to");
        page.WriteLine("  " + path);
        if (printed.Replaced.Count > 0)
            page.WriteLine($"The font lacks {string.Join(" ", printed.Replaced.Take(20))}{(printed.Replaced.Count > 20 ? " …" : "")}: □ stands for each. Codes are never touched.");
        page.WriteLine(advice);
    }

    private static string Many(int packages) => string.Create(CultureInfo.InvariantCulture, $"{packages} {(packages == 1 ? "package" : "packages")}");

    /// <exception cref="Refusal">Not two lengths.</exception>
    private static (double Right, double Down) Shift(string? text)
    {
        if (text is null)
            return (0, 0);
        var ends = text.Split(',', StringSplitOptions.TrimEntries);
        if (ends.Length != 2)
            throw new Refusal($"'{text}' is not a shift: write two lengths, to the right and down, such as 1.5mm,-0.5mm.");
        return (Millimetres(ends[0]), Millimetres(ends[1]));

        static double Millimetres(string length)
        {
            var minus = length.StartsWith('-');
            var metres = QuantityText.OfLength.TryRead(minus ? length[1..] : length, out var why) ?? throw new Refusal(why);
            return (minus ? -1000 : 1000) * metres;
        }
    }
}
