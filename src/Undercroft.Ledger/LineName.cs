using System.Globalization;
using Undercroft.Ledger.Events;

namespace Undercroft.Ledger;

/// <summary>How people are told which line of the ledger is meant: by its number, which stands in the history and which undo and correct take.</summary>
internal static class LineName
{
    /// <summary>Such as <c>line 12 (package weighed)</c>.</summary>
    internal static string Of(LedgerLine line) => Of(line.Event.Version, line.Fact);

    /// <summary>The same of an entry of a timeline.</summary>
    internal static string Of(TimelineEntry entry) => Of(entry.Version, entry.Fact);

    /// <summary>The same, where only the ID of the event is at hand.</summary>
    internal static string Of(Cellar cellar, Guid id) => cellar.Lines.FirstOrDefault(line => line.Event.Id == id) is { } line ? Of(line) : "a line that is not in the ledger";

    /// <summary>The registered name of a fact without the number of its form, as words: <c>package weighed</c>.</summary>
    internal static string KindOf(Fact fact) => fact.Type.Split('/')[0].Replace('-', ' ');

    private static string Of(long version, Fact fact) => version > 0
        ? string.Create(CultureInfo.InvariantCulture, $"line {version} ({KindOf(fact)})")
        : $"what was just said ({KindOf(fact)})";
}
