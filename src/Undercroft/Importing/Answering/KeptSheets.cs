using Undercroft.Importing.Rows;
using Undercroft.Importing.Sheets;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Answering;

/// <summary>Sheets as they were imported, read once more from the files that are kept; the last few readings stay in memory.</summary>
public sealed class KeptSheets
{
    private const int Most = 2;
    private readonly List<(string Sha256, SheetReading Reading)> read = [];

    /// <summary>One act at a time: readings are shared and not made for several threads.</summary>
    internal Lock Gate { get; } = new();

    /// <summary>The reading of an import; null where its file is not kept any more or cannot be read.</summary>
    internal SheetReading? Of(DataFolder folder, Timed<Fact.SheetImported> import)
    {
        var sha256 = import.Fact.Sha256;
        var known = read.FindIndex(one => one.Sha256 == sha256);
        if (known >= 0)
            return read[known].Reading;
        if (Read(folder, import) is not { } reading)
            return null;
        if (read.Count >= Most)
            read.RemoveAt(0);
        read.Add((sha256, reading));
        return reading;
    }

    private static SheetReading? Read(DataFolder folder, Timed<Fact.SheetImported> import)
    {
        var path = ImportSheet.KeptPath(folder, import.Fact.Sha256, import.Fact.File);
        if (!File.Exists(path))
            return null;
        try
        {
            var said = import.Fact.Mapping is { } mapping ? SheetMap.Read(mapping) : null;
            var file = SheetReader.Read(File.ReadAllBytes(path), encoding: said?.Encoding);
            var then = DateOnly.FromDateTime(import.Entry.Recorded.UtcDateTime);
            var reading = SheetUnderstanding.Of(file, then);
            // Where the columns were not guessed so but said by the person, what was said is read again.
            return said is not null && (SheetMap.Of(reading) with { Encoding = said.Encoding }).Json() != import.Fact.Mapping ? SheetUnderstanding.Of(file, then, said) : reading;
        }
        catch (Refusal)
        {
            return null;
        }
    }
}
