using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Ids;

/// <summary>Names a package.</summary>
/// <param name="Id">Its short ID.</param>
[JsonConverter(typeof(IdJson.OfPackage))]
public readonly record struct PackageId(ShortId Id)
{
    /// <inheritdoc/>
    public override string ToString() => Id.ToString();
}
