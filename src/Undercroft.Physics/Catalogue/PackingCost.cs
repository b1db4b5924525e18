namespace Undercroft.Physics.Catalogue;

/// <summary>What packing into one container costs, as a range: common practice in dollars or euros, much the same here, or the person's own prices in their currency.</summary>
/// <param name="Low">Cheap.</param>
/// <param name="High">Dear.</param>
/// <param name="Currency">As the person stated it; null for the rough prices of the catalogue.</param>
public readonly record struct PackingCost(decimal Low, decimal High, string? Currency = null)
{
    /// <summary>Of the catalogue's: common practice, no source.</summary>
    public static Evidence Rough { get; } = new(Provenance.CommonPractice, "", "rough prices, dollars or euros; enter your own");

    /// <summary>Where it comes from.</summary>
    public Evidence Evidence => Currency is null ? Rough : new(Provenance.Derived, "", "entered by the keeper");

    /// <summary>What it is counted in.</summary>
    public string Unit => Currency ?? "dollars or euros";
}
