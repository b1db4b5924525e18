using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Backups;

/// <summary>The schema document that goes with every export, so that the lines can be read without this program.</summary>
public static class EventSchema
{
    /// <summary>JSON Schema of one line.</summary>
    public static string Text()
    {
        var node = EventLine.Schema(new JsonSchemaExporterOptions { TransformSchemaNode = Described });
        var schema = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["title"] = "One line of the ledger of Undercroft",
            ["description"] = "A fact (type and version under 'type'), when it happened (ISO 8601-2, null where unknown) and when it was recorded (UTC). SI units: kg, m, m3, K; shares and humidities from 0 to 1.",
        };
        foreach (var (name, part) in node.AsObject().ToArray())
            schema[name] = part?.DeepClone();
        return schema.ToJsonString(new JsonSerializerOptions { WriteIndented = true });
    }

    private static JsonNode Described(JsonSchemaExporterContext context, JsonNode node)
    {
        var type = Nullable.GetUnderlyingType(context.TypeInfo.Type) ?? context.TypeInfo.Type;
        if (type == typeof(UnevenDate))
            return Of(["string", "null"], "A date as ISO 8601-2 writes it: 2015, 2015-06, 2015-21, 2015~, 201X, [2014..2016], [..2012]; null where unknown.");
        if (type == typeof(PackageId) || type == typeof(LotId) || type == typeof(PlaceId) || type == typeof(ShortId))
            return Of(["string"], "Five characters of Crockford's base 32; the last is the check character, the first four modulo 37.");
        if (type == typeof(StatedMass) || type == typeof(StatedVolume) || type == typeof(StatedLength) || type == typeof(StatedTemperature) || type == typeof(StatedFraction))
            return Of(["object", "null"], "'exact', or 'about', or 'from' and 'to', or none of them where nobody knows; in 'unit'; 'by' says who says so; 'text' is as entered.");
        if (type == typeof(Money))
            return Of(["object", "null"], "'exact', or 'about', or 'from' and 'to'; 'currency' as entered; 'by' says who says so; 'text' is as entered.");
        if (type == typeof(Mass) || type == typeof(Length) || type == typeof(Temperature) || type == typeof(RelativeHumidity))
            return Of(["number"], "In the SI unit that the name ends in.");
        if (type.IsEnum)
            return new JsonObject { ["enum"] = new JsonArray([.. Words(type).Select(word => (JsonNode)word)]) };
        return node;
    }

    private static JsonObject Of(string[] types, string description) => new()
    {
        ["type"] = types.Length == 1 ? types[0] : new JsonArray([.. types.Select(type => (JsonNode)type)]),
        ["description"] = description,
    };

    private static IReadOnlyList<string> Words(Type type) =>
        type == typeof(Finding) ? CodeWords.All<Finding>()
        : type == typeof(Feel) ? CodeWords.All<Feel>()
        : type == typeof(RemovedAs) ? CodeWords.All<RemovedAs>()
        : type == typeof(Decision) ? CodeWords.All<Decision>()
        : throw new InvalidOperationException($"Nobody listed the words of {type.Name}.");
}
