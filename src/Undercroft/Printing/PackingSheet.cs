using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;
using Undercroft.Printing.Drawing;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Printing;

/// <summary>A sheet for the table on the day of packing: what is to be packed anew, which jars would hold it, the order of work, and blanks for the scale.</summary>
internal static class PackingSheet
{
    private static readonly string[] Short = ["bag-bulk", "bag-zip", "bag-sandwich", "pouch-leather", "tin-opened", "tin-unlined", "tin-paper"];
    private static readonly string[] Jars = ["jar-118", "jar-237", "jar-473", "jar-946"];

    /// <summary>Leaf that does not keep where it is: what is open, and what stands in bags or unlined tins.</summary>
    internal static IReadOnlyList<Package> Waiting(Cellar cellar) =>
        [.. Chosen.ByPlace(cellar, cellar.Here.Where(package => package.IsOpen || Short.Contains(package.Container.Kind)))];

    /// <summary>The sheet.</summary>
    internal static Printed Of(Cellar cellar, IReadOnlyList<Package> packages, PaperSize size, DateOnly today)
    {
        using var paper = new Paper("Packing sheet", today);
        var flow = new Flow(paper, size.Lying, "Packing sheet", "Packing sheet");
        flow.Say(packages.Count == 0 ? "Nothing waits to be packed anew: no open package, no bag, no unlined tin." : $"{packages.Count} {(packages.Count == 1 ? "package" : "packages")} to pack anew. Date: ____________   Room: ______ °C ______ %");
        flow.Heading("Order of work");
        flow.Points(
        [
            "Leaf of strong aroma last; wash hands and table between kinds.",
            "Run a finger round each rim: chipped glass goes away. New lids; wash, and dry completely, a wet jar adds water.",
            "Is it moist enough, and not too moist? A hygrometer closed in with some of it for half a day should show 55 to 65 %. Over 70 % it is too wet to keep: dry it first.",
            "Weigh the empty jar with its lid and write it down. Fill, press until it resists, leave a finger's breadth; wipe the rim, no strand across the seal.",
            "Close; keep the band on, it holds the seal. Label on the body and on the lid. Weigh it whole, with its labels.",
            string.Create(CultureInfo.InvariantCulture, $"Look again after a day or two, by {DateText.Of(today.AddDays(2))} if packed today: drops inside mean too wet."),
        ], boxes: true);
        flow.Caution("Never heat a closed jar; nothing needs popping. Fuzz, musty smell or wet leaf: do not pack, smoke or taste it. Heavy glass stands low. Leaf left on the table is a poison to children and pets.");
        if (packages.Count > 0)
        {
            var last = flow.Width - (17 + 52 + 44 + 24 + 58 + 22 + 22);
            flow.Table(
                [new("Code", 17), new("What", 52), new("Now in", 44), new("Leaf", 24, Right: true), new("Jars that would hold it", 58), new("Empty, g", 22), new("Whole, g", 22), new("New code, done", last)],
                [.. packages.Select(package => (FlowCell[])
                [
                    new(package.Id.ToString(), Bold: true), PackageWords.Title(cellar, package), PackageWords.Container(cellar, package), package.BookNet.IsKnown ? PackageWords.Mass(package.BookNet) : "",
                    Holding(cellar, package), new(Blank: true), new(Blank: true), new(Box: true),
                ])], 11);
            flow.Say("How much a jar holds is common practice and differs by cut and hand; count your own packings. Put the lids to be bought at one tenth over.", quiet: true);
        }

        return flow.Finished();
    }

    /// <summary>The smallest jar that holds all of it, or so many of the size that wastes least; empty where the leaf is not known.</summary>
    private static string Holding(Cellar cellar, Package package)
    {
        if (package.BookNet.Mid is not { } leaf || !(leaf.Grams > 0))
            return "";
        var cut = Cuts.Find(cellar.BlendOf(package).Cut ?? "") ?? Cuts.Find("ribbon")!;
        var kinds = Jars.Select(code => ContainerKinds.Find(code)!).ToArray();
        var fitting = kinds.FirstOrDefault(kind => cut.TypicalIn(kind.Capacity) >= leaf);
        var (kind, count) = fitting is not null ? (fitting, 1) : (kinds[^2], (int)Math.Ceiling(leaf.Grams / cut.TypicalIn(kinds[^2].Capacity).Grams));
        var (low, high) = cut.RangeIn(kind.Capacity);
        return string.Create(CultureInfo.InvariantCulture, $"{count} × {kind.Name} ({low.Grams:0} to {high.Grams:0} g each)");
    }
}
