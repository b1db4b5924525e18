using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace Undercroft.Ledger.Events;

/// <summary>An event as one line of JSON: the form in which it is stored, exported and sealed by the digest.</summary>
/// <remarks>
/// Reading is strict: an unknown name or field is refused, since skipping it would lose what it says. Optional fields of which nothing is said are left out on writing, so a fact may
/// gain one without a new version: old lines read and write back unchanged.
/// </remarks>
public static class EventLine
{
    /// <summary>One line, without the line end.</summary>
    public static string Write(CellarEvent line) => JsonSerializer.Serialize(line, General.OfEvent);

    /// <summary>Writes lines in UTF-8, exactly as <see cref="Write(CellarEvent)"/> does, into memory that is used again.</summary>
    internal static Utf8JsonWriter Writer(IBufferWriter<byte> into) => new(into, new JsonWriterOptions { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, SkipValidation = true });

    /// <summary>One line, without the line end.</summary>
    internal static void Write(Utf8JsonWriter writer, CellarEvent line)
    {
        if (!QuickLine.Write(writer, line))
            WriteAny(writer, line);
        writer.Flush();
    }

    /// <summary>The general way; every line can go it.</summary>
    internal static void WriteAny(Utf8JsonWriter writer, CellarEvent line) => JsonSerializer.Serialize(writer, line, General.OfEvent);

    /// <summary>The fact alone, with its registered name under <c>type</c>.</summary>
    public static string WriteFact(Fact fact) => JsonSerializer.Serialize(fact, General.OfFact);

    /// <summary>The event of a line.</summary>
    /// <exception cref="InvalidDataException">The line is no event that this program knows; the message says why.</exception>
    public static CellarEvent Read(string line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var bytes = ArrayPool<byte>.Shared.Rent(Encoding.UTF8.GetMaxByteCount(line.Length));
        try
        {
            return Read(bytes.AsSpan(0, Encoding.UTF8.GetBytes(line, bytes)));
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(bytes);
        }
    }

    /// <summary>The event of a line in UTF-8.</summary>
    /// <exception cref="InvalidDataException">The line is no event that this program knows; the message says why.</exception>
    public static CellarEvent Read(ReadOnlySpan<byte> line) => QuickLine.Read(line) is { } quick ? Consistent(quick) : ReadAny(line);

    /// <summary>The general way; every line can go it.</summary>
    internal static CellarEvent ReadAny(ReadOnlySpan<byte> line)
    {
        try
        {
            var read = JsonSerializer.Deserialize(line, General.OfEvent) ?? throw new InvalidDataException("This line is no event: it is null.");
            HasFiniteNumbers(line);
            return Consistent(read);
        }
        catch (Exception unfit) when (unfit is JsonException or NotSupportedException or FormatException or InvalidOperationException or ArgumentException)
        {
            throw new InvalidDataException($"This line is no event that this program knows: {unfit.Message}", unfit);
        }
    }

    /// <summary>JSON has numbers that no quantity can have, such as 1e400: read as infinite, they could not be written back.</summary>
    private static void HasFiniteNumbers(ReadOnlySpan<byte> line)
    {
        var reader = new Utf8JsonReader(line);
        while (reader.Read())
        {
            if (reader.TokenType == JsonTokenType.Number && !double.IsFinite(reader.GetDouble()))
                throw new InvalidDataException($"This line is no event that this program knows: {Encoding.UTF8.GetString(reader.ValueSpan)} is beyond any quantity.");
        }
    }

    /// <summary>JSON Schema of a line.</summary>
    internal static JsonNode Schema(JsonSchemaExporterOptions exporting) => General.OfEvent.GetJsonSchemaAsNode(exporting);

    private static void LeaveOutWhatIsNotSaid(JsonTypeInfo type)
    {
        foreach (var property in type.Properties)
        {
            if (property.AssociatedParameter is not { HasDefaultValue: true })
                continue;
            var nothing = property.PropertyType.IsValueType ? Activator.CreateInstance(property.PropertyType) : null;
            property.ShouldSerialize = (_, value) => !Equals(value, nothing);
        }
    }

    private static CellarEvent Consistent(CellarEvent read)
    {
        if (read.Version < 0 || read.Id == Guid.Empty)
            throw new InvalidDataException("This line is no event: its version is negative or its ID is empty.");
        if (read.Fact is Fact.EventCorrected { Replacement: Fact.EventCorrected or Fact.EventUndone })
            throw new InvalidDataException("This line is no event: a correction replaces neither a correction nor an undo.");
        return read;
    }

    /// <summary>The general way, set up when first needed: that takes longer than to read a thousand lines by the short one.</summary>
    private static class General
    {
        private static readonly JsonSerializerOptions Options = new()
        {
            TypeInfoResolver = LineJson.Default.WithAddedModifier(LeaveOutWhatIsNotSaid),
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
            RespectNullableAnnotations = true,
            RespectRequiredConstructorParameters = true,
            AllowDuplicateProperties = false,
            AllowOutOfOrderMetadataProperties = true,
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        };

        internal static readonly JsonTypeInfo<CellarEvent> OfEvent = (JsonTypeInfo<CellarEvent>)Options.GetTypeInfo(typeof(CellarEvent));
        internal static readonly JsonTypeInfo<Fact> OfFact = (JsonTypeInfo<Fact>)Options.GetTypeInfo(typeof(Fact));
    }
}

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(CellarEvent))]
[JsonSerializable(typeof(Fact))]
internal sealed partial class LineJson : JsonSerializerContext;
