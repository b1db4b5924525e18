using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Storage;

/// <summary>How the gas space of a package answers to pressure.</summary>
public abstract record Headspace
{
    private Headspace()
    {
    }

    /// <summary>Glass and tins: the volume stays, the pressure moves.</summary>
    /// <param name="Volume">Gas volume.</param>
    public sealed record Rigid(Volume Volume) : Headspace;

    /// <summary>Pouches and bags: the pressure stays at the room's while the volume is between tight and bulging.</summary>
    /// <param name="Minimum">Pore volume of the pressed leaf, above zero.</param>
    /// <param name="Maximum">Volume at which the walls are taut.</param>
    public sealed record Flexible(Volume Minimum, Volume Maximum) : Headspace;
}
