using System.Runtime.CompilerServices;
using Undercroft.Ledger.Events;

namespace Undercroft.Ledger;

public sealed partial record Cellar
{
    /// <summary>The cellar that the events tell of.</summary>
    /// <param name="events">In the order of the ledger.</param>
    /// <param name="view">Which past to see.</param>
    /// <exception cref="InvalidDataException">An event speaks of something that no event before it added.</exception>
    public static Cellar Fold(IEnumerable<CellarEvent> events, View view = default)
    {
        var lines = Resolve(KnownBy(events, view.KnownOn));
        var folding = new Folding(lines, view.AsOf);
        return folding.Done();
    }

    private static List<CellarEvent> KnownBy(IEnumerable<CellarEvent> events, DateTimeOffset? instant)
    {
        List<CellarEvent> all = [.. events];
        if (instant is { } then)
        {
            var last = all.FindLastIndex(line => line.Recorded <= then);
            all.RemoveRange(last + 1, all.Count - last - 1);
        }

        return all;
    }

    /// <summary>Works out which events hold and how they read after corrections.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static LedgerLine[] Resolve(List<CellarEvent> events)
    {
        var undoneBy = new Dictionary<Guid, Guid>();
        var correctedBy = new Dictionary<Guid, CellarEvent>();
        for (var i = events.Count - 1; i >= 0; i--)
        {
            var line = events[i];
            if (!undoneBy.ContainsKey(line.Id) && line.Cause is { } cause && undoneBy.TryGetValue(cause, out var with))
                undoneBy[line.Id] = with;
            if (undoneBy.ContainsKey(line.Id))
                continue;
            if (line.Fact is Fact.EventUndone undone)
                undoneBy.TryAdd(undone.Event, line.Id);
            else if (line.Fact is Fact.EventCorrected corrected)
                correctedBy.TryAdd(corrected.Event, line);
        }

        var lines = new LedgerLine[events.Count];
        for (var i = 0; i < lines.Length; i++)
        {
            var line = events[i];
            Guid? undo = undoneBy.Count > 0 && undoneBy.TryGetValue(line.Id, out var by) ? by : null;
            if (correctedBy.Count == 0 || !correctedBy.TryGetValue(line.Id, out var correction))
            {
                lines[i] = new LedgerLine(line, line.Fact, line.Happened, null, undo);
                continue;
            }

            var corrected = (Fact.EventCorrected)correction.Fact;
            lines[i] = new LedgerLine(line, corrected.Replacement, corrected.ReplacesDate ? corrected.Happened : line.Happened, correction.Id, undo);
        }

        return lines;
    }

    /// <summary>
    /// Facts that say what there is come first, in the order of the ledger, since a jar that was entered today may have been weighed years ago; then what happened to it,
    /// by day, then by recording.
    /// </summary>
    private static IEnumerable<LedgerLine> InTime(IEnumerable<LedgerLine> lines)
    {
        List<LedgerLine> first = [];
        List<LedgerLine> then = [];
        foreach (var line in lines)
        {
            if (line.Holds)
                (SaysWhatThereIs(line.Fact) ? first : then).Add(line);
        }

        // The sort is stable: what was recorded at the same instant keeps the order of the ledger.
        return first.Concat(IsInTime(then) ? then : then.OrderBy(line => (line.Day.DayNumber, line.Event.Recorded.UtcTicks)));
    }

    private static bool IsInTime(List<LedgerLine> lines)
    {
        for (var i = 1; i < lines.Count; i++)
        {
            var (before, line) = (lines[i - 1], lines[i]);
            if (line.Day < before.Day || (line.Day == before.Day && line.Event.Recorded < before.Event.Recorded))
                return false;
        }

        return true;
    }

    private static bool SaysWhatThereIs(Fact fact) =>
        fact is Fact.CellarCreated or Fact.PlaceAdded or Fact.LotAdded or Fact.PackagesAdded or Fact.SheetImported or Fact.RowDoubted or Fact.ReadingsImported or Fact.RowAnswered or Fact.FilmDescribed or Fact.ContainerDescribed;

    private static TimelineEntry Entry(LedgerLine line) => new(line.Event.Id, line.Event.Version, line.Day, line.Happened, line.Event.Recorded, line.Fact);

    private static DateOnly Earlier(DateOnly a, DateOnly b) => a < b ? a : b;

    private static DateOnly SealingDay(Fact.PackagesAdded added, Lot lot, LedgerLine line) =>
        added.Sealed.Midpoint ?? (line.Happened.IsKnown ? null : lot.Made.Midpoint) ?? line.Day;

    private static DateOnly PresenceDay(Fact.PackagesAdded added, Lot lot, LedgerLine line) =>
        line.Happened.Midpoint ?? added.Sealed.Midpoint ?? lot.Made.Midpoint ?? line.Day;
}
