using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>Readings that were made before: columns repeat themselves. Bounded, so that a file of all different cells costs no more memory.</summary>
internal sealed class ReadingCache(DateOnly today)
{
    private const int Most = 20_000;
    private readonly List<Shelf> quantities = [];
    private readonly Dictionary<string, DateCell> dates = [];
    private readonly Dictionary<string, DateCell> stored = [];
    private readonly Dictionary<string, IReadOnlyList<string>> places = [];

    public CellFacts Quantity(string text, CellSetting setting, bool stored)
    {
        var shelf = Of(setting, stored);
        return shelf.TryGetValue(text, out var known) ? known : Kept(shelf, text, QuantityScan.Of(text, setting, stored));
    }

    public DateCell Date(string text, CellKind kind)
    {
        var mine = kind == CellKind.Date ? stored : dates;
        return mine.TryGetValue(text, out var known) ? known : Kept(mine, text, DateText.Read(text, today, serial: kind != CellKind.Date));
    }

    /// <summary>The path of a place, one list for all rows that name it.</summary>
    public IReadOnlyList<string> Place(string text) => places.TryGetValue(text, out var known) ? known : Kept(places, text, PlaceWords.Path(text));

    private static T Kept<T>(Dictionary<string, T> shelf, string text, T read) where T : class
    {
        if (shelf.Count < Most)
            shelf[text] = read;
        return read;
    }

    // A table has a handful of settings, one for each of its columns of amounts.
    private Dictionary<string, CellFacts> Of(CellSetting setting, bool stored)
    {
        foreach (var shelf in quantities)
        {
            if (shelf.Stored == stored && (ReferenceEquals(shelf.Setting, setting) || shelf.Setting == setting))
                return shelf.Readings;
        }

        var made = new Shelf(setting, stored, []);
        quantities.Add(made);
        return made.Readings;
    }

    private sealed record Shelf(CellSetting Setting, bool Stored, Dictionary<string, CellFacts> Readings);
}
