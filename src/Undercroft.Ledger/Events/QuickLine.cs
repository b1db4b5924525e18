using System.Text.Json;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Events;

/// <summary>
/// A short way for the lines of which a long ledger has the most, exactly as <see cref="EventLine.Write(CellarEvent)"/> writes them. At anything else it steps back, and the general way
/// decides: it reads nothing that the general way would not read the same, and refuses nothing.
/// </summary>
/// <remarks>Compiled at full speed at once, since a command reads a ledger once and ends.</remarks>
internal static partial class QuickLine
{
    private static readonly StatedJson.OfMass Masses = new();

    /// <summary>The event, or null where the general way is to be taken.</summary>
    internal static CellarEvent? Read(ReadOnlySpan<byte> line)
    {
        var reader = new Utf8JsonReader(line);
        try
        {
            return Event(ref reader);
        }
        catch (Exception unfit) when (unfit is JsonException or InvalidOperationException or FormatException)
        {
            return null;
        }
    }

    private static CellarEvent? Event(ref Utf8JsonReader reader)
    {
        reader.Read();
        reader.Read();
        if (!Named(ref reader, "version"u8) || !reader.TryGetInt64(out var version) || !Next(ref reader, "id"u8) || !reader.TryGetGuid(out var id)
            || !Next(ref reader, "happened"u8) || !Date(ref reader, out var happened) || !Next(ref reader, "recorded"u8) || !reader.TryGetDateTimeOffset(out var recorded))
            return null;
        reader.Read();
        if (!Words(ref reader, "who"u8, out var who))
            return null;
        Guid? cause = null;
        if (Named(ref reader, "cause"u8))
        {
            cause = reader.GetGuid();
            reader.Read();
        }

        if (!Named(ref reader, "fact"u8) || reader.TokenType != JsonTokenType.StartObject || !Next(ref reader, "type"u8) || reader.TokenType != JsonTokenType.String)
            return null;
        var fact = OfType(ref reader);
        return fact is not null && reader.TokenType == JsonTokenType.EndObject && reader.Read() && reader.TokenType == JsonTokenType.EndObject && !reader.Read()
            ? new CellarEvent(version, id, happened, recorded, fact, who, cause)
            : null;
    }

    private static Fact? OfType(ref Utf8JsonReader reader)
    {
        if (reader.ValueTextEquals("package-weighed/1"u8))
            return Weighed(ref reader);
        if (reader.ValueTextEquals("humidity-read/1"u8))
            return Read(ref reader);
        if (reader.ValueTextEquals("package-looked/1"u8))
            return Looked(ref reader);
        if (reader.ValueTextEquals("noted/1"u8))
            return Noted(ref reader);
        if (reader.ValueTextEquals("leaf-taken/1"u8))
            return Taken(ref reader);
        if (reader.ValueTextEquals("package-moved/1"u8))
            return Moved(ref reader);
        if (reader.ValueTextEquals("package-opened/1"u8))
            return Package(ref reader, out var opened) && Text(ref reader, out var why) ? new Fact.PackageOpened(opened, why) : null;
        if (reader.ValueTextEquals("package-closed/1"u8))
            return Package(ref reader, out var closed) && Text(ref reader, out var why) ? new Fact.PackageClosed(closed, why) : null;
        if (reader.ValueTextEquals("row-doubted/1"u8))
            return Doubted(ref reader);
        if (reader.ValueTextEquals("packages-added/1"u8))
            return PackagesAdded(ref reader);
        if (reader.ValueTextEquals("lot-added/1"u8))
            return LotAdded(ref reader);
        if (reader.ValueTextEquals("place-added/1"u8))
            return PlaceAdded(ref reader);
        if (reader.ValueTextEquals("package-repacked/1"u8))
            return Repacked(ref reader);
        if (reader.ValueTextEquals("event-corrected/1"u8))
            return Corrected(ref reader);
        if (reader.ValueTextEquals("event-undone/1"u8))
            return Undone(ref reader);
        return reader.ValueTextEquals("cellar-created/1"u8) ? Created(ref reader) : null;
    }

    private static Fact.PackageWeighed? Weighed(ref Utf8JsonReader reader)
    {
        if (!Package(ref reader, out var package) || !Named(ref reader, "massKg"u8))
            return null;
        if (!Finite(ref reader, out var mass))
            return null;
        return Flag(ref reader, "net"u8, out var net) && Number(ref reader, "resolutionKg"u8, out var step) && Text(ref reader, out var text)
            ? new Fact.PackageWeighed(package, new Mass(mass), net, step is { } known ? new Mass(known) : null, text)
            : null;
    }

    private static Fact.HumidityRead? Read(ref Utf8JsonReader reader)
    {
        if (!Package(ref reader, out var package) || !Named(ref reader, "humidityFraction"u8))
            return null;
        if (!Finite(ref reader, out var humidity))
            return null;
        return Number(ref reader, "temperatureK"u8, out var warmth) && Text(ref reader, out var text)
            ? new Fact.HumidityRead(package, new RelativeHumidity(humidity), warmth is { } known ? new Temperature(known) : null, text)
            : null;
    }

