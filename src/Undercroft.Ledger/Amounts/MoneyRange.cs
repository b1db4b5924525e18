namespace Undercroft.Ledger.Amounts;

/// <summary>Money of one currency, from the least to the most that it is likely to be.</summary>
/// <param name="Low">At least.</param>
/// <param name="High">At most.</param>
/// <param name="Currency">As entered; currencies are never added to each other.</param>
public sealed record MoneyRange(decimal Low, decimal High, string Currency)
{
    /// <summary>A part of stated money; null where nobody stated any.</summary>
    /// <param name="money">As stated.</param>
    /// <param name="share">0 to 1.</param>
    public static MoneyRange? Part(Money? money, double share = 1) => money is null ? null : new(money.Low * (decimal)share, money.High * (decimal)share, money.Currency);
}

/// <summary>Several amounts of money together: one sum for each currency, and of how many nobody knows anything, which is not nothing.</summary>
/// <param name="Sums">The currency of most amounts first, each with the number of amounts in it.</param>
/// <param name="Unknown">Amounts that nobody stated.</param>
public sealed record MoneyTotal(IReadOnlyList<(MoneyRange Range, int Count)> Sums, int Unknown)
{
    /// <summary>Amounts that are in the sums.</summary>
    public int Known => Sums.Sum(sum => sum.Count);

    /// <summary>The total.</summary>
    public static MoneyTotal Of(IEnumerable<MoneyRange?> amounts)
    {
        ArgumentNullException.ThrowIfNull(amounts);
        MoneyRange?[] all = [.. amounts];
        return new(
            [
                .. all.OfType<MoneyRange>().GroupBy(money => money.Currency, StringComparer.Ordinal)
                    .Select(group => (Range: new MoneyRange(group.Sum(money => money.Low), group.Sum(money => money.High), group.Key), Count: group.Count()))
                    .OrderByDescending(sum => sum.Count).ThenBy(sum => sum.Range.Currency, StringComparer.Ordinal),
            ],
            all.Count(money => money is null));
    }
}
