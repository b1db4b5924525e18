using System.Text.Json;
using System.Text.Json.Serialization;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Events;

/// <summary>Measured quantities as bare SI numbers; the name of the field carries the unit.</summary>
public abstract class QuantityJson
{
    private QuantityJson()
    {
    }

    private static double Number(ref Utf8JsonReader reader) => reader.TokenType == JsonTokenType.Number ? reader.GetDouble() : throw new JsonException("A quantity is a number.");

    /// <summary>A mass in kg.</summary>
    public sealed class OfMass : JsonConverter<Mass>
    {
        /// <inheritdoc/>
        public override Mass Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(Number(ref reader));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, Mass value, JsonSerializerOptions options) => writer.WriteNumberValue(value.Kilograms);
    }

    /// <summary>A relative humidity from 0 to 1.</summary>
    public sealed class OfHumidity : JsonConverter<RelativeHumidity>
    {
        /// <inheritdoc/>
        public override RelativeHumidity Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(Number(ref reader));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, RelativeHumidity value, JsonSerializerOptions options) => writer.WriteNumberValue(value.Fraction);
    }

    /// <summary>A temperature in K.</summary>
    public sealed class OfTemperature : JsonConverter<Temperature>
    {
        /// <inheritdoc/>
        public override Temperature Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(Number(ref reader));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, Temperature value, JsonSerializerOptions options) => writer.WriteNumberValue(value.Kelvin);
    }

    /// <summary>A length in m.</summary>
    public sealed class OfLength : JsonConverter<Length>
    {
        /// <inheritdoc/>
        public override Length Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => new(Number(ref reader));

        /// <inheritdoc/>
        public override void Write(Utf8JsonWriter writer, Length value, JsonSerializerOptions options) => writer.WriteNumberValue(value.Metres);
    }
}
