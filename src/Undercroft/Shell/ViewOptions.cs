using System.CommandLine;
using System.Globalization;
using Undercroft.Forecasts.Places;
using Undercroft.Ledger;

namespace Undercroft.Shell;

/// <summary>Looking back: what was true then, and what the ledger said then.</summary>
public sealed class ViewOptions
{
    /// <summary>What was true on that day by today's knowledge.</summary>
    public Option<string?> AsOf { get; } = new("--as-of") { Description = "What was true on that day, by today's knowledge (YYYY-MM-DD).", HelpName = "DATE" };

    /// <summary>What the ledger said at the end of that day.</summary>
    public Option<string?> KnownOn { get; } = new("--known-on") { Description = "What the ledger said at the end of that day (YYYY-MM-DD).", HelpName = "DATE" };

    /// <summary>The view that a call asks for.</summary>
    /// <exception cref="Refusal">Not a day.</exception>
    public View Of(Call call)
    {
        ArgumentNullException.ThrowIfNull(call);
        DateTimeOffset? known = Day(call.Value(KnownOn)) is { } day ? new DateTimeOffset(day, TimeOnly.MaxValue, TimeSpan.Zero) : null;
        return new View(Day(call.Value(AsOf)), known);
    }

    /// <summary>The cellar that a call asks for, its logs fetched, and the day that counts as today in it: the day of <c>--as-of</c>, else the present.</summary>
    /// <exception cref="Refusal">Not a day.</exception>
    public async Task<(Cellar Cellar, DateOnly Today)> ReadAsync(Call call, ICellars cellars)
    {
        ArgumentNullException.ThrowIfNull(call);
        ArgumentNullException.ThrowIfNull(cellars);
        var view = Of(call);
        var cellar = await cellars.LearnAsync(await cellars.ReadAsync(view));
        return (cellar, view.AsOf ?? call.Present(cellar).Today);
    }

    /// <summary>A day as written; null where none was.</summary>
    /// <exception cref="Refusal">Not a day.</exception>
    public static DateOnly? Day(string? text) => text is null ? null
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day
        : throw new Refusal($"'{text}' is not a day: write it as YYYY-MM-DD.");
}
