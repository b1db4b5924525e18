using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>Readings that were made before: columns repeat themselves. Bounded, so that a file of all different cells costs no more memory.</summary>
internal sealed class ReadingCache(DateOnly today)
{
    private const int Most = 20_000;
    private readonly Dictionary<(string, CellSetting, bool), CellFacts> quantities = [];
    private readonly Dictionary<(string, bool), DateCell> dates = [];

    public CellFacts Quantity(string text, CellSetting setting, bool stored)
    {
        if (quantities.TryGetValue((text, setting, stored), out var known))
            return known;
        var read = QuantityScan.Of(text, setting, stored);
        if (quantities.Count < Most)
            quantities[(text, setting, stored)] = read;
        return read;
    }

    public DateCell Date(string text, CellKind kind)
    {
        var serial = kind != CellKind.Date;
        if (dates.TryGetValue((text, serial), out var known))
            return known;
        var read = DateText.Read(text, today, serial);
        if (dates.Count < Most)
            dates[(text, serial)] = read;
        return read;
    }
}
