using System.Text.Json.Serialization;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Events;

public abstract partial record Fact
{
    /// <summary>Readings of a logger were brought in, all from one file, for one place. The readings themselves lie beside the lines, sealed by their digest here.</summary>
    /// <param name="Place">Where the logger stood.</param>
    /// <param name="File">Name of the file.</param>
    /// <param name="FileSha256">Digest of its bytes, in hexadecimal.</param>
    /// <param name="Series">Name or number of the sensor, to tell several in one place apart; null where there is one.</param>
    /// <param name="Zone">Time zone in which the file's times were read, such as <c>Europe/Berlin</c> or <c>UTC+1</c>; null where the file says.</param>
    /// <param name="Unit">Unit in which its temperatures were read, <c>C</c> or <c>F</c>; null where there are none.</param>
    /// <param name="Assumed">What was assumed and not said by the file or the person, in words.</param>
    /// <param name="Batch">ID of the batch.</param>
    /// <param name="Count">Readings in it.</param>
    /// <param name="First">First instant.</param>
    /// <param name="Last">Last instant.</param>
    /// <param name="Sha256">Digest of the readings as lines of text; see <see cref="Readings.ReadingLines"/>.</param>
    /// <param name="Repeated">Rows left out because their instant stood in the file before.</param>
    /// <param name="Rejected">Rows left out because they could not be read or could not be so.</param>
    public sealed record ReadingsImported(
        PlaceId Place,
        string File,
        string FileSha256,
        string? Series = null,
        string? Zone = null,
        string? Unit = null,
        string? Assumed = null,
        Guid Batch = default,
        long Count = 0,
        DateTimeOffset First = default,
        DateTimeOffset Last = default,
        string Sha256 = "",
        int Repeated = 0,
        int Rejected = 0) : Fact;

    /// <summary>A logger or hygrometer was held against known humidities.</summary>
    /// <param name="Place">Where it stands.</param>
    /// <param name="Points">What it showed at which true humidity.</param>
    /// <param name="Series">Which sensor of the place; null where there is one.</param>
    /// <param name="Gain">True humidity is gain times shown plus offset, as worked out from the points or as a certificate states; null where not said.</param>
    /// <param name="OffsetFraction">The offset, as a fraction; null where not said.</param>
    /// <param name="Temperature">Of the test; null where nobody read it.</param>
    /// <param name="Text">In words.</param>
    public sealed record HygrometerChecked(
        PlaceId Place,
        IReadOnlyList<HygrometerPoint> Points,
        string? Series = null,
        double? Gain = null,
        double? OffsetFraction = null,
        [property: JsonPropertyName("temperatureK"), JsonConverter(typeof(QuantityJson.OfTemperature))] Temperature? Temperature = null,
        string? Text = null) : Fact;
}

/// <summary>A hygrometer in air of known humidity.</summary>
/// <param name="True">The humidity there.</param>
/// <param name="Shown">What it showed.</param>
/// <param name="Salt">The salt that made it, such as <c>NaCl</c>; null where something else did.</param>
public sealed record HygrometerPoint(
    [property: JsonPropertyName("trueFraction"), JsonConverter(typeof(QuantityJson.OfHumidity))] RelativeHumidity True,
    [property: JsonPropertyName("shownFraction"), JsonConverter(typeof(QuantityJson.OfHumidity))] RelativeHumidity Shown,
    string? Salt = null);
