using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Undercroft.Forecasts;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Due;
using Undercroft.Ledger;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Calendars;

/// <summary>What lies ahead as days and spans: a round a month instead of many alarms, days that were set for a second look, and forecasts as the spans that they are.</summary>
/// <remarks>
/// A calendar is seen by others, on a lock screen or across a table. So nothing in it tells what is kept, how much, where or what it is worth, unless the person asks for names.
/// </remarks>
public static class ShelfCalendar
{
    /// <summary>Rounds are planned so far ahead; further looks come into view with time.</summary>
    public const int MonthsAhead = 12;

    private const double ForecastYears = 2;

    /// <summary>The entries.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="today">The present.</param>
    /// <param name="withNames">True where blends, places and reasons may be told.</param>
    /// <param name="seed">Of the forecasts.</param>
    /// <param name="memory">What is known of packages from before; null works all of it out.</param>
    /// <param name="done">Called twice for each package here: once its stake is known, once its forecast is; by any thread.</param>
    public static IReadOnlyList<CalendarEntry> Of(Cellar cellar, DateOnly today, bool withNames = false, ulong seed = 1, PackageMemory? memory = null, Action? done = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var own = cellar.Lines.Count == 0 ? Guid.Empty : cellar.Lines[0].Event.Id;
        var due = DueList.Of(cellar, today, 100_000, seed: seed, memory: memory, done: done).Items.ToDictionary(item => item.Id, item => item.Reason);
        Package[] here = [.. cellar.Here];
        var again = here.Select(package => (Package: package, Set: Habit.SetFor(package))).Where(pair => pair.Set is not null && pair.Set.Value.Fact.LookAgain > today).ToArray();
        var looks = here.Where(package => again.All(pair => pair.Package.Id != package.Id))
            .Select(package => (Package: package, Day: due.ContainsKey(package.Id.ToString()) ? today : Later(Habit.DueOn(package, ContainerBelief.Of(cellar, package.Container).Kinds[0], today), today)))
            .Where(pair => pair.Day < today.AddMonths(MonthsAhead));
        List<CalendarEntry> entries =
        [
            .. looks.GroupBy(pair => (pair.Day.Year, pair.Day.Month)).Select(month => Round(month.Key.Year, month.Key.Month, [.. month])),
            .. again.Select(pair => new CalendarEntry(
                Uid(own, "again", pair.Package.Id.ToString()), pair.Set!.Value.Fact.LookAgain!.Value, pair.Set.Value.Fact.LookAgain!.Value, $"Look again: {pair.Package.Id}",
                withNames ? $"{Told(pair.Package)}\n{DecisionWords.Of(pair.Set.Value.Fact.As)}{(pair.Set.Value.Fact.Text is { } why ? ": " + why : "")}" : "")),
        ];
        var ask = new ForecastAsk(today, ForecastYears, 64, seed) { WithNarrowing = false, WaterOnly = true };
        entries.AddRange(here.AsParallel().AsOrdered().Select(package => (Package: package, Forecast: ForecastOf(package)))
            .Where(pair => pair.Forecast is { Condition: Condition.Drying, DryDay: { P5: not null, P50: not null } })
            .Select(pair => new CalendarEntry(
                Uid(own, "span", pair.Package.Id.ToString()), Day(pair.Forecast.DryDay.P5!.Value), Day(pair.Forecast.DryDay.P95 ?? ForecastYears * 365.25), $"About now: {pair.Package.Id}",
                withNames ? $"{Told(pair.Package)}\n{pair.Forecast.Verdict}" : "A span, since the day is not known better. A look before it begins is worth most."))
            .AsEnumerable());
        return entries;

        CalendarEntry Round(int year, int month, IReadOnlyList<(Package Package, DateOnly Day)> items)
        {
            var first = items.Min(item => item.Day);
            var last = new DateOnly(year, month, 1).AddMonths(1).AddDays(-1);
            var codes = string.Join(", ", items.OrderBy(item => item.Day).ThenBy(item => item.Package.Id.Id).Select(item => item.Package.Id));
            var lines = items.OrderBy(item => cellar.PathOf(item.Package.Place), NameOrder.Instance)
                .Select(item => Told(item.Package) + (due.TryGetValue(item.Package.Id.ToString(), out var reason) ? $": {reason}" : ""));
            return new(
                Uid(own, "round", string.Create(CultureInfo.InvariantCulture, $"{year:0000}-{month:00}")), first, last,
                string.Create(CultureInfo.InvariantCulture, $"Shelf round: {items.Count} {(items.Count == 1 ? "item" : "items")}"), withNames ? string.Join('\n', lines) : codes);
        }

        PackageForecast ForecastOf(Package package)
        {
            var forecast = memory is null ? Forecaster.Of(cellar, package.Id, ask) : memory.Of(cellar, package, today, $"due {seed}", () => Forecaster.Of(cellar, package.Id, ask));
            done?.Invoke();
            return forecast;
        }

        string Told(Package package) => $"{package.Id} {PackageWords.Title(cellar, package)}, {PackageWords.Place(cellar, package)}";

        DateOnly Day(double days) => today.AddDays((int)Math.Round(Math.Min(days, ForecastYears * 365.25)));
    }

    /// <summary>The whole stream; the same cellar and day give the same bytes.</summary>
    public static byte[] Bytes(Cellar cellar, DateOnly today, bool withNames = false, ulong seed = 1, PackageMemory? memory = null) => Encoding.UTF8.GetBytes(
        CalendarText.Of("Shelf rounds", Of(cellar, today, withNames, seed, memory), new DateTimeOffset(today, new TimeOnly(12, 0), TimeSpan.Zero)));

    private static DateOnly Later(DateOnly a, DateOnly b) => a > b ? a : b;

    /// <summary>The same for the same thing in the same cellar, and for nothing else; it tells nothing.</summary>
    private static string Uid(Guid cellar, string what, string of)
    {
        var digest = SHA256.HashData(Encoding.UTF8.GetBytes($"{cellar:N}/{what}/{of}"))[..16];
        digest[6] = (byte)((digest[6] & 0x0F) | 0x80); // RFC 9562, version 8: made from a digest
        digest[8] = (byte)((digest[8] & 0x3F) | 0x80);
        return new Guid(digest, bigEndian: true).ToString();
    }
}
