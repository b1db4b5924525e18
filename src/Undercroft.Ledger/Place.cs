using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger;

/// <summary>A house, room, shelf, box or slot.</summary>
public sealed record Place
{
    /// <summary>Its ID.</summary>
    public required PlaceId Id { get; init; }

    /// <summary>What the person calls it.</summary>
    public required string Name { get; init; }

    /// <summary>What it is inside of; null for the outermost.</summary>
    public PlaceId? Inside { get; init; }

    /// <summary>Cellar, loft, cupboard …; null where not said. <see cref="Cellar.RoomKindAt"/> looks outwards too.</summary>
    public string? RoomKind { get; init; }

    /// <summary>Above sea level; unknown where not said. <see cref="Cellar.AltitudeAt"/> looks outwards too.</summary>
    public StatedLength Altitude { get; init; }

    /// <summary>As somebody stated it last; null where nobody did. <see cref="Cellar.ClimateAt"/> looks outwards too.</summary>
    public StatedClimate? Climate { get; init; }

    /// <summary>The year outdoors as stated last for this place; null where nobody did. <see cref="Cellar.OutdoorsAt"/> looks outwards too.</summary>
    public Fact.OutdoorsStated? Outdoors { get; init; }

    /// <summary>Notes about it, in time order.</summary>
    public IReadOnlyList<TimelineEntry> Notes { get; init; } = [];

    /// <summary>The event that added it.</summary>
    public required Guid AddedBy { get; init; }
}
