using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Shell;

namespace Undercroft.Worth;

/// <summary>States what a lot would cost to replace and what it would likely fetch.</summary>
public static class Valuing
{
    /// <summary>Writes it.</summary>
    /// <param name="cellars">Where.</param>
    /// <param name="typedId">The lot, or a package of it.</param>
    /// <param name="replace">For all of the lot as it came, such as <c>60EUR</c>; null leaves what was said.</param>
    /// <param name="sale">Likewise.</param>
    /// <param name="note">Where the figures come from.</param>
    /// <param name="presentOf">The present for the cellar as read.</param>
    /// <exception cref="Refusal">No such lot, or no money.</exception>
    public static ValueTask<Change> Of(ICellars cellars, string typedId, string? replace, string? sale, string? note, Func<Cellar, Present> presentOf) => cellars.ChangeAsync(cellar =>
    {
        var present = presentOf(cellar);
        var fact = new Fact.LotValued(Find(cellar, typedId), Money.Parse(replace, SaidBy.Guess), Money.Parse(sale, SaidBy.Guess), string.IsNullOrWhiteSpace(note) ? null : note.Trim());
        CellarEvent[] lines = [CellarEvent.New(fact, UnevenDate.On(present.Today), present.Now)];
        Rules.Check(cellar, lines);
        return lines;
    });

    /// <summary>A lot by its ID, or by that of a package of it.</summary>
    /// <exception cref="Refusal">Neither.</exception>
    public static LotId Find(Cellar cellar, string typed)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(typed);
        return cellar.Lots.Keys.Where(id => string.Equals(id.ToString(), typed.Trim(), StringComparison.OrdinalIgnoreCase)).Select(id => (LotId?)id).FirstOrDefault()
            ?? cellar.FindPackage(typed).Lot;
    }
}
