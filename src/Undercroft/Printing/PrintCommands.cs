using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Ledger;
using Undercroft.Physics.Quantities;
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
        return CommandLine.Group("print", "Papers as PDF: labels, round, packing, hand-over, claim, provenance.", Labelling(line));
    }

    private static Command Labelling(CommandLine line)
    {
        var ids = new Argument<string[]>("ids") { Description = "Packages; left out, all that are here.", Arity = ArgumentArity.ZeroOrMore };
        var place = new Option<string?>("--place") { Description = "Only what stands there or inside of it.", HelpName = "PLACE" };
        var sheet = new Option<string>("--sheet") { Description = $"Which labels: {string.Join(", ", LabelSheet.All.Select(known => known.Code))}.", HelpName = "SHEET", DefaultValueFactory = _ => LabelSheet.All[0].Code };
        var start = new Option<int>("--start") { Description = "The first label that is still on the sheet, counted along the rows from 1.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var offset = new Option<string?>("--offset") { Description = "All of it shifted right and down, such as 1.5mm,-0.5mm.", HelpName = "RIGHT,DOWN" };
        var parts = new Option<string>("--parts") { Description = "body, lid or both.", HelpName = "PARTS", DefaultValueFactory = _ => "both" };
        var file = Out();
        return line.Command("labels", "Print labels with a code for the eye and the same code to scan, for body and lid.", async call =>
        {
            using var cellars = call.Cellars();
            var cellar = await cellars.ReadAsync();
            var (right, down) = Shift(call.Value(offset));
            var ask = new LabelAsk(
                LabelSheet.Of(call.Value(sheet)!), call.Value(start), right, down,
                CodeWords.Find<LabelParts>(call.Value(parts)) ?? throw new Refusal($"'{call.Value(parts)}' is none of: {string.Join(", ", CodeWords.All<LabelParts>())}."));
            var chosen = Chosen.Of(cellar, call.Value(ids) ?? [], call.Value(place));
            return Written(call, call.Value(file)!, Labels.Of(cellar, chosen, ask, call.Present(cellar).Today), $"Labels for {Many(chosen.Count)}", Advice);
        }, ids, place, sheet, start, offset, parts, file);
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
