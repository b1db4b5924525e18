using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Printing.Drawing;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Printing;

/// <summary>The story of a package as its records tell it: what is known, who says so, and what is not known.</summary>
internal static class Provenance
{
    /// <summary>One or more pages for each package.</summary>
    internal static Printed Of(Cellar cellar, IReadOnlyList<Package> packages, PaperSize size, DateOnly today)
    {
        if (packages.Count == 0)
            throw new Refusal("There is no package to tell the story of. Name one.");
        using var paper = new Paper("Provenance", today);
        Flow? flow = null;
        foreach (var package in packages)
        {
            var title = $"{PackageWords.Title(cellar, package)} · {package.Id}";
            flow = flow is null ? new Flow(paper, size, title, "Provenance") : flow.Turned().Titled(title);
            Tell(flow, cellar, package, today);
        }

        return flow!.Finished();
    }

    private static void Tell(Flow flow, Cellar cellar, Package package, DateOnly today)
    {
        var lot = cellar.Lots[package.Lot];
        flow.Say("From records that its owner kept; each line was written down when it says. It is no certificate, and no permission to sell, post or give tobacco away: ask the authority and the carrier first.", quiet: true);
        flow.Heading("What is known");
        flow.Table(
            [new("", 48), new("", flow.Width - 48)],
            [
                .. new (string, string?)[]
                {
                    ("Leaf", lot.Blend.Leaf.Count == 0 ? null : string.Join(", ", lot.Blend.Leaf.Select(share => share.Share.Mid is { } part ? string.Create(CultureInfo.InvariantCulture, $"{share.Kind} {100 * part:0} %") : share.Kind))),
                    ("Cut", PackageWords.Cut(lot.Blend.Cut)),
                    ("Came from", lot.Source),
                    ("Made", lot.Made.IsKnown ? $"{DateText.Of(lot.Made)}; leaf is {Age.On(lot.Made, today)} old" : null),
                    ("Closed", package.Sealed.IsKnown ? DateText.Of(package.Sealed) : null),
                    ("Undisturbed", package.UndisturbedSince.IsKnown ? $"since {DateText.Of(package.UndisturbedSince)}: {Age.On(package.UndisturbedSince, today)}" : null),
                    ("In", package.Container == Undercroft.Ledger.Events.Container.Unknown ? null : PackageWords.Container(cellar, package)),
                    ("Leaf at closing", package.NetAtClosing is { IsKnown: true } closed ? $"{PackageWords.Mass(closed)}, said by {Said(closed.By)}" : null),
                    ("Leaf now, on record", package.BookNet.IsKnown ? PackageWords.Mass(package.BookNet) : null),
                    ("Openings, repackings", string.Create(CultureInfo.InvariantCulture, $"{package.Openings.Count()} and {package.Repackings}, as far as written down")),
                    ("Others of its lot", lot.Packages.Count(id => id != package.Id && !LotShare.IsSplitUp(cellar.Packages[id])).ToString(CultureInfo.InvariantCulture)),
                }.Select(row => (FlowCell[])[new(row.Item1, Bold: true), row.Item2 ?? "not known"]),
            ]);
        flow.Heading("What happened to it");
        flow.Table(
            [new("When", 34), new("What", flow.Width - 34 - 34), new("Written down", 34)],
            [
                .. package.Timeline.Select(entry => (FlowCell[])
                    [entry.Happened.IsKnown ? DateText.Of(entry.Happened) : "not known", FactText.Of(cellar, entry.Fact), DateText.Of(DateOnly.FromDateTime(entry.Recorded.UtcDateTime))]),
            ]);
        flow.Caution("Not a promise of condition: leaf may have dried or moulded unseen. Domed lids are opened outdoors, slowly, turned away from faces. Suspected mould is not smoked, tasted or passed on.");
    }

    private static string Said(Ledger.Amounts.SaidBy by) => by switch
    {
        Ledger.Amounts.SaidBy.Unstated => "nobody in particular",
        Ledger.Amounts.SaidBy.Label => "its label",
        Ledger.Amounts.SaidBy.Receipt => "a receipt",
        Ledger.Amounts.SaidBy.Weighed => "a scale",
        Ledger.Amounts.SaidBy.Memory => "memory",
        Ledger.Amounts.SaidBy.Guess => "a guess",
        _ => throw new InvalidOperationException($"No words for {by}."),
    };
}