    private static Fact.PackageLooked? Looked(ref Utf8JsonReader reader)
    {
        if (!Package(ref reader, out var package) || !Named(ref reader, "findings"u8) || reader.TokenType != JsonTokenType.StartArray)
            return null;
        List<Finding> findings = [];
        while (reader.Read() && reader.TokenType == JsonTokenType.String)
        {
            if (Word<Finding>(ref reader) is not { } finding)
                return null;
            findings.Add(finding);
        }

        if (reader.TokenType != JsonTokenType.EndArray)
            return null;
        reader.Read();
        if (!Number(ref reader, "bulgeM"u8, out var bulge))
            return null;
        Feel? feel = null;
        if (Named(ref reader, "feel"u8))
        {
            if (reader.TokenType != JsonTokenType.String || Word<Feel>(ref reader) is not { } felt)
                return null;
            feel = felt;
            reader.Read();
        }

        return Text(ref reader, out var text) ? new Fact.PackageLooked(package, findings, bulge is { } height ? new Length(height) : null, feel, text) : null;
    }

    private static Fact.Noted? Noted(ref Utf8JsonReader reader)
    {
        reader.Read();
        if (!Words(ref reader, "text"u8, out var text) || text is null)
            return null;
        if (reader.TokenType == JsonTokenType.EndObject)
            return new Fact.Noted(text);
        if (!Named(ref reader, "about"u8) || !Id(ref reader, out var about))
            return null;
        reader.Read();
        return new Fact.Noted(text, about);
    }

    private static Fact.LeafTaken? Taken(ref Utf8JsonReader reader)
    {
        if (!Package(ref reader, out var package) || !Named(ref reader, "mass"u8))
            return null;
        var mass = Masses.Read(ref reader, typeof(StatedMass), JsonSerializerOptions.Default);
        reader.Read();
        return Text(ref reader, out var text) ? new Fact.LeafTaken(package, mass, text) : null;
    }

    private static Fact.PackageMoved? Moved(ref Utf8JsonReader reader)
    {
        if (!Package(ref reader, out var package) || !Named(ref reader, "place"u8) || !Id(ref reader, out var place))
            return null;
        reader.Read();
        return Text(ref reader, out var text) ? new Fact.PackageMoved(package, new PlaceId(place), text) : null;
    }

    private static bool Package(ref Utf8JsonReader reader, out PackageId package)
    {
        package = default;
        if (!Next(ref reader, "package"u8) || !Id(ref reader, out var id))
            return false;
        package = new PackageId(id);
        return reader.Read();
    }

    /// <summary>Where the next property has this name, goes to its value.</summary>
    private static bool Next(ref Utf8JsonReader reader, ReadOnlySpan<byte> name) => reader.Read() && Named(ref reader, name);

    /// <summary>Where this property has this name, goes to its value.</summary>
    private static bool Named(ref Utf8JsonReader reader, ReadOnlySpan<byte> name) => reader.TokenType == JsonTokenType.PropertyName && reader.ValueTextEquals(name) && reader.Read();

    /// <summary>The last property of many facts; true where nothing else follows.</summary>
    private static bool Text(ref Utf8JsonReader reader, out string? text) => Words(ref reader, "text"u8, out text) && reader.TokenType == JsonTokenType.EndObject;

    private static bool Words(ref Utf8JsonReader reader, ReadOnlySpan<byte> name, out string? words)
    {
        words = null;
        if (!Named(ref reader, name))
            return true;
        if (reader.TokenType != JsonTokenType.String)
            return false;
        words = reader.GetString();
        return reader.Read();
    }

    private static bool Number(ref Utf8JsonReader reader, ReadOnlySpan<byte> name, out double? number)
    {
        number = null;
        if (!Named(ref reader, name))
            return true;
        var finite = Finite(ref reader, out var read);
        number = read;
        return finite;
    }

    /// <summary>A number such as 1e400 is left to the general way, which says what is wrong with it.</summary>
    private static bool Finite(ref Utf8JsonReader reader, out double number)
    {
        number = reader.GetDouble();
        return double.IsFinite(number) && reader.Read();
    }

    private static bool Flag(ref Utf8JsonReader reader, ReadOnlySpan<byte> name, out bool flag)
    {
        flag = false;
        if (!Named(ref reader, name))
            return true;
        flag = reader.GetBoolean();
        return reader.Read();
    }

    private static bool Date(ref Utf8JsonReader reader, out UnevenDate date)
    {
        date = UnevenDate.Unknown;
        if (reader.TokenType == JsonTokenType.Null)
            return true;
        return reader.TokenType == JsonTokenType.String && UnevenDate.TryParse(reader.GetString(), out date, out _);
    }

    private static bool Id(ref Utf8JsonReader reader, out ShortId id)
    {
        id = default;
        if (reader.TokenType != JsonTokenType.String || reader.HasValueSequence || reader.ValueIsEscaped || reader.ValueSpan.Length != 5)
            return false;
        Span<char> text = stackalloc char[5];
        for (var i = 0; i < 5; i++)
            text[i] = (char)reader.ValueSpan[i];
        return ShortId.TryAsPrinted(text, out id);
    }

    /// <summary>A member of a closed list by its very word.</summary>
    private static T? Word<T>(ref Utf8JsonReader reader) where T : struct, Enum =>
        reader.GetString() is { } word && CodeWords.Find<T>(word) is { } value && CodeWords.Of(value) == word ? value : null;
}
