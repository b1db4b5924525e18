using System.Text.Json;
using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Dates;

/// <summary>A date as its ISO 8601-2 text; unknown is null.</summary>
public sealed class UnevenDateJson : JsonConverter<UnevenDate>
{
    /// <inheritdoc/>
    public override bool HandleNull => true;

    /// <inheritdoc/>
    public override UnevenDate Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType == JsonTokenType.Null)
            return UnevenDate.Unknown;
        if (reader.TokenType != JsonTokenType.String)
            throw new JsonException("A date is a text such as \"2015-06\", or null.");
        return UnevenDate.TryParse(reader.GetString(), out var date, out var why) ? date : throw new JsonException(why);
    }

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, UnevenDate value, JsonSerializerOptions options)
    {
        if (value.IsKnown)
            writer.WriteStringValue(value.ToString());
        else
            writer.WriteNullValue();
    }
}
