using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>The cells of one row that speak of amounts, counts and containers, before they are put together.</summary>
internal sealed class AmountCells
{
    /// <summary>A cell with what it says; null where it says that it does not know.</summary>
    public sealed record Part(Column Column, Cell Cell, CellFacts? Facts, Sureness Sure);

    public List<Part> Parts { get; } = [];

    /// <summary>Taken from the name, where no cell of its own speaks.</summary>
    public CellFacts? Loose { get; private set; }

    public bool AnyAmount => Parts.Exists(part => part.Column.IsAmount && (part.Facts is null || part.Facts.Portions.Count > 0 || part.Facts.Bare is not null));

    public bool AnyContainer => Parts.Exists(part => part.Column.Meaning == Meaning.Container || part.Facts?.Vessel is not null);

    public bool LooseVessel { get; private set; }

    public void Add(Column column, Cell cell, CellFacts? facts, Sureness sure) => Parts.Add(new Part(column, cell, facts, sure));

    public void AddLoose(CellFacts facts, bool withVessel)
    {
        Loose = facts;
        LooseVessel = withVessel;
    }

    /// <summary>An amount that only a remark says, and its column.</summary>
    public (Portion Portion, Column Column)? Remarked { get; set; }

    /// <summary>How many are open, closed or gone by columns that count just these.</summary>
    public CellFacts? Told { get; set; }

    /// <summary>What a remark says, where no other cell speaks, and its words.</summary>
    public CellFacts? Noted { get; private set; }

    public string NotedWords { get; private set; } = "";

    public void Note(CellFacts facts, string words) => (Noted, NotedWords) = (facts, words);

    public Part? Of(Meaning meaning)
    {
        foreach (var part in Parts)
        {
            if (part.Column.Meaning == meaning)
                return part;
        }

        return null;
    }
}
