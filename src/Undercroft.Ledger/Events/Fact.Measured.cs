using System.Text.Json.Serialization;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Events;

public abstract partial record Fact
{
    /// <summary>A scale showed a mass.</summary>
    /// <param name="Package">What stood on it.</param>
    /// <param name="Mass">What it showed.</param>
    /// <param name="Net">True where the leaf alone was weighed; false for the whole package.</param>
    /// <param name="Resolution">The last step of the scale; null where nobody said.</param>
    /// <param name="Text">As entered.</param>
    public sealed record PackageWeighed(
        PackageId Package,
        [property: JsonPropertyName("massKg"), JsonConverter(typeof(QuantityJson.OfMass))] Mass Mass,
        bool Net = false,
        [property: JsonPropertyName("resolutionKg"), JsonConverter(typeof(QuantityJson.OfMass))] Mass? Resolution = null,
        string? Text = null) : Fact;

    /// <summary>A hygrometer inside a package showed a humidity.</summary>
    /// <param name="Package">Which.</param>
    /// <param name="Humidity">What it showed, over liquid water.</param>
    /// <param name="Temperature">What it showed; null where nobody read it.</param>
    /// <param name="Text">As entered.</param>
    public sealed record HumidityRead(
        PackageId Package,
        [property: JsonPropertyName("humidityFraction"), JsonConverter(typeof(QuantityJson.OfHumidity))] RelativeHumidity Humidity,
        [property: JsonPropertyName("temperatureK"), JsonConverter(typeof(QuantityJson.OfTemperature))] Temperature? Temperature = null,
        string? Text = null) : Fact;

    /// <summary>Somebody looked at a package.</summary>
    /// <param name="Package">Which.</param>
    /// <param name="Findings">What was seen; <see cref="Finding.AllWell"/> where nothing was wrong.</param>
    /// <param name="Bulge">Height of the dome over the rim; null where not measured.</param>
    /// <param name="Feel">How the leaf felt.</param>
    /// <param name="Text">In words.</param>
    public sealed record PackageLooked(
        PackageId Package,
        IReadOnlyList<Finding> Findings,
        [property: JsonPropertyName("bulgeM"), JsonConverter(typeof(QuantityJson.OfLength))] Length? Bulge = null,
        Feel? Feel = null,
        string? Text = null) : Fact;
}

/// <summary>What an inspection saw.</summary>
[JsonConverter(typeof(CodeWordJson<Finding>))]
public enum Finding
{
    /// <summary>Nothing wrong.</summary>
    AllWell,

    /// <summary>Lid or band turns too easily.</summary>
    LidLoose,

    /// <summary>Lid stands off the rim.</summary>
    LidLifted,

    /// <summary>Film or pouch has gone slack.</summary>
    FilmSlack,

    /// <summary>Film or pouch is split or torn.</summary>
    FilmSplit,

    /// <summary>Lid or wall is domed.</summary>
    Bulge,

    /// <summary>Rust away from the seam.</summary>
    Rust,

    /// <summary>Rust along the seam.</summary>
    SeamRust,

    /// <summary>A dent.</summary>
    Dent,

    /// <summary>Drops on the inner wall.</summary>
    Condensation,

    /// <summary>The edges of the leaf are crisp.</summary>
    CrispEdges,

    /// <summary>Fuzz, threads, a musty smell or wetness: treated as mould.</summary>
    MouldSuspected,

    /// <summary>Glittering, flat, rigid, without threads.</summary>
    Crystals,

    /// <summary>The leaf has darkened.</summary>
    Darkened,

    /// <summary>Holes, dust or beetles.</summary>
    Insects,

    /// <summary>The label cannot be read or is off.</summary>
    LabelLost,
}

/// <summary>How leaf feels between the fingers; a finger is good to about three points of moisture (common practice, no source).</summary>
[JsonConverter(typeof(CodeWordJson<Feel>))]
public enum Feel
{
    /// <summary>Crumbles to dust.</summary>
    Crumbles,

    /// <summary>Strands break when handled.</summary>
    Breaks,

    /// <summary>Pliable with a crisp edge.</summary>
    CrispEdge,

    /// <summary>A pressed ball springs back.</summary>
    SpringsBack,

    /// <summary>A pressed ball stays pressed.</summary>
    StaysPressed,

    /// <summary>Quite damp.</summary>
    Damp,
}
