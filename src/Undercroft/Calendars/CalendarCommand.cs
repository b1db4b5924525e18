using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Calendars;

/// <summary><c>calendar</c>: what lies ahead, for any calendar program; and the same as a feed.</summary>
public static class CalendarCommand
{
    internal const string Type = "text/calendar; charset=utf-8";

    /// <summary>The feed. It never names anything: its address is kept in other programs.</summary>
    internal static Shell.Web.Endpoint Feed { get; } = new("GET", "/calendar.ics", Scope.Calendar, "The due dates as a calendar feed.", SentFile.Of(Type, "shelf-rounds.ics", async context =>
    {
        var desk = context.RequestServices.GetRequiredService<Desk>();
        var cellar = await desk.Cellar(context.RequestAborted);
        var today = desk.Present(cellar).Today;
        var recent = context.RequestServices.GetRequiredService<RecentAnswers>();
        return recent.Of(cellar, today, "calendar", () => ShelfCalendar.Bytes(cellar, today, memory: recent.Packages));
    }));

    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var file = new Option<string>("--out") { Description = "The calendar file to write, such as shelf.ics.", HelpName = "FILE", Required = true };
        var names = new Option<bool>("--names") { Description = "Tell blends, places and reasons too; without it the calendar tells a stranger nothing." };
        var seed = new Option<ulong>("--seed") { Description = "Of the forecasts.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var views = new ViewOptions();
        return line.Command("calendar", "Write what lies ahead as a calendar file (RFC 5545): a round a month, second looks, and forecasts as spans.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var entries = ShelfCalendar.Of(cellar, today, call.Value(names), call.Value(seed));
            var path = call.Terminal.FullPath(call.Value(file)!);
            OutFile.Write(path, ShelfCalendar.Bytes(cellar, today, call.Value(names), call.Value(seed)), "BEGIN:VCALENDAR"u8);
            return new Answer(
                new { files = new[] { path }, events = entries.Select(entry => new { uid = entry.Uid, first = DateText.Of(entry.First), last = DateText.Of(entry.Last), summary = entry.Summary }) },
                page =>
                {
                    page.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{entries.Count} {(entries.Count == 1 ? "entry" : "entries")} written to"));
                    page.WriteLine("  " + path);
                    foreach (var entry in entries.OrderBy(entry => entry.First).Take(10))
                        page.WriteLine($"  {DateText.Of(entry.First)} to {DateText.Of(entry.Last)}  {entry.Summary}");
                    page.WriteLine(call.Value(names) ? "It names what you keep and where: whoever sees the calendar reads it." : "It names nothing: codes alone.");
                });
        }, file, names, seed, views.AsOf, views.KnownOn);
    }
}
