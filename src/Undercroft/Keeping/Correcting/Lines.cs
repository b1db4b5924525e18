using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Shell;

namespace Undercroft.Keeping.Correcting;

/// <summary>Lines of the ledger by their number; taking one back.</summary>
public static class Lines
{
    /// <summary>The line with a number.</summary>
    /// <exception cref="Refusal">Not a number, or no such line.</exception>
    public static LedgerLine Find(Cellar cellar, string number)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        if (!long.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var version))
            throw new Refusal($"'{number}' is not the number of a line. Numbers stand in: undercroft history.");
        return cellar.Lines.FirstOrDefault(line => line.Event.Version == version)
            ?? throw new Refusal($"There is no line {version}: the ledger has {cellar.Version}.");
    }

    /// <summary>Takes a line back by a new one. Without a number: the last line that still holds, with everything written in the same act.</summary>
    /// <exception cref="Refusal">Later lines rest on it (they are named), or there is nothing to take back.</exception>
    public static async ValueTask<Change> Undo(ICellars cellars, string? number, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        return await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            return [Rules.Undo(cellar, number is null ? null : Find(cellar, number).Event.Id, present.Now)];
        });
    }

    /// <summary>A note about a package, a lot, a place, or the whole cellar.</summary>
    public static async ValueTask<Change> Note(ICellars cellars, string? about, string text, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        return await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            var fact = new Fact.Noted(text, about is null ? null : cellar.FindPackage(about).Id.Id);
            return Recording.Checked(cellar, CellarEvent.New(fact, UnevenDate.On(present.Today), present.Now));
        });
    }
}
