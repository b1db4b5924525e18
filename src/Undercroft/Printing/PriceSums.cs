using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;

namespace Undercroft.Printing;

/// <summary>Money of one currency, from the least to the most that it is likely to be.</summary>
/// <param name="Low">At least.</param>
/// <param name="High">At most.</param>
/// <param name="Currency">As entered; currencies are never mixed.</param>
internal sealed record MoneyRange(decimal Low, decimal High, string Currency)
{
    /// <summary>In words, without cents that nobody knows.</summary>
    public override string ToString() => Rounded(Low) == Rounded(High)
        ? $"{Rounded(Low)} {Currency}"
        : $"{Rounded(Low)} to {Rounded(High)} {Currency}";

    private static string Rounded(decimal amount) => Math.Round(amount, amount < 20 ? 1 : 0, MidpointRounding.AwayFromZero).ToString("0.#", CultureInfo.InvariantCulture);
}

/// <summary>What packages cost and would cost: two figures that are never mixed, and a third that nobody has: what they would bring.</summary>
internal static class PriceSums
{
    /// <summary>Its share of what was paid for its lot: by leaf where all of the lot is known, else in equal parts. Null where nobody wrote a price down.</summary>
    internal static MoneyRange? Paid(Cellar cellar, Package package)
    {
        var lot = cellar.Lots[package.Lot];
        if (lot.Paid is not { } paid)
            return null;
        double?[] grams = [.. lot.Packages.Select(id => cellar.Packages[id].Net.Mid?.Grams)];
        var share = package.Net.Mid is { Grams: > 0 } own && grams.All(mass => mass > 0)
            ? (decimal)(own.Grams / grams.Sum()!.Value)
            : 1m / lot.Packages.Count;
        return new(paid.Low * share, paid.High * share, paid.Currency);
    }

    /// <summary>What its leaf would cost today at a price that the person stated for 50 g; null where its leaf is not known.</summary>
    internal static MoneyRange? Replaced(Package package, Money? per50Grams) =>
        per50Grams is { } price && package.BookNet is { Low: { } low, High: { } high }
            ? new(price.Low * (decimal)Math.Max(0, low.Grams) / 50, price.High * (decimal)high.Grams / 50, price.Currency)
            : null;

    /// <summary>As a range.</summary>
    internal static MoneyRange Range(Money money) => new(money.Low, money.High, money.Currency);

    /// <summary>Sums, one for each currency, and of how many packages something is known.</summary>
    internal static (IReadOnlyList<MoneyRange> Sums, int Known) Sum(IEnumerable<MoneyRange?> each)
    {
        MoneyRange[] known = [.. each.OfType<MoneyRange>()];
        return ([.. known.GroupBy(money => money.Currency, StringComparer.Ordinal).Select(group => new MoneyRange(group.Sum(money => money.Low), group.Sum(money => money.High), group.Key))], known.Length);
    }

    /// <summary>Sums in one sentence, or that nothing is known.</summary>
    internal static string Told((IReadOnlyList<MoneyRange> Sums, int Known) sum, int packages) => sum.Known == 0
        ? "not written down for any of them"
        : $"{string.Join(" and ", sum.Sums)}, known for {sum.Known} of {packages} {(packages == 1 ? "package" : "packages")}";
}
