using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Shell;

namespace Undercroft.History;

/// <summary>One line of the ledger for people and programs.</summary>
/// <param name="Id">Number of the line.</param>
/// <param name="Type">Registered name.</param>
/// <param name="Happened">ISO 8601-2, as precise as known; null where unknown.</param>
/// <param name="Recorded">Instant of recording, UTC.</param>
/// <param name="Who">Person or device, or null.</param>
/// <param name="Precision">How precisely its day is known: day, month, season, year, decade, about, between, open, unknown.</param>
/// <param name="Source">Who says its amounts: label, receipt, weighed, memory, guess; null where it has none or nobody said.</param>
/// <param name="What">In words.</param>
/// <param name="Holds">False where it was taken back.</param>
/// <param name="Corrected">True where a later line says how it should have read.</param>
/// <param name="Before">What was written at first, where it was corrected; null else.</param>
public sealed record HistoryLine(string Id, string Type, string? Happened, string Recorded, string? Who, string Precision, string? Source, string What, bool Holds, bool Corrected, string? Before = null);

/// <summary>What was written down, in the order in which it was.</summary>
public static class HistoryOf
{
    /// <summary>The lines about one package, or all of them.</summary>
    /// <param name="cellar">The ledger, folded.</param>
    /// <param name="typedId">A package; null for everything.</param>
    /// <param name="units">How amounts are told; null as in SI.</param>
    /// <exception cref="Refusal">Unknown ID, with the nearest ones.</exception>
    public static IReadOnlyList<HistoryLine> Lines(Cellar cellar, string? typedId = null, Func<string, string>? units = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        if (typedId is null)
            return [.. cellar.Lines.Select(line => Line(cellar, line, units))];
        var package = cellar.FindPackage(typedId);
        var added = cellar.Lots[package.Lot].AddedBy;
        var lot = package.Timeline[0].Version; // a lot stands before its packages
        while (cellar.LineOf(lot) is { } line && line.Event.Id != added)
            lot--;
        var events = package.Timeline.Select(entry => entry.Event).Append(added).ToHashSet();
        return
        [
            .. package.Timeline.Select(entry => entry.Version).Append(lot).Select(cellar.LineOf).OfType<LedgerLine>()
                .Concat(cellar.Amended.Where(line => line.Event.Fact is Fact.EventCorrected corrected ? events.Contains(corrected.Event) || (!line.Holds && About(line.Event.Fact, package)) : About(line.Event.Fact, package)))
                .DistinctBy(line => line.Event.Version).OrderBy(line => line.Event.Version).Select(line => Line(cellar, line, units)),
        ];
    }

    /// <summary>A part of all lines, the newest first.</summary>
    /// <param name="cellar">The ledger, folded.</param>
    /// <param name="skip">How many newer ones are left out.</param>
    /// <param name="take">At most so many.</param>
    /// <param name="units">How amounts are told; null as in SI.</param>
    public static IReadOnlyList<HistoryLine> Latest(Cellar cellar, int skip, int take, Func<string, string>? units = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        return [.. Enumerable.Range(1, Math.Clamp(cellar.Lines.Count - skip, 0, take)).Select(n => Line(cellar, cellar.Lines[cellar.Lines.Count - skip - n], units))];
    }

    private static bool About(Fact fact, Package package) => FactText.PackagesOf(fact).Contains(package.Id);

    private static HistoryLine Line(Cellar cellar, LedgerLine line, Func<string, string>? units) => new(
        line.Event.Version.ToString(CultureInfo.InvariantCulture),
        line.Event.Fact.Type,
        line.Happened.IsKnown ? line.Happened.ToString() : null,
        line.Event.Recorded.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
        line.Event.Who,
        Telling.Precision(line.Happened),
        Telling.Source(line.Fact),
        FactText.Of(cellar, line.Fact, units),
        line.Holds,
        line.CorrectedBy is not null,
        line.CorrectedBy is null ? null : At(line.Event.Happened) + FactText.Of(cellar, line.Event.Fact, units));

    private static string At(UnevenDate happened) => happened.IsKnown ? $"{happened.InWords()}: " : "";
}
