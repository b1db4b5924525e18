using System.Text.Json;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger.Events;

/// <summary>What stands in the cellar and where, and what was taken back: the lines that every ledger has. With them the general way, dear to set up, is not needed for most ledgers.</summary>
internal static partial class QuickLine
{
    private static readonly StatedJson.OfVolume Volumes = new();
    private static readonly StatedJson.OfLength Lengths = new();
    private static readonly StatedJson.OfTemperature Temperatures = new();
    private static readonly StatedJson.OfFraction Fractions = new();
    private static readonly MoneyJson Moneys = new();

    private static Fact.CellarCreated? Created(ref Utf8JsonReader reader)
    {
        reader.Read();
        return Words(ref reader, "name"u8, out var name) && Ends(ref reader) ? new Fact.CellarCreated(name) : null;
    }

    private static Fact.PlaceAdded? PlaceAdded(ref Utf8JsonReader reader)
    {
        if (!Next(ref reader, "place"u8) || !Id(ref reader, out var place) || !reader.Read() || !Words(ref reader, "name"u8, out var name) || name is null
            || !Within(ref reader, "inside"u8, out var inside) || !Words(ref reader, "roomKind"u8, out var room))
            return null;
        StatedLength altitude = default;
        if (Thing(ref reader, "altitude"u8))
        {
            altitude = Lengths.Read(ref reader, typeof(StatedLength), JsonSerializerOptions.Default);
            reader.Read();
        }

        return Climate(ref reader, out var climate) && Ends(ref reader) ? new Fact.PlaceAdded(new PlaceId(place), name, inside, room, altitude, climate) : null;
    }

    private static bool Climate(ref Utf8JsonReader reader, out StatedClimate? climate)
    {
        climate = null;
        if (!Thing(ref reader, "climate"u8))
            return true;
        reader.Read();
        StatedTemperature temperature = default;
        if (Thing(ref reader, "temperature"u8))
        {
            temperature = Temperatures.Read(ref reader, typeof(StatedTemperature), JsonSerializerOptions.Default);
            reader.Read();
        }

        if (!Fraction(ref reader, "humidity"u8, out var humidity) || !Words(ref reader, "text"u8, out var text) || !Ends(ref reader))
            return false;
        climate = new(temperature, humidity, text);
        return reader.Read();
    }

    private static Fact.LotAdded? LotAdded(ref Utf8JsonReader reader)
    {
        if (!Next(ref reader, "lot"u8) || !Id(ref reader, out var lot) || !reader.Read() || !Blend(ref reader, out var blend)
            || !Day(ref reader, "made"u8, out var made) || !Mass(ref reader, "net"u8, out var net))
            return null;
        Money? paid = null;
        if (Thing(ref reader, "paid"u8))
        {
            paid = Moneys.Read(ref reader, typeof(Money), JsonSerializerOptions.Default);
            reader.Read();
        }

        return Words(ref reader, "source"u8, out var source) && Text(ref reader, out var text) ? new Fact.LotAdded(new LotId(lot), blend, made, net, paid, source, text) : null;
    }

    private static bool Blend(ref Utf8JsonReader reader, out Blend blend)
    {
        blend = Events.Blend.Unknown;
        if (!Thing(ref reader, "blend"u8) || !reader.Read() || !Words(ref reader, "name"u8, out var name) || !Words(ref reader, "cut"u8, out var cut) || !Words(ref reader, "casing"u8, out var casing)
            || !Named(ref reader, "leaf"u8) || reader.TokenType != JsonTokenType.StartArray)
            return false;
        List<LeafShare> leaf = [];
        while (reader.Read() && reader.TokenType == JsonTokenType.StartObject)
        {
            reader.Read();
            if (!Words(ref reader, "kind"u8, out var kind) || kind is null || !Fraction(ref reader, "share"u8, out var share) || !Ends(ref reader))
                return false;
            leaf.Add(new(kind, share));
        }

        if (reader.TokenType != JsonTokenType.EndArray || !reader.Read() || !Ends(ref reader))
            return false;
        blend = new(name, leaf, cut, casing);
        return reader.Read();
    }

