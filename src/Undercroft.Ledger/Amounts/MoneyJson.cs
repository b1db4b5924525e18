using System.Text.Json;
using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Amounts;

/// <summary>Money as <c>{"exact":32.50,"currency":"EUR","by":"receipt","text":"32.50 EUR"}</c>, or with <c>about</c>, or with <c>from</c> and <c>to</c>.</summary>
public sealed class MoneyJson : JsonConverter<Money>
{
    /// <inheritdoc/>
    public override Money Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType != JsonTokenType.StartObject)
            throw new JsonException("Money is an object or null.");
        decimal? exact = null, about = null, from = null, to = null;
        string? currency = null, text = null;
        var by = SaidBy.Unstated;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var name = reader.GetString();
            reader.Read();
            switch (name)
            {
                case "exact": exact = reader.GetDecimal(); break;
                case "about": about = reader.GetDecimal(); break;
                case "from": from = reader.GetDecimal(); break;
                case "to": to = reader.GetDecimal(); break;
                case "currency": currency = reader.GetString(); break;
                case "text": text = reader.GetString(); break;
                case "by":
                    by = CodeWords.Find<SaidBy>(reader.GetString()) ?? throw new JsonException($"Nobody known as '{reader.GetString()}' says amounts.");
                    break;
                default: throw new JsonException($"Money has no '{name}'.");
            }
        }

        if (currency is null)
            throw new JsonException("Money needs its currency.");
        return (exact, about, from, to) switch
        {
            ({ } value, null, null, null) => new(Evenness.Exact, value, value, currency, by, text),
            (null, { } value, null, null) => new(Evenness.About, value, value, currency, by, text),
            (null, null, { } low, { } high) when low <= high => new(Evenness.Between, low, high, currency, by, text),
            _ => throw new JsonException("Money has exactly one of: exact; about; from and to, the smaller first."),
        };
    }

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, Money value, JsonSerializerOptions options)
    {
        writer.WriteStartObject();
        switch (value.Evenness)
        {
            case Evenness.Exact: writer.WriteNumber("exact", value.First); break;
            case Evenness.About: writer.WriteNumber("about", value.First); break;
            case Evenness.Between:
                writer.WriteNumber("from", value.First);
                writer.WriteNumber("to", value.Second);
                break;
            default: throw new InvalidOperationException($"No JSON for {value.Evenness} money: unknown money is null.");
        }

        writer.WriteString("currency", value.Currency);
        if (value.By != SaidBy.Unstated)
            writer.WriteString("by", CodeWords.Of(value.By));
        if (value.Text is not null)
            writer.WriteString("text", value.Text);
        writer.WriteEndObject();
    }
}
