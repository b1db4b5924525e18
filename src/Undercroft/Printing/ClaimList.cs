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
    /// <param name="cellar">As read.</param>
    /// <param name="packages">Which.</param>
    /// <param name="size">Of the paper, which lies on its side.</param>
    /// <param name="per50Grams">What 50 g would cost today, as the person states it.</param>
    /// <param name="today">The day printed.</param>
    /// <param name="picture">The bytes of a kept photo by its digest; null where the file is missing.</param>
    internal static Printed Of(Cellar cellar, IReadOnlyList<Package> packages, PaperSize size, Money? per50Grams, DateOnly today, Func<string, byte[]?> picture)
    {
        using var paper = new Paper("Claim list", today);
        var flow = new Flow(paper, size.Lying, "Claim list: pipe tobacco", "Claim list");
        var (paid, again) = (packages.Select(package => Prices.Paid(cellar, package)).ToArray(), packages.Select(package => Prices.Replaced(package, per50Grams)).ToArray());
        flow.Say($"{packages.Count} {(packages.Count == 1 ? "package" : "packages")}, from records kept by the owner since {Since(packages)}. Paid: {Prices.Told(paid)}. "
            + (per50Grams is null ? "What it would cost to buy again was not stated." : $"To buy again at {Prices.Words(MoneyRange.Part(per50Grams))} for 50 g, stated by the owner: {Prices.Told(again)}."));
        flow.Say("A blank means that nobody wrote it down; it does not mean nothing. Leaf is as on record: stated or weighed at packing, less what was taken. Policies differ on tobacco, on limits for single sorts of things and on spoilage: ask before you rely on this list.", quiet: true);
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
                package.Container == Container.Unknown ? "" : PackageWords.Container(cellar, package),
                cellar.PathOf(package.Place) ?? "",
                DateText.Of(package.Sealed),
                package.BookNet.IsKnown ? PackageWords.Mass(package.BookNet) : "",
                Prices.Words(paid[n]),
                Prices.Words(again[n]),
                package.Of<Fact.PhotoKept>().Count() is > 0 and var photos ? photos.ToString(CultureInfo.InvariantCulture) : "",
            ])]);
        var pictures = packages.SelectMany(package => package.Of<Fact.PhotoKept>().Select(photo => (package.Id, photo))).ToArray();
        if (pictures.Length > 0)
        {
            flow.Heading("Photos");
            flow.Say("Kept in the data folder under the whole digest; its beginning is enough to find them.", quiet: true);
            flow.Table(
                [new("Code", 17), new("Taken", 30), new("File in photos/", 60), new("What it shows", flow.Width - 107)],
                [.. pictures.Select(one => (FlowCell[])[new(one.Id.ToString(), Bold: true), DateText.Of(one.photo.Entry.Happened), one.photo.Fact.Sha256[..16] + " …", one.photo.Fact.Text ?? ""])]);
            flow.Heading("The newest photo of each");
            flow.Pictures(pictures.GroupBy(shown => shown.Id).Select(one => one.MaxBy(shown => (shown.photo.Day, shown.photo.Entry.Version)))
                .Select(newest => (picture(newest.photo.Fact.Sha256), $"{newest.Id} · {DateText.Of(newest.photo.Entry.Happened)}")));
        }

        return flow.Finished();
    }

    private static string Since(IReadOnlyList<Package> packages) => packages.Count == 0 ? "today" : DateText.Of(packages.Min(package => package.Timeline.Min(entry => DateOnly.FromDateTime(entry.Recorded.UtcDateTime))));
}
