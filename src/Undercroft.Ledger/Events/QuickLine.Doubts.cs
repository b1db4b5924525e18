using System.Runtime.CompilerServices;
using System.Text.Json;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger.Events;

/// <summary>What came in: lots, packages and the rows of a sheet that were doubted, of which a sheet that is brought in has two or three for each of its rows.</summary>
internal static partial class QuickLine
{
    private static readonly StatedJson.OfFraction Fractions = new();
    private static readonly MoneyJson Moneys = new();

    [MethodImpl(AtOnce)]
    private static Fact.LotAdded? Lot(ref Utf8JsonReader reader)
    {
        if (!Next(ref reader, "lot"u8) || !Id(ref reader, out var lot) || !Next(ref reader, "blend"u8) || Blend(ref reader) is not { } blend
            || !Day(ref reader, "made"u8, out var made) || !Mass(ref reader, "net"u8, out var net))
            return null;
        Money? paid = null;
        if (Named(ref reader, "paid"u8))
        {
            paid = Moneys.Read(ref reader, typeof(Money), JsonSerializerOptions.Default);
            reader.Read();
        }

        return Words(ref reader, "source"u8, out var source) && Text(ref reader, out var text) ? new Fact.LotAdded(new LotId(lot), blend, made, net, paid, source, text) : null;
    }

    // A blend of which kinds of leaf are known goes the general way.
    [MethodImpl(AtOnce)]
    private static Blend? Blend(ref Utf8JsonReader reader)
    {
        if (reader.TokenType != JsonTokenType.StartObject || !reader.Read() || !Words(ref reader, "name"u8, out var name)
            || !Named(ref reader, "leaf"u8) || reader.TokenType != JsonTokenType.StartArray || !reader.Read() || reader.TokenType != JsonTokenType.EndArray || !reader.Read()
            || !Words(ref reader, "cut"u8, out var cut) || !Words(ref reader, "casing"u8, out var casing) || reader.TokenType != JsonTokenType.EndObject)
            return null;
        reader.Read();
        return new Blend(name, [], cut, casing);
    }

    [MethodImpl(AtOnce)]
    private static Fact.PackagesAdded? Packages(ref Utf8JsonReader reader)
    {
        if (!Next(ref reader, "lot"u8) || !Id(ref reader, out var lot) || !Next(ref reader, "packages"u8) || reader.TokenType != JsonTokenType.StartArray)
            return null;
        List<PackageId> packages = [];
        while (reader.Read() && reader.TokenType == JsonTokenType.String)
        {
            if (!Id(ref reader, out var id))
                return null;
            packages.Add(new PackageId(id));
        }

        if (reader.TokenType != JsonTokenType.EndArray || !Next(ref reader, "container"u8) || Container(ref reader) is not { } container
            || !Mass(ref reader, "net"u8, out var net) || !Mass(ref reader, "gross"u8, out var gross))
            return null;
        StatedFraction moisture = default;
        if (Named(ref reader, "moisture"u8))
        {
            moisture = Fractions.Read(ref reader, typeof(StatedFraction), JsonSerializerOptions.Default);
            reader.Read();
        }

        if (!Day(ref reader, "sealed"u8, out var put))
            return null;
        PlaceId? place = null;
        if (Named(ref reader, "place"u8))
        {
            if (!Id(ref reader, out var id))
                return null;
            place = new PlaceId(id);
            reader.Read();
        }

        return Words(ref reader, "note"u8, out var note) && Flag(ref reader, "opened"u8, out var opened) && reader.TokenType == JsonTokenType.EndObject
            ? new Fact.PackagesAdded(new LotId(lot), packages, container, net, gross, moisture, put, place, note, opened)
            : null;
    }

    // A container of its own size or mass goes the general way.
    [MethodImpl(AtOnce)]
    private static Container? Container(ref Utf8JsonReader reader)
    {
        if (reader.TokenType != JsonTokenType.StartObject || !reader.Read() || !Words(ref reader, "kind"u8, out var kind) || !Words(ref reader, "text"u8, out var text) || reader.TokenType != JsonTokenType.EndObject)
            return null;
        reader.Read();
        return new Container(kind, text);
    }

    [MethodImpl(AtOnce)]
    private static Fact.RowDoubted? Doubted(ref Utf8JsonReader reader)
    {
        reader.Read();
        if (!Words(ref reader, "file"u8, out var file) || file is null || !Words(ref reader, "sha256"u8, out var sha256) || sha256 is null
            || !Named(ref reader, "row"u8) || !reader.TryGetInt32(out var row) || !Next(ref reader, "cells"u8) || reader.TokenType != JsonTokenType.StartArray)
            return null;
        List<string> cells = [];
        while (reader.Read() && reader.TokenType == JsonTokenType.String)
            cells.Add(reader.GetString()!);
        if (reader.TokenType != JsonTokenType.EndArray || !reader.Read() || !Words(ref reader, "reason"u8, out var reason) || reason is null || !Words(ref reader, "sheet"u8, out var sheet))
            return null;
        List<Guid>? brought = null;
        if (Named(ref reader, "brought"u8))
        {
            if (reader.TokenType != JsonTokenType.StartArray)
                return null;
            brought = [];
            while (reader.Read() && reader.TokenType == JsonTokenType.String)
                brought.Add(reader.GetGuid());
            if (reader.TokenType != JsonTokenType.EndArray)
                return null;
            reader.Read();
        }

        return reader.TokenType == JsonTokenType.EndObject ? new Fact.RowDoubted(file, sha256, row, cells, reason, sheet, brought) : null;
    }

    /// <summary>A stated mass that may be missing.</summary>
    [MethodImpl(AtOnce)]
    private static bool Mass(ref Utf8JsonReader reader, ReadOnlySpan<byte> name, out StatedMass mass)
    {
        mass = default;
        if (!Named(ref reader, name))
            return true;
        mass = Masses.Read(ref reader, typeof(StatedMass), JsonSerializerOptions.Default);
        return reader.Read();
    }

    /// <summary>A date that may be missing.</summary>
    [MethodImpl(AtOnce)]
    private static bool Day(ref Utf8JsonReader reader, ReadOnlySpan<byte> name, out UnevenDate date)
    {
        date = UnevenDate.Unknown;
        return !Named(ref reader, name) || (Date(ref reader, out date) && reader.Read());
    }
}
