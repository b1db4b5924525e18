using Undercroft.Ledger.Amounts;

namespace Undercroft.Ledger.Events;

/// <summary>What leaf it is, as far as anybody says.</summary>
/// <param name="Name">What the person calls it.</param>
/// <param name="Leaf">Leaf kinds and their shares; empty where nobody knows.</param>
/// <param name="Cut">Ribbon, flake, plug … in the person's words.</param>
/// <param name="Casing">Casing and topping in the person's words.</param>
public sealed record Blend(string? Name = null, IReadOnlyList<LeafShare>? Leaf = null, string? Cut = null, string? Casing = null)
{
    /// <summary>Leaf kinds and their shares; empty where nobody knows.</summary>
    public IReadOnlyList<LeafShare> Leaf { get; } = Leaf ?? [];

    /// <summary>Nothing is known of it.</summary>
    public static readonly Blend Unknown = new();
}

/// <summary>One leaf kind of a blend.</summary>
/// <param name="Kind">Code of the catalogue, or the person's word where the catalogue has none.</param>
/// <param name="Share">Its share by mass; unknown where nobody says.</param>
public sealed record LeafShare(string Kind, StatedFraction Share = default);

/// <summary>The jar, tin, pouch or bag itself.</summary>
/// <param name="Kind">Code of the catalogue; null where the kind is not known.</param>
/// <param name="Text">What was written about it; kept where the kind is not known or says more.</param>
/// <param name="Capacity">Its own measured or printed volume; unknown where the kind's value serves.</param>
/// <param name="Tare">Its own mass, empty, with closure; unknown where nobody weighed it.</param>
public sealed record Container(string? Kind = null, string? Text = null, StatedVolume Capacity = default, StatedMass Tare = default)
{
    /// <summary>Nothing is known of it.</summary>
    public static readonly Container Unknown = new();

    /// <summary>This one with what another statement about it adds or replaces.</summary>
    /// <param name="said">Unknown parts leave what was known.</param>
    public Container With(Container said)
    {
        ArgumentNullException.ThrowIfNull(said);
        return new(said.Kind ?? Kind, said.Text ?? Text, said.Capacity.IsKnown ? said.Capacity : Capacity, said.Tare.IsKnown ? said.Tare : Tare);
    }
}

/// <summary>The climate of a place as somebody states it, without a logger.</summary>
/// <param name="Temperature">The band over the year.</param>
/// <param name="Humidity">The band of relative humidity over the year.</param>
/// <param name="Text">In words.</param>
public sealed record StatedClimate(StatedTemperature Temperature = default, StatedFraction Humidity = default, string? Text = null);
