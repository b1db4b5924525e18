using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger.Events;

public abstract partial record Fact
{
    /// <summary>The ledger was begun.</summary>
    /// <param name="Name">What the person calls it.</param>
    /// <param name="Demo">True for the invented household.</param>
    /// <param name="DemoDay">The fixed present of a demo.</param>
    public sealed record CellarCreated(string? Name = null, bool Demo = false, DateOnly? DemoDay = null) : Fact;

    /// <summary>A house, room, shelf, box or slot.</summary>
    /// <param name="Place">Its ID.</param>
    /// <param name="Name">What the person calls it; unique inside what it is inside of.</param>
    /// <param name="Inside">What it is inside of.</param>
    /// <param name="RoomKind">Cellar, loft, cupboard … code or words.</param>
    /// <param name="Altitude">Above sea level.</param>
    /// <param name="Climate">As somebody states it.</param>
    public sealed record PlaceAdded(
        PlaceId Place, string Name, PlaceId? Inside = null, string? RoomKind = null, StatedLength Altitude = default, StatedClimate? Climate = null) : Fact;

    /// <summary>Somebody stated the climate of a place anew.</summary>
    /// <param name="Place">Where.</param>
    /// <param name="Climate">From then on.</param>
    public sealed record ClimateStated(PlaceId Place, StatedClimate Climate) : Fact;

    /// <summary>Somebody stated the year outdoors, around a place and all that is inside it.</summary>
    /// <param name="Place">Where.</param>
    /// <param name="MonthlyTemperatureK">Twelve monthly means, January first, K.</param>
    /// <param name="MonthlyHumidityFraction">Twelve monthly means of relative humidity; null where nobody says.</param>
    /// <param name="DailySwingK">Half of afternoon minus night, mean of the year; null where nobody says.</param>
    /// <param name="Text">Where it comes from, such as the name of a weather file and its station.</param>
    public sealed record OutdoorsStated(
        PlaceId Place, IReadOnlyList<double> MonthlyTemperatureK, IReadOnlyList<double>? MonthlyHumidityFraction = null, double? DailySwingK = null, string? Text = null) : Fact;

    /// <summary>Somebody stated how high a place lies.</summary>
    /// <param name="Place">Where.</param>
    /// <param name="Altitude">Above sea level.</param>
    public sealed record AltitudeStated(PlaceId Place, StatedLength Altitude) : Fact;

    /// <summary>How fast leaf is used.</summary>
    /// <param name="PerWeek">Mass a week.</param>
    /// <param name="OpeningsPerWeek">Openings a week of a package in use.</param>
    /// <param name="Package">Of one package; null for the whole cellar.</param>
    public sealed record PaceStated(StatedMass PerWeek, double? OpeningsPerWeek = null, PackageId? Package = null) : Fact;

    /// <summary>Something worth remembering.</summary>
    /// <param name="Text">In words.</param>
    /// <param name="About">A package, lot or place; null for the whole cellar.</param>
    public sealed record Noted(string Text, ShortId? About = null) : Fact;
}
