using System.Globalization;
using Undercroft.Forecasts.Places;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Readings;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;
using Undercroft.Shell.Logs;

namespace Undercroft.Places.Logging;

/// <summary>A logger's file that a person hands in.</summary>
/// <param name="Source">The file.</param>
/// <param name="Place">Name, path or ID of the place; one that is not there is made.</param>
/// <param name="Answers">What the person says of the file.</param>
/// <param name="DryRun">True to write nothing and say the same numbers.</param>
public sealed record LoggerRequest(LogSource Source, string Place, LogAnswers Answers, bool DryRun = false);

/// <summary>Brings the readings of a logger to a place: the same file never twice, overlapping files once, all of it in one line that can be undone.</summary>
/// <param name="cellars">The cellar; null in a dry run where there is none yet.</param>
/// <param name="folder">Where the file is kept once it is in; null where it is not kept.</param>
/// <param name="presentOf">The present of a cellar.</param>
/// <param name="workbook">Reads workbooks; null where none are read.</param>
public sealed class ImportLogger(ICellars? cellars, Func<DataFolder>? folder, Func<Cellar, Present> presentOf, WorkbookSheets? workbook)
{
    private const int DeepestPath = 8;
    private const int LongestAssumed = 2000;

    /// <summary>Reads, understands and writes.</summary>
    /// <exception cref="Refusal">The file is no log, leaves something open, or is here already in another way. Nothing was written.</exception>
    public async ValueTask<LoggerAccount> RunAsync(LoggerRequest request, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (string.IsNullOrWhiteSpace(request.Place))
            throw new Refusal("No place was named. Say where the logger stood, such as closet / top shelf.");
        var before = cellars is null ? Cellar.Empty : await cellars.ReadAsync(View.Now, cancellation);
        before.TryFindPlace(request.Place); // several of that name are refused before the file is read
        var digest = Task.Run(request.Source.Sha256, cancellation);
        var log = LogReader.Read(request.Source, request.Answers, workbook, presentOf(before).Now);
        var sha256 = await digest;
        var figures = Task.Run(() => LogFigures.Of(log), cancellation); // beside the writing
        if (Here(before, request, log, sha256) is { } there)
            return LoggerAccount.Of(request, log, await figures, there, null, 0, log.Count, alreadyImported: true, correction: Corrections.At(before, there.Id, request.Answers.Sensor));
        ReadingsTaken? taken = null;
        CellarEvent? written = null;
        string? made = null;
        if (cellars is null)
            return LoggerAccount.Of(request, log, await figures, null, request.Place.Trim(), log.Count, 0, alreadyImported: false);
        KeptLog? kept = null;
        Change change;
        try
        {
            change = await cellars.ImportAsync(cellar => Batch(cellar, request, log, sha256, Begun, found => taken = found, name => made = name), cancellation);
            written = change.Events.FirstOrDefault(line => line.Fact is Fact.ReadingsImported);
            if (written is not null && kept is not null)
                await kept.KeepAsync();
        }
        finally
        {
            kept?.Dispose();
        }

        void Begun()
        {
            if (folder is not null && !request.DryRun)
                kept ??= new KeptLog(folder(), request.Source, sha256);
        }

        var place = change.After.TryFindPlace(request.Place) ?? change.Before.TryFindPlace(request.Place);
        return LoggerAccount.Of(
            request, log, await figures, place, made, (int)(taken!.Count - taken.Known), (int)taken.Known, alreadyImported: false, written,
            place is null ? null : Corrections.At(change.After, place.Id, request.Answers.Sensor), (int)taken.Differing);
    }

    private static Place? Here(Cellar cellar, LoggerRequest request, Log log, string sha256)
    {
        if (cellar.TryFindPlace(request.Place) is not { } place)
            return null;
        var same = cellar.Readings.Where(one => one.Fact.Place == place.Id && one.Fact.FileSha256 == sha256 && (one.Fact.Series ?? "") == (request.Answers.Sensor ?? "")).Select(one => one.Fact).FirstOrDefault();
        if (same is null)
            return null;
        if (same.Zone != log.Form.Zone || same.Unit != log.Form.Unit)
        {
            throw new Refusal(
                $"{request.Source.Name} is at {place.Name} already, read in zone {same.Zone ?? "of its own"} and unit {same.Unit ?? "none"}; now it would be {log.Form.Zone ?? "its own zone"} and {log.Form.Unit ?? "none"}. "
                + "Take the earlier import back first: undercroft history names its line, undercroft undo takes it back.");
        }

        return place;
    }

    private ReadingBatch Batch(Cellar cellar, LoggerRequest request, Log log, string sha256, Action begun, Action<ReadingsTaken> tell, Action<string> made)
    {
        var now = presentOf(cellar).Now;
        var lines = new List<CellarEvent>();
        var known = cellar.TryFindPlace(request.Place);
        var place = known?.Id ?? Made(cellar, request.Place, now, lines);
        if (known is null)
            made(request.Place.Trim());
        var assumed = string.Join(' ', log.Notes);
        return new ReadingBatch(Guid.CreateVersion7(now), Readings(log, begun), taken =>
        {
            tell(taken);
            if (request.DryRun || taken.AddsNothing)
                return [];
            var told = CellarEvent.New(
                taken.Fact(new Fact.ReadingsImported(place, request.Source.Name, sha256, request.Answers.Sensor, log.Form.Zone, log.Form.Unit, assumed.Length > LongestAssumed ? assumed[..LongestAssumed] : assumed, Rejected: log.Rejected)) with { Repeated = log.Repeated },
                taken.Happened, now);
            return [.. lines.Select(line => line with { Cause = told.Id }), told];
        }, known is null ? null : cellar.ReadingsOf(place, request.Answers.Sensor ?? ""));
    }

    // The ledger is there, and holds still, once its readings are asked for.
    private static IEnumerable<Reading> Readings(Log log, Action begun)
    {
        begun();
        for (var row = 0; row < log.Count; row++)
        {
            var (second, kelvin, humidity, pascals, lux) = log[row];
            yield return new Reading(
                second, double.IsNaN(kelvin) ? null : new Temperature(kelvin), double.IsNaN(humidity) ? null : new RelativeHumidity(humidity),
                double.IsNaN(pascals) ? null : new Pressure(pascals), double.IsNaN(lux) ? null : lux);
        }
    }

    // The part of a path that is there holds the part that is not.
    private static PlaceId Made(Cellar cellar, string path, DateTimeOffset now, List<CellarEvent> lines)
    {
        string[] names = [.. path.Split('/', '›', '>').Select(name => name.Trim()).Where(name => name.Length > 0)];
        if (names.Length is 0 or > DeepestPath)
            throw new Refusal($"'{path}' names no place. Write one, such as closet / top shelf, at most {DeepestPath.ToString(CultureInfo.InvariantCulture)} deep.");
        var fresh = new Queue<ShortId>(cellar.NextIds(names.Length));
        PlaceId? inside = null;
        for (var depth = 1; depth <= names.Length; depth++)
        {
            if (lines.Count == 0 && depth < names.Length && cellar.TryFindPlace(string.Join('/', names[..depth])) is { } there)
            {
                inside = there.Id;
                continue;
            }

            var id = new PlaceId(fresh.Dequeue());
            lines.Add(CellarEvent.New(new Fact.PlaceAdded(id, names[depth - 1], inside), UnevenDate.Unknown, now));
            inside = id;
        }

        return inside!.Value;
    }
}
