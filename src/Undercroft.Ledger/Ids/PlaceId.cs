using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Ids;

/// <summary>Names a place.</summary>
/// <param name="Id">Its short ID.</param>
[JsonConverter(typeof(IdJson.OfPlace))]
public readonly record struct PlaceId(ShortId Id)
{
    /// <inheritdoc/>
    public override string ToString() => Id.ToString();
}
