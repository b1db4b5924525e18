using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Undercroft.Shell;

/// <summary>JSON as every door prints it: camel case, unknown as null, numbers rounded to nine significant digits.</summary>
public static class JsonText
{
    /// <summary>Significant digits of every printed number.</summary>
    public const int SignificantDigits = 9;

    /// <summary>The settings; shared by the command line and the HTTP endpoints.</summary>
    public static JsonSerializerOptions Settings { get; } = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new RoundedNumber() },
    };

    /// <summary>One JSON value.</summary>
    public static string Of(object value) => JsonSerializer.Serialize(value, value.GetType(), Settings);

    /// <summary>The number with nine significant digits.</summary>
    public static double Rounded(double value) =>
        double.Parse(value.ToString("G" + SignificantDigits, CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private sealed class RoundedNumber : JsonConverter<double>
    {
        public override double Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => reader.GetDouble();

        public override void Write(Utf8JsonWriter writer, double value, JsonSerializerOptions options)
        {
            if (double.IsFinite(value))
                writer.WriteNumberValue(Rounded(value));
            else
                writer.WriteNullValue();
        }
    }
}
