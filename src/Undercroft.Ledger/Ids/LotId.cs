using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Ids;

/// <summary>Names a lot.</summary>
/// <param name="Id">Its short ID.</param>
[JsonConverter(typeof(IdJson.OfLot))]
public readonly record struct LotId(ShortId Id)
{
    /// <inheritdoc/>
    public override string ToString() => Id.ToString();
}
