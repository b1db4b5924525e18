namespace Undercroft.Physics.Catalogue;

/// <summary>What packing into one container costs, as a range in dollars or euros: common practice, to be replaced by the person's own prices.</summary>
/// <param name="Low">Cheap.</param>
/// <param name="High">Dear.</param>
public readonly record struct PackingCost(decimal Low, decimal High)
{
    /// <summary>Common practice, no source.</summary>
    public static Evidence Evidence { get; } = new(Provenance.CommonPractice, "", "rough prices, dollars or euros; enter your own");
}
