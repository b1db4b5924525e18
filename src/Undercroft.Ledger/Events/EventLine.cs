using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Events;

/// <summary>An event as one line of JSON: the form in which it is stored, exported and sealed by the digest.</summary>
/// <remarks>
/// Reading is strict: an unknown name or field is refused, since skipping it would lose what it says. Fields that are null are left out on writing, so a fact may gain an optional
/// field without a new version: old lines read and write back unchanged.
/// </remarks>
public static class EventLine
{
    private static readonly LineJson Json = new(new JsonSerializerOptions
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        AllowDuplicateProperties = false,
        AllowOutOfOrderMetadataProperties = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    });

    /// <summary>One line, without the line end.</summary>
    public static string Write(CellarEvent line) => JsonSerializer.Serialize(line, Json.CellarEvent);

    /// <summary>The fact alone, with its registered name under <c>type</c>.</summary>
    public static string WriteFact(Fact fact) => JsonSerializer.Serialize(fact, Json.Fact);

    /// <summary>The event of a line.</summary>
    /// <exception cref="InvalidDataException">The line is no event that this program knows; the message says why.</exception>
    public static CellarEvent Read(string line)
    {
        try
        {
            var read = JsonSerializer.Deserialize(line, Json.CellarEvent) ?? throw new InvalidDataException("This line is no event: it is null.");
            return Consistent(read);
        }
        catch (Exception unfit) when (unfit is JsonException or NotSupportedException or FormatException or InvalidOperationException or ArgumentException)
        {
            throw new InvalidDataException($"This line is no event that this program knows: {unfit.Message}", unfit);
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
}

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(CellarEvent))]
[JsonSerializable(typeof(Fact))]
internal sealed partial class LineJson : JsonSerializerContext;
