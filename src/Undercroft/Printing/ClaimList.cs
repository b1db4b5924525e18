using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Printing.Drawing;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Printing;

/// <summary>What stands where, package by package, for an insurer or after a loss. What was paid and what it would cost again are two columns, and a blank is a blank.</summary>
internal static class ClaimList
{
    /// <summary>The list.</summary>
    internal static Printed Of(Cellar cellar, IReadOnlyList<Package> packages, PaperSize size, Money? per50Grams, DateOnly today)
    {
        using var paper = new Paper("Claim list", today);
        var flow = new Flow(paper, size.Lying, "Claim list: pipe tobacco", "Claim list");
        var (paid, again) = (packages.Select(package => Worth.Paid(cellar, package)).ToArray(), packages.Select(package => Worth.Replaced(package, per50Grams)).ToArray());
        flow.Say($"{packages.Count} {(packages.Count == 1 ? "package" : "packages")}, from records kept by the owner since {Since(packages)}. Paid: {Worth.Told(Worth.Sum(paid), packages.Count)}. "
            + (per50Grams is null ? "What it would cost to buy again was not stated." : $"To buy again at {Worth.Range(per50Grams)} for 50 g, stated by the owner: {Worth.Told(Worth.Sum(again), packages.Count)}."));
        flow.Say("A blank means that nobody wrote it down; it does not mean nothing. Leaf is by the book: as stated or weighed at packing, less what was taken. Policies differ on tobacco, on limits for single sorts of things and on spoilage: ask before you rely on this list.", quiet: true);
        var what = flow.Width - (17 + 42 + 45 + 26 + 24 + 30 + 32 + 20);
        flow.Table(
            [
                new("Code", 17), new("What", what), new("In", 42), new("Where", 45), new("Closed", 26), new("Leaf", 24, Right: true), new("Paid", 30, Right: true),
                new("To buy again", 32, Right: true), new("Photos", 20, Right: true),
            ],
            [.. packages.Select((package, n) => (FlowCell[])
            [
                new(package.Id.ToString(), Bold: true),
                PackageWords.Title(cellar, package),
                package.Container == Container.Unknown ? "" : PackageWords.Container(package),
                cellar.PathOf(package.Place) ?? "",
                DateText.Of(package.Sealed),
                package.BookNet.IsKnown ? PackageWords.Mass(package.BookNet) : "",
                paid[n]?.ToString() ?? "",
                again[n]?.ToString() ?? "",
                package.Of<Fact.PhotoKept>().Count() is > 0 and var photos ? photos.ToString(CultureInfo.InvariantCulture) : "",
            ])]);
        var pictures = packages.SelectMany(package => package.Of<Fact.PhotoKept>().Select(photo => (package.Id, photo))).ToArray();
        if (pictures.Length > 0)
        {
            flow.Heading("Photos");
            flow.Say("Kept in the data folder under the whole digest; its beginning is enough to find them.", quiet: true);
            flow.Table(
                [new("Code", 17), new("Taken", 30), new("File in photos/", 60), new("What it shows", flow.Width - 107)],
                [.. pictures.Select(picture => (FlowCell[])[new(picture.Id.ToString(), Bold: true), DateText.Of(picture.photo.Entry.Happened), picture.photo.Fact.Sha256[..16] + " …", picture.photo.Fact.Text ?? ""])]);
        }

        return flow.Finished();
    }

    private static string Since(IReadOnlyList<Package> packages) => packages.Count == 0 ? "today" : DateText.Of(packages.Min(package => package.Timeline.Min(entry => DateOnly.FromDateTime(entry.Recorded.UtcDateTime))));
}
