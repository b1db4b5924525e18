using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Forecasts;

/// <summary>When practice would look at a package again.</summary>
public static class Habit
{
    /// <summary>The day of the next look, today where it is overdue.</summary>
    /// <param name="package">Which.</param>
    /// <param name="kind">What it is packed in.</param>
    /// <param name="today">Not before it.</param>
    public static DateOnly NextLook(Package package, ContainerKind kind, DateOnly today) => DueOn(package, kind, today) is var due && due > today ? due : today;

    /// <summary>The day on which the next look falls due by habit; may lie in the past.</summary>
    public static DateOnly DueOn(Package package, ContainerKind kind, DateOnly today) => Due(package, kind, today).On;

    /// <summary>The same with how finely it is known.</summary>
    public static LookDue Due(Package package, ContainerKind kind, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(package);
        ArgumentNullException.ThrowIfNull(kind);
        var (closed, seen) = (package.Timeline[0], (TimelineEntry?)null);
        foreach (var entry in package.Timeline.Where(entry => entry.Day <= today))
        {
            switch (entry.Fact)
            {
                case Fact.PackageRepacked or Fact.PackageClosed: (closed, seen) = (entry, null); break;
                case Fact.PackageLooked or Fact.PackageWeighed or Fact.HumidityRead: seen = entry; break;
                default: break; // other facts are no look
            }
        }

        if (SetFor(package)?.Fact.LookAgain is { } set)
            return new(set, KnownTo.Day);
        if (seen is not null)
            return LookDue.After(seen.Day, seen.Happened, kind.Habit.ThenEveryDays);
        var first = LookDue.After(closed.Day, ReferenceEquals(closed, package.Timeline[0]) ? package.Began : closed.Happened, kind.Habit.FirstAfterDays);
        return first with { NeverLookedAt = first.On < DateOnly.FromDateTime(closed.Recorded.DateTime) };
    }

    /// <summary>The day that a person set for the next look, where no look has answered it since; it goes before what practice would do.</summary>
    public static Timed<Fact.Decided>? SetFor(Package package)
    {
        ArgumentNullException.ThrowIfNull(package);
        Timed<Fact.Decided>? set = null;
        foreach (var entry in package.Timeline)
        {
            set = entry.Fact switch
            {
                Fact.Decided { LookAgain: not null } decided => new(entry, decided),
                Fact.PackageLooked or Fact.PackageWeighed or Fact.HumidityRead or Fact.PackageRepacked or Fact.PackageClosed => null,
                _ => set,
            };
        }

        return set;
    }
}
