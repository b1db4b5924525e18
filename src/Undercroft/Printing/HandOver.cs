using System.Globalization;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Printing.Drawing;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Printing;

/// <summary>What the person wants said on the sheet; blank leaves a line for the pen. None of it is kept.</summary>
/// <param name="Decides">Who decides what becomes of it.</param>
/// <param name="Ask">Who knows about it.</param>
/// <param name="Per50Grams">What 50 g would cost today, as the person states it.</param>
public sealed record HandOverAsk(string? Decides = null, string? Ask = null, Money? Per50Grams = null);

/// <summary>One sheet in plain words for whoever is left: what this is, what not to do, where things stand, who decides.</summary>
internal static class HandOver
{
    /// <summary>The sheet.</summary>
    internal static Printed Of(Cellar cellar, PaperSize size, HandOverAsk ask, DateOnly today)
    {
        using var paper = new Paper("Hand-over sheet", today);
        Package[] here = [.. Chosen.ByPlace(cellar, cellar.Here)];
        var flow = new Flow(paper, size, "What stands here, and what to do with it", "Hand-over sheet");
        flow.Say("This sheet is for whoever looks after these things when I cannot. They are jars, tins and pouches of pipe tobacco that I put away on purpose, some to keep for many years. "
            + "Every package has a short code on its label, such as " + (here.FirstOrDefault()?.Id.ToString() ?? "2GDJX") + "; the same code stands in my records. Nothing has to be done today.");
        flow.Caution("Swallowed tobacco is a poison. Keep all of it locked away from children and pets. If a child or an animal has eaten some, call your poison centre or a vet at once; do not wait for signs.");
        flow.Heading("How much it is, and what it may be worth");
        flow.Points(Amounts(cellar, here, ask.Per50Grams));
        flow.Heading("Who decides");
        flow.Fill("Who decides what becomes of it", ask.Decides ?? "");
        flow.Fill("Who knows about it", ask.Ask ?? "");
        flow.Fill("Where the records are");
        flow.Fill("What I would like");
        flow.Fill("");
        flow.Heading("What not to do");
        flow.Points(
        [
            "Do not throw it away before somebody who knows it has looked. Old, closed and plain-looking can be the best of it.",
            "Do not open anything to see what is in it: the code tells. A closed tin that is opened is worth less.",
            "Do not heat it, freeze glass, or put it in the sun or by a stove. It wants to stand dark, cool, dry and upright, as it stands now.",
            "Do not wash labels off or swap lids.",
            "Do not sell, post, trade or give it away before you have asked the authority where you live, and the carrier. A licence may be needed, even for one's own things; heirs may not be allowed to sell. Nobody under age.",
        ]);
        flow.Heading("Where to take care");
        flow.Points(
        [
            "Fuzz, a musty smell or wet leaf may be mould: do not smoke, taste, bake or give it away. Leave it closed; bag it and throw it away. People with asthma or a weak immune system leave it to someone else.",
            "A domed lid or tin may be under pressure: turn it away from faces, do not pierce it. Open it outdoors if at all, slowly, with eye protection and a cloth over it.",
            "Broken or chipped glass: throw jar and leaf away.",
            "All tobacco smoke is harmful. Age changes its flavour, not its risk.",
        ]);
        if (StandsOut(cellar, here) is { Count: > 0 } odd)
        {
            flow.Heading("What needs someone soon");
            flow.Points(odd);
        }

        flow.Heading("Where it stands");
        flow.Table(
            [new("Place", 62), new("Packages", 20, Right: true), new("Leaf", 38, Right: true), new("What it is", flow.Width - 120)],
            [.. here.GroupBy(package => PackageWords.Place(cellar, package)).Select(place => (FlowCell[])
            [
                new(place.Key, Bold: true), place.Count().ToString(CultureInfo.InvariantCulture), Leaf(MassTotal.Of(place)),
                string.Join(", ", place.Select(package => PackageWords.Title(cellar, package)).Distinct().Take(8)) + (place.Select(package => PackageWords.Title(cellar, package)).Distinct().Count() > 8 ? " …" : ""),
            ])]);
        flow.Say("General information for adults. Laws on owning, posting, giving and selling tobacco differ by country, state and carrier and change often; my program does not know your law. A list of single packages can be printed as a claim list.", quiet: true);
        return flow.Finished();
    }

    private static IEnumerable<string> Amounts(Cellar cellar, Package[] here, Money? per50Grams)
    {
        var total = MassTotal.Of(here);
        yield return $"{here.Length} {(here.Length == 1 ? "package" : "packages")}; leaf by my records: {Leaf(total)}{(total.Unknown > 0 ? $". Of {total.Unknown} more nobody wrote down how much is in them" : "")}.";
        yield return $"Paid for it: {Prices.Told(here.Select(package => Prices.Paid(cellar, package)))}.";
        yield return per50Grams is null
            ? "What it would cost to buy again was not written down."
            : $"To buy it again, at {Prices.Words(MoneyRange.Part(per50Grams))} for 50 g, as I reckoned when this was printed: {Prices.Told(here.Select(package => Prices.Replaced(package, per50Grams)))}.";
        yield return "What it would bring, where selling is lawful, nobody knows until somebody offers: closed old tins may bring several times what was paid, dry or opened leaf little, mouldy leaf nothing. Let somebody look who does not buy it.";
    }

    private static List<string> StandsOut(Cellar cellar, Package[] here) =>
    [
        .. here.Select(package => (Package: package, Look: Findings.Unmended(package))).Where(pair => pair.Look is not null)
            .Select(pair => $"{pair.Package.Id}, {PackageWords.Place(cellar, pair.Package)}: {string.Join(", ", pair.Look!.Value.Fact.Findings.Where(Rules.IsAmiss).Select(Plain))}, seen {DateText.Of(pair.Look.Value.Entry.Happened)} and not settled since."),
        .. here.Where(package => package.IsOpen).Select(package => $"{package.Id}, {PackageWords.Place(cellar, package)}: stands open."),
    ];

    private static string Plain(Finding finding) => finding switch
    {
        Finding.Bulge => "its lid or wall is domed",
        Finding.MouldSuspected => "may be mouldy",
        Finding.Insects => "holes, dust or beetles",
        _ => CodeWords.Of(finding).Replace('-', ' '),
    };

    private static string Leaf(MassTotal total)
    {
        if (total.Packages == total.Unknown)
            return "not known";
        var (low, high) = (Math.Round(total.Low.Grams), Math.Round(total.High.Grams));
        return string.Create(CultureInfo.InvariantCulture, $"{(low == high ? $"{low:0}" : $"{low:0} to {high:0}")} g");
    }
}
