using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Shell;

namespace Undercroft.Keeping.Adding;

/// <summary>Adds what a form of several rows says: all rows that say anything, or none.</summary>
public static class AddRows
{
    /// <summary>Reads, checks, writes.</summary>
    /// <param name="cellars">Where.</param>
    /// <param name="rows">Blank ones are passed over.</param>
    /// <param name="presentOf">The present for the cellar as it was read.</param>
    /// <exception cref="Refusal">Every row is blank, or a row cannot be read; the message names the row and nothing is written.</exception>
    public static async ValueTask<Change> To(ICellars cellars, IReadOnlyList<AddRequest> rows, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(presentOf);
        if (rows.All(row => row.IsBlank))
            throw new Refusal("Nothing was filled in. One field of one row is enough.");
        return await cellars.ChangeAsync(cellar => Decide(cellar, rows, presentOf(cellar)));
    }

    private static List<CellarEvent> Decide(Cellar cellar, IReadOnlyList<AddRequest> rows, Present present)
    {
        List<CellarEvent> decided = [];
        for (var i = 0; i < rows.Count; i++)
        {
            if (rows[i].IsBlank)
                continue;
            try
            {
                decided.AddRange(AddPackages.Decide(With(cellar, decided), rows[i], present));
            }
            catch (Refusal refusal)
            {
                throw new Refusal($"Row {(i + 1).ToString(CultureInfo.InvariantCulture)}: {refusal.Message} Nothing of any row was written.");
            }
        }

        return decided;
    }

    /// <summary>The cellar as it would be, so that each row sees the IDs and places of the rows before it.</summary>
    private static Cellar With(Cellar cellar, List<CellarEvent> decided) => decided.Count == 0
        ? cellar
        : Cellar.Fold([.. cellar.Lines.Select(line => line.Event), .. decided.Select((line, i) => line with { Version = cellar.Version + 1 + i })]);
}
