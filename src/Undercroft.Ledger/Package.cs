using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger;

/// <summary>One closed container with leaf in it, and everything that is known to have happened to it.</summary>
public sealed record Package
{
    /// <summary>Its ID.</summary>
    public required PackageId Id { get; init; }

    /// <summary>The lot that its leaf is of.</summary>
    public required LotId Lot { get; init; }

    /// <summary>The container that it is in now.</summary>
    public required Container Container { get; init; }

    /// <summary>Leaf in it at sealing, as stated.</summary>
    public StatedMass Net { get; init; }

    /// <summary>Leaf in it when it was last closed up, as stated: what the last repacking says, else what was sealed.</summary>
    public StatedMass NetAtClosing => Of<Fact.PackageRepacked>().LastOrDefault() is { Entry: not null, Fact.Net: { IsKnown: true } net } ? net : Net;

    /// <summary>Whole mass at that time.</summary>
    public StatedMass GrossAtClosing => Of<Fact.PackageRepacked>().LastOrDefault() is { Entry: not null, Fact.Gross: { } gross } ? gross : Gross;

    /// <summary>Whole mass at sealing, as stated.</summary>
    public StatedMass Gross { get; init; }

    /// <summary>Moisture on wet basis at sealing, as stated.</summary>
    public StatedFraction Moisture { get; init; }

    /// <summary>When it was first closed.</summary>
    public UnevenDate Sealed { get; init; }

    /// <summary>The date behind the day of its first entry: of sealing, else of the line that added it, else of making. Unknown where that day is the day of recording.</summary>
    public UnevenDate Began { get; init; }

    /// <summary>The day from which it counts as being in the cellar.</summary>
    public required DateOnly Since { get; init; }

    /// <summary>Where it stands; null where nobody said.</summary>
    public PlaceId? Place { get; init; }

    /// <summary>True where it stands open, as far as anybody wrote down.</summary>
    public bool IsOpen { get; init; }

    /// <summary>How it left the cellar; null while it is there.</summary>
    public Timed<Fact.PackageRemoved>? Removed { get; init; }

    /// <summary>True while it is in the cellar.</summary>
    public bool IsHere => Removed is null;

    /// <summary>
    /// When it was last sealed, opened, closed, taken from or repacked: the start of its time undisturbed.
    /// </summary>
    public UnevenDate UndisturbedSince { get; init; }

    /// <summary>The leaf in it by the book: the last net known, less what was taken and with the water added since; unknown where no net is known. Drying is not in it.</summary>
    public StatedMass BookNet { get; init; }

    /// <summary>Everything that happened to it, in time order. The first entry is always its <see cref="Events.Fact.PackagesAdded"/>, on the day of sealing.</summary>
    public required IReadOnlyList<TimelineEntry> Timeline { get; init; }

    /// <summary>The event that added it.</summary>
    public Guid AddedBy => Timeline[0].Event;

    /// <summary>Weighings in time order.</summary>
    public IEnumerable<Timed<Fact.PackageWeighed>> Weighings => Of<Fact.PackageWeighed>();

    /// <summary>Humidity readings in time order.</summary>
    public IEnumerable<Timed<Fact.HumidityRead>> Humidities => Of<Fact.HumidityRead>();

    /// <summary>Inspections in time order.</summary>
    public IEnumerable<Timed<Fact.PackageLooked>> Looks => Of<Fact.PackageLooked>();

    /// <summary>Moves in time order.</summary>
    public IEnumerable<Timed<Fact.PackageMoved>> Moves => Of<Fact.PackageMoved>();

    /// <summary>Openings in time order.</summary>
    public IEnumerable<Timed<Fact.PackageOpened>> Openings => Of<Fact.PackageOpened>();

    /// <summary>How often its leaf went into another container.</summary>
    public int Repackings => Of<Fact.PackageRepacked>().Count();

    /// <summary>Facts of one case, in time order.</summary>
    /// <typeparam name="T">The case.</typeparam>
    public IEnumerable<Timed<T>> Of<T>() where T : Fact
    {
        foreach (var entry in Timeline)
        {
            if (entry.Fact is T fact)
                yield return new Timed<T>(entry, fact);
        }
    }
}
