using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Shell;

namespace Undercroft.Totals;

/// <summary>States how fast leaf is used.</summary>
public static class Pace
{
    /// <summary>Writes it for the whole cellar.</summary>
    /// <param name="cellars">Where.</param>
    /// <param name="perWeek">Such as <c>20g</c> or <c>15g..25g</c>.</param>
    /// <param name="presentOf">The present for the cellar as read.</param>
    /// <exception cref="Refusal">Not a mass, or below nothing.</exception>
    public static ValueTask<Change> State(ICellars cellars, string? perWeek, Func<Cellar, Present> presentOf) => cellars.ChangeAsync(cellar =>
    {
        var pace = StatedMass.Parse(perWeek, SaidBy.Memory);
        if (!pace.IsKnown)
            throw new Refusal("No pace was said: write what is used in a week, such as 20g or 15g..25g.");
        var present = presentOf(cellar);
        return [CellarEvent.New(new Fact.PaceStated(pace), UnevenDate.On(present.Today), present.Now)];
    });
}
