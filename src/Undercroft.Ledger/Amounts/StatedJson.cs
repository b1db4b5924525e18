using System.Text.Json;
using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Amounts;

/// <summary>
/// Stated amounts as <c>{"exact":0.05,"unit":"kg","by":"label","text":"50 g"}</c>, or with <c>about</c>, or with <c>from</c> and <c>to</c>, or with none of them where
/// somebody said that nobody knows. Nothing said at all is null.
/// </summary>
public abstract class StatedJson
{
    private StatedJson()
    {
    }

    private static Stated Read(ref Utf8JsonReader reader, string unit)
    {
        if (reader.TokenType == JsonTokenType.Null)
            return default;
        if (reader.TokenType != JsonTokenType.StartObject)
            throw new JsonException("A stated amount is an object or null.");
        double? exact = null, about = null, from = null, to = null;
        string? text = null;
        var by = SaidBy.Unstated;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var name = reader.GetString();
            reader.Read();
            switch (name)
            {
                case "exact": exact = reader.GetDouble(); break;
                case "about": about = reader.GetDouble(); break;
                case "from": from = reader.GetDouble(); break;
                case "to": to = reader.GetDouble(); break;
                case "text": text = reader.GetString(); break;
                case "by":
                    by = CodeWords.Find<SaidBy>(reader.GetString()) ?? throw new JsonException($"Nobody known as '{reader.GetString()}' says amounts.");
                    break;
                case "unit":
                    if (reader.GetString() is var given && given != unit)
                        throw new JsonException($"The unit here is {unit}, not {given}.");
                    break;
                default: throw new JsonException($"A stated amount has no '{name}'.");
            }
        }

        try
        {
            return (exact, about, from, to) switch
            {
                ({ } value, null, null, null) => Stated.Exactly(value, by, text),
                (null, { } value, null, null) => Stated.About(value, by, text),
                (null, null, { } low, { } high) => Stated.Between(low, high, by, text),
                (null, null, null, null) => Stated.Nobody(by, text),
                _ => throw new JsonException("A stated amount has exactly one of: exact; about; from and to; none of them."),
            };
        }
        catch (ArgumentOutOfRangeException unfit)
        {
            throw new JsonException(unfit.Message, unfit);
        }
    }

    private static void Write(Utf8JsonWriter writer, Stated value, string unit)
    {
        if (value == default)
        {
            writer.WriteNullValue();
            return;
        }

        writer.WriteStartObject();
        switch (value.Evenness)
        {
            case Evenness.Unknown: break;
            case Evenness.Exact: writer.WriteNumber("exact", value.First); break;
            case Evenness.About: writer.WriteNumber("about", value.First); break;
            case Evenness.Between:
                writer.WriteNumber("from", value.First);
                writer.WriteNumber("to", value.Second);
                break;
            default: throw new InvalidOperationException($"No JSON for {value.Evenness}.");
        }

        if (value.IsKnown)
            writer.WriteString("unit", unit);
        if (value.By != SaidBy.Unstated)
            writer.WriteString("by", CodeWords.Of(value.By));
        if (value.Text is not null)
            writer.WriteString("text", value.Text);
        writer.WriteEndObject();
    }

    /// <summary>Masses.</summary>
    public sealed class OfMass : JsonConverter<StatedMass>
    {
        /// <inheritdoc/>
        public override bool HandleNull => true;

        /// <inheritdoc/>
        public override StatedMass Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(StatedJson.Read(ref reader, "kg"));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, StatedMass value, JsonSerializerOptions options) => StatedJson.Write(writer, value.Si, "kg");
    }

    /// <summary>Volumes.</summary>
    public sealed class OfVolume : JsonConverter<StatedVolume>
    {
        /// <inheritdoc/>
        public override bool HandleNull => true;

        /// <inheritdoc/>
        public override StatedVolume Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(StatedJson.Read(ref reader, "m3"));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, StatedVolume value, JsonSerializerOptions options) => StatedJson.Write(writer, value.Si, "m3");
    }

    /// <summary>Lengths.</summary>
    public sealed class OfLength : JsonConverter<StatedLength>
    {
        /// <inheritdoc/>
        public override bool HandleNull => true;

        /// <inheritdoc/>
        public override StatedLength Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(StatedJson.Read(ref reader, "m"));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, StatedLength value, JsonSerializerOptions options) => StatedJson.Write(writer, value.Si, "m");
    }

    /// <summary>Temperatures.</summary>
    public sealed class OfTemperature : JsonConverter<StatedTemperature>
    {
        /// <inheritdoc/>
        public override bool HandleNull => true;

        /// <inheritdoc/>
        public override StatedTemperature Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(StatedJson.Read(ref reader, "K"));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, StatedTemperature value, JsonSerializerOptions options) => StatedJson.Write(writer, value.Si, "K");
    }

    /// <summary>Fractions.</summary>
    public sealed class OfFraction : JsonConverter<StatedFraction>
    {
        /// <inheritdoc/>
        public override bool HandleNull => true;

        /// <inheritdoc/>
        public override StatedFraction Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(StatedJson.Read(ref reader, "1"));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, StatedFraction value, JsonSerializerOptions options) => StatedJson.Write(writer, value.Si, "1");
    }
}
