using System.Text.Json;
using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Ids;

/// <summary>IDs as their five characters.</summary>
public abstract class IdJson
{
    private IdJson()
    {
    }

    private static ShortId Read(ref Utf8JsonReader reader)
    {
        if (reader.TokenType != JsonTokenType.String)
            throw new JsonException("An ID is a text of five characters.");
        return ShortId.TryParse(reader.GetString(), out var id, out var why) ? id : throw new JsonException(why);
    }

    /// <summary>Of whatever has an ID.</summary>
    public sealed class OfAnything : JsonConverter<ShortId>
    {
        /// <inheritdoc/>
        public override ShortId Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => IdJson.Read(ref reader);

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, ShortId value, JsonSerializerOptions options) => writer.WriteStringValue(value.ToString());
    }

    /// <summary>Of packages.</summary>
    public sealed class OfPackage : JsonConverter<PackageId>
    {
        /// <inheritdoc/>
        public override PackageId Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(IdJson.Read(ref reader));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, PackageId value, JsonSerializerOptions options) => writer.WriteStringValue(value.ToString());
    }

    /// <summary>Of lots.</summary>
    public sealed class OfLot : JsonConverter<LotId>
    {
        /// <inheritdoc/>
        public override LotId Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(IdJson.Read(ref reader));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, LotId value, JsonSerializerOptions options) => writer.WriteStringValue(value.ToString());
    }

    /// <summary>Of places.</summary>
    public sealed class OfPlace : JsonConverter<PlaceId>
    {
        /// <inheritdoc/>
        public override PlaceId Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(IdJson.Read(ref reader));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, PlaceId value, JsonSerializerOptions options) => writer.WriteStringValue(value.ToString());
    }
}
