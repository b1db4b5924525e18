using System.Globalization;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger;

public static partial class Rules
{
    /// <summary>The event that takes back another one.</summary>
    /// <param name="cellar">As it stands.</param>
    /// <param name="target">Which; null for the last one that still holds and is not an undo itself.</param>
    /// <param name="now">When it is recorded.</param>
    /// <param name="who">Person or device.</param>
    /// <param name="reason">In words.</param>
    /// <exception cref="Refusal">There is no such event, it was undone before, or later ones rest on it; the message names them.</exception>
    public static CellarEvent Undo(Cellar cellar, Guid? target, DateTimeOffset now, string? who = null, string? reason = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var id = target ?? LastThatHolds(cellar);
        CanBeUndone(cellar, id);
        return CellarEvent.New(new Fact.EventUndone(id, reason), UnevenDate.On(DateOnly.FromDateTime(now.UtcDateTime)), now, who);
    }

    /// <summary>Later events that would lose their sense without this one.</summary>
    /// <param name="cellar">As it stands.</param>
    /// <param name="target">The event.</param>
    public static IReadOnlyList<LedgerLine> RestingOn(Cellar cellar, Guid target)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var line = LineOf(cellar, target);
        var gone = With(cellar, line);
        var lost = gone.SelectMany(one => Introduced.By(one.Fact)).ToHashSet();
        var without = gone.Select(one => one.Event.Id).ToHashSet();
        return [.. cellar.Lines.Where(later => later.Holds && later.Event.Version > line.Event.Version && !without.Contains(later.Event.Id)
            && later.Fact is not (Fact.EventCorrected or Fact.EventUndone)
            && (Mentioned.By(later.Fact).Any(lost.Contains) || gone.Any(one => RestsOnState(cellar, later, one))))];
    }

    /// <summary>The line with all that it caused, and what that caused in turn.</summary>
    private static List<LedgerLine> With(Cellar cellar, LedgerLine line)
    {
        var caused = cellar.Lines.Where(other => other is { Holds: true, Event.Cause: not null }).ToLookup(other => other.Event.Cause!.Value);
        List<LedgerLine> all = [line];
        for (var i = 0; i < all.Count; i++)
            all.AddRange(caused[all[i].Event.Id]);
        return all;
    }

    private static bool RestsOnState(Cellar cellar, LedgerLine later, LedgerLine gone)
    {
        if (gone.Fact is Fact.EventUndone undone)
            return LineOf(cellar, undone.Event).Fact is Fact.PackageRemoved back && Mentioned.PackageOf(later.Fact) == back.Package;
        if (gone.Fact is Fact.FilmDescribed or Fact.ContainerDescribed)
            return Uses(later.Fact, gone.Fact);
        if (gone.Fact is Fact.RowAnswered answer)
            return later.Fact is Fact.RowAnswered next && next.Doubt == answer.Doubt;
        if (Mentioned.PackageOf(gone.Fact) is not { } package || Mentioned.PackageOf(later.Fact) != package || later.Day < gone.Day)
            return false;
        return gone.Fact switch
        {
            Fact.PackageOpened => later.Fact is Fact.LeafTaken or Fact.PackageClosed && !ClosedBetween(cellar, package, gone, later),
            Fact.PackageRepacked when later.Fact is Fact.ContainerStated => true,
            Fact.PackageRepacked => later.Fact is Fact.PackageWeighed { Net: false },
            _ => false,
        };
    }

    private static bool ClosedBetween(Cellar cellar, PackageId package, LedgerLine opened, LedgerLine later)
    {
        var entries = cellar.Packages[package].Timeline.SkipWhile(entry => entry.Event != opened.Event.Id).Skip(1);
        return entries.TakeWhile(entry => entry.Event != later.Event.Id).Any(entry => entry.Fact is Fact.PackageClosed or Fact.PackageOpened or Fact.PackageRepacked);
    }

    private static Guid LastThatHolds(Cellar cellar) => cellar.Lines.LastOrDefault(line => line.Holds && line.Fact is not (Fact.EventUndone or Fact.CellarCreated))?.Event.Id
        ?? throw new Refusal("There is nothing to undo: the ledger is empty, or all of it was undone.", RefusalKind.Standing);

    private static void CanBeUndone(Cellar cellar, Guid target, HashSet<Guid>? together = null)
    {
        var line = LineOf(cellar, target);
        if (line.UndoneBy is { } by)
            throw new Refusal($"{Name(line)} was undone already, by {LineName.Of(cellar, by)}. Undo that one to bring it back.", RefusalKind.Standing);
        LedgerLine[] resting = [.. RestingOn(cellar, target).Where(later => together?.Contains(later.Event.Id) != true)];
        if (resting.Length == 0)
            return;
        var named = string.Join(", ", resting.Take(5).Select(later => LineName.Of(later)));
        var more = resting.Length > 5 ? string.Create(CultureInfo.InvariantCulture, $" and {resting.Length - 5} more") : "";
        throw new Refusal($"{Name(line)} cannot be undone: later ones rest on it: {named}{more}. Undo those first.", RefusalKind.Standing);
    }
}
