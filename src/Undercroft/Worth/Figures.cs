using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;

namespace Undercroft.Worth;

/// <summary>Money between two amounts, of one currency.</summary>
/// <param name="Currency">As entered.</param>
/// <param name="Low">At least.</param>
/// <param name="High">At most.</param>
/// <param name="Lots">Lots in it.</param>
public sealed record Sum(string Currency, double Low, double High, int Lots);

/// <summary>One of the three figures: by currency, which are never added to each other.</summary>
/// <param name="Sums">By currency, the most lots first.</param>
/// <param name="UnknownLots">Lots here of which nobody stated it: not in the sums, and not nothing.</param>
public sealed record Figure(IReadOnlyList<Sum> Sums, int UnknownLots);

/// <summary>One lot with its three figures, for what is still here of it.</summary>
/// <param name="Id">Its ID.</param>
/// <param name="Name">Of its blend.</param>
/// <param name="HereShare">How much of the lot is still here, 0 to 1: by grams where they are known, else by packages.</param>
/// <param name="ByGrams">True where it was told by grams.</param>
/// <param name="Paid">For what is here.</param>
/// <param name="Replace">For what is here.</param>
/// <param name="Sale">For what is here.</param>
public sealed record LotFigures(string Id, string? Name, double HereShare, bool ByGrams, Sum? Paid, Sum? Replace, Sum? Sale);

/// <summary>What the cellar is worth, as three figures that are never mixed: paid, to replace, likely sale.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="Paid">What was paid for what is still here (derived: the lot's price by the share that is left).</param>
/// <param name="Replace">What it would cost to buy now, as stated.</param>
/// <param name="Sale">What it would likely fetch where it may be sold, as stated.</param>
/// <param name="Caution">On selling.</param>
/// <param name="Lots">Lots with anything here.</param>
public sealed record Figures(string Verdict, Figure Paid, Figure Replace, Figure Sale, string Caution, IReadOnlyList<LotFigures> Lots)
{
    /// <summary>Where something is sold.</summary>
    public const string OnSelling = "Selling or posting tobacco may need a licence or be forbidden, also of one's own; ask the authority and the carrier first. A figure is no offer and no permission.";

    /// <summary>Of what is here.</summary>
    public static Figures Of(Cellar cellar)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        LotFigures[] lots = [.. cellar.Lots.Values.Select(lot => Lot(cellar, lot)).OfType<LotFigures>()];
        var (paid, replace, sale) = (Total(lots, lot => lot.Paid), Total(lots, lot => lot.Replace), Total(lots, lot => lot.Sale));
        var verdict = lots.Length == 0 ? "Nothing stands here yet."
            : paid.Sums.Count + replace.Sums.Count + sale.Sums.Count == 0 ? "Nobody wrote down a price. What a receipt says is a start."
            : $"Paid {Words(paid)}; to replace {Words(replace)}; likely sale {Words(sale)}.";
        return new(verdict, paid, replace, sale, OnSelling, lots);
    }

    /// <summary>In words: "120–140 EUR and 20 GBP (3 lots not known)".</summary>
    public static string Words(Figure figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        var sums = figure.Sums.Count == 0 ? "not known" : string.Join(" and ", figure.Sums.Select(Words));
        return figure.Sums.Count > 0 && figure.UnknownLots > 0 ? $"{sums} ({figure.UnknownLots} {(figure.UnknownLots == 1 ? "lot" : "lots")} not known)" : sums;
    }

    /// <summary>In words: "120–140 EUR".</summary>
    public static string Words(Sum? sum)
    {
        if (sum is null)
            return "not known";
        var form = sum.High >= 1000 ? "0" : "0.##";
        var (low, high) = (sum.Low.ToString(form, CultureInfo.InvariantCulture), sum.High.ToString(form, CultureInfo.InvariantCulture));
        return low == high ? $"{low} {sum.Currency}" : $"{low}–{high} {sum.Currency}";
    }

    private static LotFigures? Lot(Cellar cellar, Ledger.Lot lot)
    {
        Package[] all = [.. lot.Packages.Select(id => cellar.Packages[id])];
        Package[] here = [.. all.Where(package => package.IsHere)];
        if (here.Length == 0)
            return null;
        // Leaf that went into other packages of the lot is counted there.
        Package[] first = [.. all.Where(package => package.Removed is not { Fact.As: Ledger.Events.RemovedAs.Split })];
        var came = lot.Net.Mid?.Grams ?? (first.All(package => package.Net.IsKnown) ? first.Sum(package => package.Net.Mid!.Value.Grams) : (double?)null);
        var byGrams = came > 0 && here.All(package => package.BookNet.IsKnown);
        var share = byGrams ? Math.Clamp(here.Sum(package => package.BookNet.Mid!.Value.Grams) / came!.Value, 0, 1) : here.Length / (double)first.Length;
        return new(lot.Id.ToString(), lot.Blend.Name, share, byGrams, Part(lot.Paid, share), Part(lot.Replace, share), Part(lot.Sale, share));
    }

    private static Sum? Part(Money? money, double share) => money is null ? null : new(money.Currency, (double)money.Low * share, (double)money.High * share, 1);

    private static Figure Total(IReadOnlyList<LotFigures> lots, Func<LotFigures, Sum?> which) => new(
        [
            .. lots.Select(which).OfType<Sum>().GroupBy(sum => sum.Currency, StringComparer.Ordinal)
                .Select(group => new Sum(group.Key, group.Sum(sum => sum.Low), group.Sum(sum => sum.High), group.Count()))
                .OrderByDescending(sum => sum.Lots).ThenBy(sum => sum.Currency, StringComparer.Ordinal),
        ],
        lots.Count(lot => which(lot) is null));
}
