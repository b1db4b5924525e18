using System.Text.Json;
using Undercroft.Keeping.Photos;
using Undercroft.Ledger;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Keeping.Rounds;

/// <summary>What the round without signal asks of the server: its items, and a place for its entries.</summary>
internal static class RoundFiles
{
    /// <summary>Entries taken in one go.</summary>
    private const int MostEntries = 200;

    private static readonly JsonSerializerOptions Reading = new(JsonSerializerDefaults.Web);

    internal static IReadOnlyList<Shell.Web.Endpoint> All { get; } =
    [
        new("GET", "/round/stops.json", Scope.Read, "The stops of a round.", (Func<HttpContext, Desk, RecentAnswers, Task>)(async (context, desk, recent) =>
        {
            var cellar = await desk.Cellar(context.RequestAborted);
            var present = desk.Present(cellar);
            var due = (await recent.Due(cellar, present.Today, RoundWalk.MinutesOf(context.Request.Query["Minutes"]), Timeout.InfiniteTimeSpan)).Answer!;
            await Json(context, new { today = DateText.Of(present.Today), demo = cellar.IsDemo, minutes = due.Minutes, stops = RoundWalk.Stops(cellar, due) });
        })),
        new("POST", "/round/entries", Scope.Measure, "Entries of a round; each is written once however often it is sent.", (Func<HttpContext, Desk, Task>)(async (context, desk) =>
        {
            if (await Entries(context) is not { } entries)
                return;
            await Json(context, await new RoundWriting(desk.Cellars, desk.Present).Each(entries));
        })),
        new("POST", "/round/photo", Scope.Measure, "A picture taken on a round; the same one is kept once.", (Func<HttpContext, Desk, PhotoKeeping, Task>)(async (context, desk, keeping) =>
        {
            using var bytes = new MemoryStream();
            await context.Request.Body.CopyToAsync(bytes, context.RequestAborted);
            try
            {
                var on = RoundEntry.DayHere(context.Request.Query["On"], desk.Present(await desk.Cellar(context.RequestAborted)));
                await keeping.Of(context.Request.Query["Id"].ToString(), bytes.ToArray(), on);
                await Json(context, new { done = true });
            }
            catch (Refusal refusal)
            {
                await Say(context, StatusCodes.Status422UnprocessableEntity, refusal.Message);
            }
        })),
    ];

    private static async Task<IReadOnlyList<RoundEntry>?> Entries(HttpContext context)
    {
        try
        {
            if (context.Request.HasJsonContentType() && await JsonSerializer.DeserializeAsync<RoundEntry[]>(context.Request.Body, Reading, context.RequestAborted) is { Length: <= MostEntries } entries && entries.All(entry => entry is not null))
                return entries;
        }
        catch (JsonException)
        {
            // said below
        }

        await Say(context, StatusCodes.Status400BadRequest, $"Send a JSON list of at most {MostEntries} entries.");
        return null;
    }

    private static Task Json(HttpContext context, object value)
    {
        context.Response.ContentType = "application/json; charset=utf-8";
        return context.Response.WriteAsync(JsonText.Of(value), context.RequestAborted);
    }

    private static Task Say(HttpContext context, int status, string sentence)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/plain; charset=utf-8";
        return context.Response.WriteAsync(sentence, context.RequestAborted);
    }
}
