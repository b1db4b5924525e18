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
        Worked[] lots = [.. cellar.Lots.Values.Select(lot => Lot(cellar, lot)).OfType<Worked>()];
        var (paid, replace, sale) = (Total(lots.Select(lot => lot.Paid)), Total(lots.Select(lot => lot.Replace)), Total(lots.Select(lot => lot.Sale)));
        var verdict = lots.Length == 0 ? "Nothing stands here yet."
            : paid.Sums.Count + replace.Sums.Count + sale.Sums.Count == 0 ? "Nobody wrote down a price. What a receipt says is a start."
            : $"Paid {Words(paid)}; to replace {Words(replace)}; likely sale {Words(sale)}.";
        return new(verdict, paid, replace, sale, OnSelling, [.. lots.Select(lot => lot.Figures)]);
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
        var form = sum.High >= 1000 || (sum.Low == Math.Floor(sum.Low) && sum.High == Math.Floor(sum.High)) ? "0" : "0.00";
        var (low, high) = (sum.Low.ToString(form, CultureInfo.InvariantCulture), sum.High.ToString(form, CultureInfo.InvariantCulture));
        return low == high ? $"{low} {sum.Currency}" : $"{low}–{high} {sum.Currency}";
    }

    private static Worked? Lot(Cellar cellar, Ledger.Lot lot)
    {
        if (!lot.Packages.Any(id => cellar.Packages[id].IsHere))
            return null;
        var share = LotShare.Of(cellar, lot);
        var (paid, replace, sale) = (MoneyRange.Part(lot.Paid, share.Here), MoneyRange.Part(lot.Replace, share.Here), MoneyRange.Part(lot.Sale, share.Here));
        return new(new(lot.Id.ToString(), lot.Blend.Name, share.Here, share.ByGrams, Shown(paid), Shown(replace), Shown(sale)), paid, replace, sale);
    }

    private static Sum? Shown(MoneyRange? range, int lots = 1) => range is null ? null : new(range.Currency, (double)range.Low, (double)range.High, lots);

    private static Figure Total(IEnumerable<MoneyRange?> ranges)
    {
        var total = MoneyTotal.Of(ranges);
        return new([.. total.Sums.Select(sum => Shown(sum.Range, sum.Count)!)], total.Unknown);
    }

    private sealed record Worked(LotFigures Figures, MoneyRange? Paid, MoneyRange? Replace, MoneyRange? Sale);
}
