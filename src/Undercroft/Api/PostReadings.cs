using System.Globalization;
using System.Text.Json;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Api;

/// <summary>One reading as a program sends it. At least one value besides the instant.</summary>
/// <param name="At">ISO 8601 with its offset, such as <c>2026-05-03T14:00:00Z</c>.</param>
/// <param name="TemperatureC">Of the air.</param>
/// <param name="HumidityPct">Relative, over liquid water.</param>
/// <param name="PressurePa">Absolute.</param>
/// <param name="LightLux">Illuminance.</param>
internal sealed record SentReading(string? At, double? TemperatureC = null, double? HumidityPct = null, double? PressurePa = null, double? LightLux = null);

/// <summary>Readings of one sensor in one place.</summary>
/// <param name="Place">Its ID, name or path; it must be known.</param>
/// <param name="Sensor">Which of several there; blank for the only one.</param>
/// <param name="Readings">In any order; one that is there already is not kept twice.</param>
internal sealed record SentReadings(string? Place, string? Sensor, IReadOnlyList<SentReading>? Readings);

/// <summary>What came of them.</summary>
/// <param name="ReadingsAdded">New ones.</param>
/// <param name="Duplicates">Instants that were there already, or twice in what was sent.</param>
/// <param name="FirstUtc">Of what was sent.</param>
/// <param name="LastUtc">Of what was sent.</param>
/// <param name="Event">The line of the ledger; null where nothing was new.</param>
internal sealed record KeptReadings(long ReadingsAdded, long Duplicates, string FirstUtc, string LastUtc, object? Event);

/// <summary>Takes readings that a program sends.</summary>
internal static class PostReadings
{
    internal const string Path = "/api/readings";
    internal const long MostBytes = 8 * 1024 * 1024;

    private static readonly JsonSerializerOptions Strict = new(JsonText.Settings) { UnmappedMemberHandling = System.Text.Json.Serialization.JsonUnmappedMemberHandling.Disallow };

    internal static async Task<IResult> Answer(HttpContext context, Handed handed, Visit visit)
    {
        if (!context.Request.HasJsonContentType())
            return ApiCall.Refused(StatusCodes.Status415UnsupportedMediaType, "What is sent must be JSON: Content-Type: application/json.");
        try
        {
            var sent = await JsonSerializer.DeserializeAsync<SentReadings>(context.Request.Body, Strict, context.RequestAborted)
                ?? throw new Refusal("Nothing was sent.");
            var kept = await Of(handed, sent, visit.Name, context.RequestAborted);
            return Results.Text(JsonText.Of(kept) + "\n", "application/json", System.Text.Encoding.UTF8);
        }
        catch (JsonException wrong)
        {
            return ApiCall.Refused(StatusCodes.Status400BadRequest, $"What was sent is not readings as /api/openapi.json shows them, so nothing was kept. See {wrong.Path ?? "the whole of it"}.");
        }
        catch (Refusal refusal)
        {
            return ApiCall.Refused(ApiCall.StatusOf(refusal, []), refusal.Message);
        }
    }

    /// <summary>Keeps them, all or none.</summary>
    internal static async ValueTask<KeptReadings> Of(Handed handed, SentReadings sent, string? from, CancellationToken cancellation)
    {
        if (string.IsNullOrWhiteSpace(sent.Place))
            throw new Refusal("No place was named: say where the sensor stands.");
        Reading[] rows = [.. (sent.Readings ?? []).Select(Read)];
        if (rows.Length == 0)
            throw new Refusal("There is not one reading in what was sent.");
        ReadingsTaken? counted = null;
        var change = await handed.Cellars.ImportAsync(cellar =>
        {
            var (place, now) = (cellar.FindPlace(sent.Place).Id, handed.PresentOf(cellar).Now);
            var sensor = string.IsNullOrWhiteSpace(sent.Sensor) ? null : sent.Sensor.Trim();
            var name = from ?? "a program";
            return new ReadingBatch(Guid.CreateVersion7(now), rows, taken =>
            {
                counted = taken;
                return taken.AddsNothing ? [] : [CellarEvent.New(taken.Fact(new Fact.ReadingsImported(place, name, "", Series: sensor)), taken.Happened, now)];
            }, cellar.ReadingsOf(place, sensor ?? ""));
        }, cancellation);
        var got = counted!;
        return new(
            got.Count - got.Known, got.Repeated + got.Contradicted + got.Known, Text(got.First), Text(got.Last),
            change.Events is [.., var line] ? new { type = line.Fact.Type, id = line.Version.ToString(CultureInfo.InvariantCulture) } : null);
    }

    private static Reading Read(SentReading sent, int n)
    {
        var which = string.Create(CultureInfo.InvariantCulture, $"Reading {n + 1}");
        if (!DateTimeOffset.TryParseExact(sent.At, ["yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var at)
            || sent.At!.LastIndexOfAny(['Z', '+', '-']) < 11)
            throw new Refusal($"{which}: '{sent.At}' is not an instant with its offset, such as 2026-05-03T14:00:00Z. Nothing was kept.");
        try
        {
            return new(
                at.ToUnixTimeSeconds(),
                sent.TemperatureC is { } warmth ? Temperature.FromCelsius(warmth) : null,
                sent.HumidityPct is { } damp ? RelativeHumidity.FromPercent(damp) : null,
                sent.PressurePa is { } air ? new Pressure(air) : null,
                sent.LightLux);
        }
        catch (ArgumentOutOfRangeException impossible)
        {
            throw new Refusal($"{which}: {impossible.Message.Split(" (Parameter", 2)[0]} Nothing was kept.");
        }
    }

    private static string Text(DateTimeOffset instant) => instant.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
