using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger;

/// <summary>Leaf of one blend that came together.</summary>
public sealed record Lot
{
    /// <summary>Its ID.</summary>
    public required LotId Id { get; init; }

    /// <summary>What it is.</summary>
    public required Blend Blend { get; init; }

    /// <summary>When the leaf was made or tinned.</summary>
    public UnevenDate Made { get; init; }

    /// <summary>Leaf altogether; unknown where only the packages say.</summary>
    public StatedMass Net { get; init; }

    /// <summary>For all of it; null where unknown.</summary>
    public Money? Paid { get; init; }

    /// <summary>What as much of it would cost now, as last stated; null where nobody did.</summary>
    public Money? Replace { get; init; }

    /// <summary>What it would likely fetch where it may be sold, as last stated; null where nobody did.</summary>
    public Money? Sale { get; init; }

    /// <summary>Where it came from, in words.</summary>
    public string? Source { get; init; }

    /// <summary>What was written about it.</summary>
    public string? Text { get; init; }

    /// <summary>Its packages, in the order of their IDs; removed ones too.</summary>
    public IReadOnlyList<PackageId> Packages { get; init; } = [];

    /// <summary>Notes about it, in time order.</summary>
    public IReadOnlyList<TimelineEntry> Notes { get; init; } = [];

    /// <summary>The event that added it.</summary>
    public required Guid AddedBy { get; init; }
}
