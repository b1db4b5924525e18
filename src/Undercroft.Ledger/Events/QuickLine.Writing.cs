using System.Text.Json;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;

namespace Undercroft.Ledger.Events;

/// <summary>The short way to write: the two facts of which an imported sheet brings a pair for every row.</summary>
internal static partial class QuickLine
{
    private static readonly UnevenDateJson Dates = new();

    /// <summary>Writes a line exactly as the general way does; false where that one is to be taken, and then nothing was written.</summary>
    internal static bool Write(Utf8JsonWriter writer, CellarEvent line)
    {
        if (line.Fact is not (Fact.LotAdded or Fact.PackagesAdded))
            return false;
        writer.WriteStartObject();
        writer.WriteNumber("version"u8, line.Version);
        writer.WriteString("id"u8, line.Id);
        writer.WritePropertyName("happened"u8);
        Dates.Write(writer, line.Happened, JsonSerializerOptions.Default);
        writer.WriteString("recorded"u8, line.Recorded);
        Words(writer, "who"u8, line.Who);
        if (line.Cause is { } cause)
            writer.WriteString("cause"u8, cause);
        writer.WriteStartObject("fact"u8);
        writer.WriteString("type"u8, line.Fact.Type);
        if (line.Fact is Fact.LotAdded lot)
            Lot(writer, lot);
        else if (line.Fact is Fact.PackagesAdded packages)
            Packages(writer, packages);
        writer.WriteEndObject();
        writer.WriteEndObject();
        return true;
    }

    private static void Lot(Utf8JsonWriter writer, Fact.LotAdded fact)
    {
        writer.WriteString("lot"u8, fact.Lot.ToString());
        writer.WriteStartObject("blend"u8);
        Words(writer, "name"u8, fact.Blend.Name);
        Words(writer, "cut"u8, fact.Blend.Cut);
        Words(writer, "casing"u8, fact.Blend.Casing);
        writer.WriteStartArray("leaf"u8);
        foreach (var leaf in fact.Blend.Leaf)
        {
            writer.WriteStartObject();
            writer.WriteString("kind"u8, leaf.Kind);
            Fraction(writer, "share"u8, leaf.Share);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteEndObject();
        Date(writer, "made"u8, fact.Made);
        Mass(writer, "net"u8, fact.Net);
        if (fact.Paid is { } paid)
        {
            writer.WritePropertyName("paid"u8);
            Moneys.Write(writer, paid, JsonSerializerOptions.Default);
        }

        Words(writer, "source"u8, fact.Source);
        Words(writer, "text"u8, fact.Text);
    }

    private static void Packages(Utf8JsonWriter writer, Fact.PackagesAdded fact)
    {
        writer.WriteString("lot"u8, fact.Lot.ToString());
        writer.WriteStartArray("packages"u8);
        foreach (var package in fact.Packages)
            writer.WriteStringValue(package.ToString());
        writer.WriteEndArray();
        writer.WriteStartObject("container"u8);
        Words(writer, "kind"u8, fact.Container.Kind);
        Words(writer, "text"u8, fact.Container.Text);
        if (fact.Container.Capacity != default)
        {
            writer.WritePropertyName("capacity"u8);
            Volumes.Write(writer, fact.Container.Capacity, JsonSerializerOptions.Default);
        }

        Mass(writer, "tare"u8, fact.Container.Tare);
        writer.WriteEndObject();
        Mass(writer, "net"u8, fact.Net);
        Mass(writer, "gross"u8, fact.Gross);
        Fraction(writer, "moisture"u8, fact.Moisture);
        Date(writer, "sealed"u8, fact.Sealed);
        if (fact.Place is { } place)
            writer.WriteString("place"u8, place.ToString());
        Words(writer, "note"u8, fact.Note);
        if (fact.Opened)
            writer.WriteBoolean("opened"u8, fact.Opened);
    }

    // What is not said is left out.
    private static void Words(Utf8JsonWriter writer, ReadOnlySpan<byte> name, string? words)
    {
        if (words is not null)
            writer.WriteString(name, words);
    }

    private static void Date(Utf8JsonWriter writer, ReadOnlySpan<byte> name, UnevenDate date)
    {
        if (date.IsKnown)
            writer.WriteString(name, date.ToString());
    }

    private static void Mass(Utf8JsonWriter writer, ReadOnlySpan<byte> name, StatedMass mass)
    {
        if (mass == default)
            return;
        writer.WritePropertyName(name);
        Masses.Write(writer, mass, JsonSerializerOptions.Default);
    }

    private static void Fraction(Utf8JsonWriter writer, ReadOnlySpan<byte> name, StatedFraction fraction)
    {
        if (fraction == default)
            return;
        writer.WritePropertyName(name);
        Fractions.Write(writer, fraction, JsonSerializerOptions.Default);
    }
}
