using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;

namespace Undercroft.Printing;

/// <summary>What packages cost and would cost: two figures that are never mixed, and a third that nobody has: what they would bring.</summary>
internal static class Prices
{
    /// <summary>Its share of what was paid for its lot. Null where nobody wrote a price down.</summary>
    internal static MoneyRange? Paid(Cellar cellar, Package package)
    {
        var lot = cellar.Lots[package.Lot];
        return lot.Paid is null ? null : MoneyRange.Part(lot.Paid, LotShare.Of(cellar, lot).ByPackage[package.Id]);
    }

    /// <summary>What its leaf would cost today at a price that the person stated for 50 g; null where its leaf is not known.</summary>
    internal static MoneyRange? Replaced(Package package, Money? per50Grams) =>
        per50Grams is { } price && package.BookNet is { Low: { } low, High: { } high }
            ? new(price.Low * (decimal)Math.Max(0, low.Grams) / 50, price.High * (decimal)high.Grams / 50, price.Currency)
            : null;

    /// <summary>In words, without cents that nobody knows; empty for what nobody knows.</summary>
    internal static string Words(MoneyRange? range)
    {
        if (range is null)
            return "";
        var (low, high) = (Rounded(range.Low), Rounded(range.High));
        return low == high ? $"{low} {range.Currency}" : $"{low} to {high} {range.Currency}";

        static string Rounded(decimal amount) => Math.Round(amount, amount < 20 ? 1 : 0, MidpointRounding.AwayFromZero).ToString("0.#", CultureInfo.InvariantCulture);
    }

    /// <summary>All of them in one sentence, or that nothing is known.</summary>
    internal static string Told(IEnumerable<MoneyRange?> each)
    {
        var total = MoneyTotal.Of(each);
        var packages = total.Known + total.Unknown;
        return total.Known == 0
            ? "not written down for any of them"
            : $"{string.Join(" and ", total.Sums.Select(sum => Words(sum.Range)))}, known for {total.Known} of {packages} {(packages == 1 ? "package" : "packages")}";
    }
}
