using System.Text.Json.Serialization;
using Undercroft.Ledger.Amounts;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Events;

public abstract partial record Fact
{
    /// <summary>A film of the keeper's own, copied from a data sheet. Stating the same code again replaces it.</summary>
    /// <param name="Code">Short name, the same wherever it is used.</param>
    /// <param name="Name">For people.</param>
    /// <param name="WaterGPerM2Day">As printed, g/(m²·day).</param>
    /// <param name="WaterTest">Temperature of the water test.</param>
    /// <param name="WaterTestHumidity">Humidity of its moist side, against a dry one.</param>
    /// <param name="OxygenCm3PerM2DayAtm">As printed, cm³(STP)/(m²·day·atm).</param>
    /// <param name="OxygenTest">Temperature of the oxygen test.</param>
    /// <param name="DefectLimited">True for foil, metallised and coated film: holes and cracks decide.</param>
    /// <param name="Text">Where the sheet came from, in words.</param>
    public sealed record FilmDescribed(
        string Code,
        string Name,
        double WaterGPerM2Day,
        [property: JsonPropertyName("waterTestK"), JsonConverter(typeof(QuantityJson.OfTemperature))] Temperature WaterTest,
        [property: JsonPropertyName("waterTestFraction"), JsonConverter(typeof(QuantityJson.OfHumidity))] RelativeHumidity WaterTestHumidity,
        double OxygenCm3PerM2DayAtm,
        [property: JsonPropertyName("oxygenTestK"), JsonConverter(typeof(QuantityJson.OfTemperature))] Temperature OxygenTest,
        bool DefectLimited = false,
        string? Text = null) : Fact;

    /// <summary>A container kind of the keeper's own. Stating the same code again replaces it.</summary>
    /// <param name="Code">Short name, the same wherever it is used.</param>
    /// <param name="Name">For people.</param>
    /// <param name="Like">Code of the kind whose closure, failures and habits it shares where nothing else is said.</param>
    /// <param name="Capacity">Inner volume; taut for pouches and bags. Unknown where the other kind's serves.</param>
    /// <param name="Tare">Empty, with closure.</param>
    /// <param name="Film">Film of its wall and how much of it; null where the other kind's wall serves.</param>
    /// <param name="Gasket">Its gasket; null where the other kind's closure serves.</param>
    /// <param name="UsualContents">How much leaf usually goes in; unknown where volume and cut decide.</param>
    /// <param name="Cost">Of packing one; null where nobody says.</param>
    /// <param name="Text">In words.</param>
    public sealed record ContainerDescribed(
        string Code, string Name, string Like, StatedVolume Capacity = default, StatedMass Tare = default, OwnWall? Film = null, OwnGasket? Gasket = null,
        StatedMass UsualContents = default, Money? Cost = null, string? Text = null) : Fact;

    /// <summary>A rule of practice was switched off, or on again.</summary>
    /// <param name="Rule">Its code.</param>
    /// <param name="On">True where it counts from then on.</param>
    /// <param name="Text">Why, in words.</param>
    public sealed record RuleSwitched(string Rule, bool On, string? Text = null) : Fact;
}

/// <summary>The wall of an own container.</summary>
/// <param name="Film">Code of a film, the catalogue's or an own one.</param>
/// <param name="AreaM2">Facing the room, m².</param>
public sealed record OwnWall(string Film, double AreaM2);

/// <summary>The gasket of an own container: what gas has to creep through.</summary>
/// <param name="Material">Code of a material of the catalogue.</param>
/// <param name="Perimeter">Once round.</param>
/// <param name="Height">Of the section that shows to the room.</param>
/// <param name="Way">From inside to outside.</param>
public sealed record OwnGasket(
    string Material,
    [property: JsonPropertyName("perimeterM"), JsonConverter(typeof(QuantityJson.OfLength))] Length Perimeter,
    [property: JsonPropertyName("heightM"), JsonConverter(typeof(QuantityJson.OfLength))] Length Height,
    [property: JsonPropertyName("wayM"), JsonConverter(typeof(QuantityJson.OfLength))] Length Way);