    private static Fact.PackagesAdded? PackagesAdded(ref Utf8JsonReader reader)
    {
        if (!Next(ref reader, "lot"u8) || !Id(ref reader, out var lot) || !Next(ref reader, "packages"u8) || reader.TokenType != JsonTokenType.StartArray)
            return null;
        List<PackageId> packages = [];
        while (reader.Read() && reader.TokenType == JsonTokenType.String)
        {
            if (!Id(ref reader, out var package))
                return null;
            packages.Add(new(package));
        }

        if (reader.TokenType != JsonTokenType.EndArray || !reader.Read() || !Container(ref reader, out var container) || !Mass(ref reader, "net"u8, out var net)
            || !Mass(ref reader, "gross"u8, out var gross) || !Fraction(ref reader, "moisture"u8, out var moisture) || !Day(ref reader, "sealed"u8, out var closed)
            || !Within(ref reader, "place"u8, out var place) || !Words(ref reader, "note"u8, out var note) || !Flag(ref reader, "opened"u8, out var opened) || !Ends(ref reader))
            return null;
        return new(new LotId(lot), packages, container, net, gross, moisture, closed, place, note, opened);
    }

    private static Fact.PackageRepacked? Repacked(ref Utf8JsonReader reader) =>
        Package(ref reader, out var package) && Container(ref reader, out var container) && Mass(ref reader, "gross"u8, out var gross) && Mass(ref reader, "net"u8, out var net)
        && Text(ref reader, out var text)
            ? new Fact.PackageRepacked(package, container, gross, net, text)
            : null;

    private static bool Container(ref Utf8JsonReader reader, out Container container)
    {
        container = Events.Container.Unknown;
        if (!Thing(ref reader, "container"u8) || !reader.Read() || !Words(ref reader, "kind"u8, out var kind) || !Words(ref reader, "text"u8, out var text))
            return false;
        StatedVolume capacity = default;
        if (Thing(ref reader, "capacity"u8))
        {
            capacity = Volumes.Read(ref reader, typeof(StatedVolume), JsonSerializerOptions.Default);
            reader.Read();
        }

        if (!Mass(ref reader, "tare"u8, out var tare) || !Ends(ref reader))
            return false;
        container = new(kind, text, capacity, tare);
        return reader.Read();
    }

    private static Fact.EventCorrected? Corrected(ref Utf8JsonReader reader)
    {
        if (!Next(ref reader, "event"u8) || !reader.TryGetGuid(out var which) || !Next(ref reader, "replacement"u8) || reader.TokenType != JsonTokenType.StartObject
            || !Next(ref reader, "type"u8) || reader.TokenType != JsonTokenType.String || OfType(ref reader) is not { } replacement || !Ends(ref reader) || !reader.Read()
            || !Flag(ref reader, "replacesDate"u8, out var replaces) || !Day(ref reader, "happened"u8, out var happened) || !Words(ref reader, "reason"u8, out var reason) || !Ends(ref reader))
            return null;
        return new(which, replacement, replaces, happened, reason);
    }

    private static Fact.EventUndone? Undone(ref Utf8JsonReader reader) =>
        Next(ref reader, "event"u8) && reader.TryGetGuid(out var which) && reader.Read() && Words(ref reader, "reason"u8, out var reason) && Ends(ref reader)
            ? new Fact.EventUndone(which, reason)
            : null;

    private static bool Ends(ref Utf8JsonReader reader) => reader.TokenType == JsonTokenType.EndObject;

    /// <summary>Where this property has this name, and an object follows.</summary>
    private static bool Thing(ref Utf8JsonReader reader, ReadOnlySpan<byte> name) => Named(ref reader, name) && reader.TokenType == JsonTokenType.StartObject;

    private static bool Mass(ref Utf8JsonReader reader, ReadOnlySpan<byte> name, out StatedMass mass)
    {
        mass = default;
        if (!Thing(ref reader, name))
            return true;
        mass = Masses.Read(ref reader, typeof(StatedMass), JsonSerializerOptions.Default);
        return reader.Read();
    }

    private static bool Fraction(ref Utf8JsonReader reader, ReadOnlySpan<byte> name, out StatedFraction fraction)
    {
        fraction = default;
        if (!Thing(ref reader, name))
            return true;
        fraction = Fractions.Read(ref reader, typeof(StatedFraction), JsonSerializerOptions.Default);
        return reader.Read();
    }

    private static bool Day(ref Utf8JsonReader reader, ReadOnlySpan<byte> name, out UnevenDate day)
    {
        day = UnevenDate.Unknown;
        return !Named(ref reader, name) || (Date(ref reader, out day) && reader.Read());
    }

    private static bool Within(ref Utf8JsonReader reader, ReadOnlySpan<byte> name, out PlaceId? place)
    {
        place = null;
        if (!Named(ref reader, name))
            return true;
        if (!Id(ref reader, out var id))
            return false;
        place = new PlaceId(id);
        return reader.Read();
    }
}
